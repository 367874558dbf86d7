"""Trading: the purchase line read and noted, prices from the own book, offers, the stock book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from counter.desk.stock.item_from_text import ReadPiece, read_piece
from counter.desk.trade.pricing import market_of
from counter.desk.trade.purchase_line import DealLine, read_deal_line
from counter.desk.workspace import Workspace
from counter.judge.observation import Reading
from counter.judge.price.comparables import Evidence
from counter.judge.price.multiples import BothWays, both_ways
from counter.judge.price.offer import Offer, Wanted, offer
from counter.judge.price.price_chart import Picture, picture
from counter.judge.price.schedule import Schedule
from counter.judge.price.suggest import suggest
from counter.judge.price.suggestion import Suggestion
from counter.judge.price.things import Market
from counter.trade.buying import Bought, Deal, note_purchase
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.values.cost_code import in_code
from counter.values.currency import to_sterling
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.vat import NO_VAT, Margin, on_full_price, on_margin


@dataclass(frozen=True, slots=True)
class ReadDeal:
    """A purchase line as it would be noted: the line's parts, each piece read, the deal itself."""

    line: DealLine
    pieces: tuple[ReadPiece, ...]
    deal: Deal


@dataclass(frozen=True, slots=True)
class Priced:
    """A suggestion, and a multiple with one bad stamp both ways (None: not parted)."""

    made: Suggestion
    ways: BothWays | None


class Trading:
    """The verbs of buying, pricing and the book over what is open on the desk."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.library = workspace.library
        self.ledger = workspace.ledger
        self.names = workspace.names
        self.settings = Settings(self.ledger, self.library.money)
        self.book = Book(self.settings, self.names)

    @property
    def today(self) -> str:
        """The desk's day, ISO."""
        return self.workspace.today().isoformat()

    def read_deal(self, text: str, day: str = "", scheme: str = "") -> ReadDeal:
        """Read a purchase line back without noting anything. Raises UserError in one sentence."""
        when = day or self.today
        line = read_deal_line(text, self.library.money.currencies)
        pieces = tuple(read_piece(words, self.library) for words, _ in line.pieces)
        total, foreign = line.amount, None
        if line.currency.code != "GBP":
            terms = self.settings.on(when)
            foreign = terms.foreign(line.currency.code, line.amount)
            rate = terms.rate(line.currency.code)[1]
            total = to_sterling(line.amount, line.currency, rate)
            if line.parts:
                raise UserError(
                    "Sums in parts are noted in pounds alone; write one sum in the currency."
                )
        deal = Deal(
            day=when,
            total_pence=total,
            pieces=tuple(each.item for each in pieces),
            words=line.words,
            payment=line.payment,
            seller=line.seller,
            seller_kind=line.seller_kind,
            scheme=scheme,
            expected=tuple(price for _, price in line.pieces if price is not None),
            shares=line.shares if len(pieces) > 1 else (),
            parts=line.parts,
            foreign=foreign,
        )
        return ReadDeal(line, pieces, deal)

    def buy(self, text: str, day: str = "") -> Bought:
        """Read a purchase line and note it durably. Raises UserError; then nothing changed."""
        return note_purchase(self.settings, self.read_deal(text, day).deal)

    def item(self, number: str) -> Item:
        """A piece by its stock number; raises UserError when there is none."""
        found = self.workspace.item(number)
        if found is None:
            raise UserError(f"There is no stock number {number}.")
        return found

    def schedule(self) -> Schedule:
        """The house schedule with the dealer's own edits."""
        return Schedule(self.library.money.schedule, self.settings.on(self.today).factors)

    def market(self) -> Market:
        """What prices are judged by, with the dealer's own edits."""
        months = self.settings.business.half_life_months
        return market_of(self.library, self.schedule(), months)

    def price(self, item: Item, reading: Reading | None = None) -> Suggestion:
        """A price for a piece in stock, or with its `reading` in the hand, from own sales."""
        market = self.market()
        evidence = list(self.evidence(item))
        return suggest(market.thing(item, reading), evidence, market, self.today)

    def priced(self, item: Item, reading: Reading | None = None) -> Priced:
        """The same, a multiple with one bad stamp both ways."""
        market = self.market()
        evidence, subject = list(self.evidence(item)), market.thing(item, reading)
        made = suggest(subject, evidence, market, self.today)
        return Priced(made, both_ways(subject, made, evidence, market, self.today))

    def left(self, item: Item, cost: int, at: int) -> Margin:
        """What selling at a price leaves after VAT, by the piece's scheme and the day's rate."""
        part = NO_VAT if item.scheme == "none" else self.vat_part()
        return (on_full_price if item.scheme == "ordinary" else on_margin)(cost, at, part)

    def cost_code(self, pence: int) -> str:
        """A cost in the dealer's own ten letters; "" when none were chosen."""
        return in_code(pence, self.settings.business.cost_code)

    def picture(self, item: Item, made: Suggestion) -> Picture:
        """The suggestion drawn, with what is asked for the piece."""
        return picture(made, item.asking)

    def evidence(self, subject: Item) -> Iterator[Evidence]:
        """Own sales that stand and asking prices of the same issue."""
        if not subject.issue:
            return
        items = {each.number: each for each in self.ledger.items.of_issue(subject.issue)}
        for sale, line in self.ledger.sales.standing():
            price = line.price_pence - line.discount_pence
            if line.item in items and price > 0:
                yield Evidence(line.item, items[line.item], price, sale.date)
        for item in items.values():
            if item.asking and item.status != "sold":
                yield Evidence(item.number, item, item.asking, item.noted or self.today, "asking")

    def vat_part(self, day: str = "") -> Fraction:
        """The VAT fraction an offer counts with; nought while not registered."""
        return self.settings.on(day or self.today).vat_part

    def offer(self, resale: int, profit: Wanted | None = None) -> Offer:
        """What to offer at most at an expected resale; `profit` None is the house's own share."""
        share = Fraction(self.settings.business.profit_percent, 100)
        wanted = share if profit is None else profit
        return offer(resale, wanted, self.vat_part(), self.library.money)
