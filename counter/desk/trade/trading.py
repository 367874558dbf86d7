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
from counter.store.records.sale import SALE
from counter.trade.buying import Bought, Deal, note_purchase
from counter.trade.settings import House
from counter.trade.stock_book import Book
from counter.values.cost_code import in_code
from counter.values.currency import to_sterling
from counter.values.errors import UserError
from counter.values.item import Item, item_from_row
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
        self.house = House(self.ledger, self.library.money)
        self.book = Book(self.house, self.names)

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
            foreign = self.house.foreign(line.currency.code, line.amount, when)
            rate = self.house.exchange(line.currency.code, when)[1]
            total = to_sterling(line.amount, line.currency, rate)
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
            foreign=foreign,
        )
        return ReadDeal(line, pieces, deal)

    def buy(self, text: str, day: str = "") -> Bought:
        """Read a purchase line and note it durably. Raises UserError; then nothing changed."""
        return note_purchase(self.house, self.read_deal(text, day).deal)

    def item(self, number: str) -> Item:
        """A piece by its stock number; raises UserError when there is none."""
        found = self.workspace.item(number)
        if found is None:
            raise UserError(f"There is no stock number {number}.")
        return found

    def schedule(self) -> Schedule:
        """The house schedule with the dealer's own edits."""
        return Schedule(self.library.money.schedule, self.house.own_factors())

    def market(self) -> Market:
        """What prices are judged by, with the dealer's own edits."""
        months = self.house.business.half_life_months
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
        return in_code(pence, self.house.business.cost_code)

    def picture(self, item: Item, made: Suggestion) -> Picture:
        """The suggestion drawn, with what is asked for the piece."""
        return picture(made, item.asking)

    def evidence(self, subject: Item) -> Iterator[Evidence]:
        """Own sales that stand and asking prices of the same issue."""
        if not subject.issue:
            return
        ledger = self.ledger
        items = {
            row["number"]: row for row in ledger.rows("items") if row.get("issue") == subject.issue
        }
        back = {
            (row["refund_of"], line["item"])
            for row in ledger.rows("sales")
            if row.get("refund_of")
            for line in row.get("lines", ())
        }
        for row in ledger.rows("sales"):
            if row.get("refund_of") or row.get("status", "complete") != "complete":
                continue
            held = [line["item"] for line in row.get("lines", ()) if line["item"] in items]
            if not held or row.get("disposal", "sold") not in ("sold", "exported"):
                continue
            sale = SALE.build(dict(row))
            prices = {line.item: line.price_pence - line.discount_pence for line in sale.lines}
            for number in held:
                if (sale.id, number) not in back and prices[number] > 0:
                    item = item_from_row(dict(items[number]))
                    yield Evidence(number, item, prices[number], sale.date)
        for number, row in items.items():
            if row.get("asking") and row.get("status", "in stock") != "sold":
                item = item_from_row(dict(row))
                yield Evidence(number, item, row["asking"], row.get("noted") or self.today, "asking")

    def vat_part(self, day: str = "") -> Fraction:
        """The VAT fraction an offer counts with; nought while not registered."""
        when = day or self.today
        return self.house.vat_rate(when).part if self.house.business.registered(when) else NO_VAT

    def offer(self, resale: int, profit: Wanted | None = None) -> Offer:
        """What to offer at most at an expected resale; `profit` None is the house's own share."""
        share = Fraction(self.house.business.profit_percent, 100)
        wanted = share if profit is None else profit
        return offer(resale, wanted, self.vat_part(), self.library.money)
