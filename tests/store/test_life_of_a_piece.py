"""A piece's whole life in any order: bought, quoted, held, sold, sent out, brought back, edited.

Whatever is tried, and whether or not it is refused: a piece is in at most one open sale and its status
says so, and only sales that stand are evidence of a price.
"""

from __future__ import annotations

import shutil
from contextlib import suppress
from datetime import datetime
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from counter.desk.desk import Desk
from counter.desk.opening import open_desk
from counter.desk.stock.edit_item import save_field
from counter.reference.library import Library
from counter.store.ledger import Ledger
from counter.store.records.check import TABLES
from counter.trade.accounts_day import standing_on
from counter.trade.after_sale import cancel_deposit, hand_over, keep_approval, note_balance
from counter.trade.buying import Deal, note_purchase
from counter.trade.corrections import correct
from counter.trade.filing import file_return
from counter.trade.quotes import end_quote, note_quote, order_from_quote
from counter.trade.refunds import Allowing, note_allowance, note_refund
from counter.trade.selling import Order, Wanted, note_exchange, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.year import read_year
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.quote import QuoteLine, RunningQuote

DAY = "2026-05-01"
ISSUE = "penny_red_1841"
_HELD = {"complete": "sold", "deposit": "reserved", "on approval": "on approval"}

places = st.integers(0, 5)
prices = st.integers(100, 9_000)
TRIED = suppress(UserError)


@cache
def library() -> Library:
    return Library()


class LifeOfAPiece(RuleBasedStateMachine):
    """Buy, quote, hold, sell, approve, send back, refund, edit, take back, in any order."""

    @initialize()
    def opened(self) -> None:
        self.place = Path(mkdtemp())
        clock = datetime.fromisoformat("2026-05-01T12:00:00+01:00")
        self.desk: Desk = open_desk(self.place / "own", library=library(), clock=lambda: clock)
        self.books, self.ledger = self.desk.trading.settings, self.desk.ledger
        self.by_hand: set[str] = set()  # reserved for somebody without a sale
        self.buy(price=500, count=2)

    def teardown(self) -> None:
        """The book is added up anew from the journal alone, and must be the one that was kept."""
        if not hasattr(self, "desk"):
            return
        kept, lines, sums = self.whole(self.books)
        folder = self.ledger.folder
        self.desk.close()
        for each in folder.glob("snapshot*"):
            each.unlink()
        ledger = Ledger.open(folder, clock=self.ledger.clock)
        again = self.whole(Settings(ledger, self.books.facts))
        ledger.close()
        shutil.rmtree(self.place)
        assert again == (kept, lines, sums)

    @staticmethod
    def whole(books: Settings) -> tuple[object, object, object]:
        rows = {table: [dict(each) for each in books.ledger.rows(table)] for table in TABLES}
        book = Book(books, {})
        year = read_year(book, "2026-01-01", "2026-12-31")
        return rows, book.lines("2026-01-01", "2026-12-31"), (year, standing_on(book, DAY))

    def piece(self, place: int) -> str:
        numbers = [each.number for each in self.ledger.items.records()]
        return numbers[place % len(numbers)]

    def sale(self, place: int) -> str:
        sales = [each.id for each in self.ledger.sales.records()]
        return sales[place % len(sales)] if sales else "WK-S0"

    @rule(price=prices, count=st.integers(1, 2))
    def buy(self, price: int, count: int) -> None:
        pieces = tuple(Item("", issue=ISSUE, asking=price + each) for each in range(count))
        note_purchase(self.books, Deal(DAY, price, pieces, payment="cash", shares=shares(price, count)))

    @rule(place=places, price=prices, also=places)
    def quote(self, place: int, price: int, also: int) -> None:
        lines = {self.piece(each): QuoteLine(self.piece(each), "", price) for each in (place, also)}
        with TRIED:
            note_quote(self.books, RunningQuote(tuple(lines.values())), DAY)

    @rule(place=places, take=st.booleans())
    def answer_a_quote(self, place: int, take: bool) -> None:
        quotes = [each.id for each in self.ledger.quotes.records()]
        if quotes:
            with TRIED:
                number = quotes[place % len(quotes)]
                if take:
                    note_sale(self.books, order_from_quote(self.ledger, number, DAY))
                else:
                    end_quote(self.ledger, number)

    @rule(
        place=places,
        also=places,
        price=prices,
        status=st.sampled_from(["complete", "complete", "deposit", "on approval"]),
        disposal=st.sampled_from(["sold", "sold", "sold", "exported", "lost"]),
    )
    def sell(self, place: int, also: int, price: int, status: str, disposal: str) -> None:
        lines = tuple(Wanted(each, price) for each in {self.piece(place), self.piece(also)})
        paid = (("cash", 50),) if status == "deposit" else ()
        order = Order(
            DAY, lines, status=status, payments=paid, due_back="2026-06-01", disposal=disposal
        )
        if status != "complete" and disposal != "sold":
            return
        with TRIED:
            note_sale(self.books, order)

    @rule(place=places, price=prices)
    def exchange(self, place: int, price: int) -> None:
        taken = Deal(DAY, 100, (Item("", issue=ISSUE),))
        with TRIED:
            note_exchange(self.books, Order(DAY, (Wanted(self.piece(place), price),)), taken)

    @rule(place=places)
    def pay(self, place: int) -> None:
        with TRIED:
            note_balance(self.books, self.sale(place), "cash", DAY)

    @rule(place=places, kept=places)
    def answer_an_approval(self, place: int, kept: int) -> None:
        with TRIED:
            sale = self.ledger.sales.of(self.sale(place))
            keep_approval(self.books, sale.id, sale.pieces[: kept % (len(sale.pieces) + 1)], DAY)

    @rule(place=places, some=places)
    def refund(self, place: int, some: int) -> None:
        with TRIED:
            sale = self.ledger.sales.of(self.sale(place))
            back = sale.pieces[: some % (len(sale.pieces) + 1)]
            note_refund(self.books, sale.id, back, DAY, "faulty", "cash")

    @rule(place=places, pence=prices)
    def allow(self, place: int, pence: int) -> None:
        with TRIED:
            note_allowance(self.books, self.sale(place), pence, Allowing(DAY), "a thin")

    @rule(place=places, pence=prices, field=st.sampled_from(["price", "date", "payment", "buyer"]))
    def correct_a_sale(self, place: int, pence: int, field: str) -> None:
        right = {"price": str(pence), "date": "2026-05-02", "payment": "card", "buyer": "Bo"}[field]
        with TRIED:
            correct(self.books, self.sale(place), {field: right}, DAY, "slip")

    @rule(place=places, pence=prices, field=st.sampled_from(["total", "seller_kind", "seller"]))
    def correct_a_purchase(self, place: int, pence: int, field: str) -> None:
        right = {"total": str(pence), "seller_kind": "VAT shown", "seller": "Ann"}[field]
        purchases = self.ledger.purchases.records()
        with TRIED:
            number = purchases[place % len(purchases)].id
            correct(self.books, number, {field: right}, DAY, "slip")

    @rule(place=places)
    def hand_over(self, place: int) -> None:
        with TRIED:
            hand_over(self.books, self.sale(place), DAY)

    @rule()
    def file_the_quarter(self) -> None:
        with TRIED:
            file_return(Book(self.books, {}), "2026-04-01", "2026-06-30", "2026-07-20")

    @rule(place=places)
    def fall_through(self, place: int) -> None:
        with TRIED:
            cancel_deposit(self.books, self.sale(place), DAY, "cash", 10)

    @rule(place=places, status=st.sampled_from(["in stock", "reserved", "withdrawn"]))
    def set_by_hand(self, place: int, status: str) -> None:
        number = self.piece(place)
        with TRIED:
            save_field(self.desk, number, "status", status)

    @rule(place=places, price=prices)
    def price_anew(self, place: int, price: int) -> None:
        save_field(self.desk, self.piece(place), "asking", str(price))

    @precondition(lambda self: len(self.ledger.purchases) > 1)
    @rule()
    def take_back(self) -> None:
        with TRIED:
            self.desk.take_back()

    @invariant()
    def a_piece_is_in_one_open_sale_at_most_and_its_status_says_so(self) -> None:
        for item in self.ledger.items.records():
            held = self.ledger.sales.holding(item.number)
            assert len(held) <= 1, f"{item.number} is in {[each.id for each in held]}"
            if not held:
                assert item.status in ("in stock", "reserved", "withdrawn"), item
            elif held[0].went:
                assert item.status == _HELD[held[0].status], (item, held)
            else:
                assert item.status == "withdrawn", (item, held)

    @invariant()
    def only_sales_that_stand_are_evidence_of_a_price(self) -> None:
        """Asked of the rows, not of the tables' own questions."""
        rows = self.ledger.rows("sales")
        back = {
            (row["refund_of"], x["item"])
            for row in rows
            if row.get("refund_of") and not row.get("allowance")
            for x in row["lines"]
        }
        standing = sorted(
            (line["item"], line["price_pence"] - line.get("discount_pence", 0))
            for row in rows
            if row.get("status", "complete") == "complete" and not row.get("refund_of")
            if row.get("disposal", "sold") in ("sold", "exported")
            for line in row["lines"]
            if (row["id"], line["item"]) not in back
        )
        found = list(self.desk.trading.evidence(Item("", issue=ISSUE)))
        assert sorted((each.number, each.price) for each in found if each.kind == "sold") == standing
        asked = {each.number for each in found if each.kind == "asking"}
        assert asked == {
            x.number for x in self.ledger.items.records() if x.asking and x.status != "sold"
        }


def shares(price: int, count: int) -> tuple[int, ...]:
    return (price,) if count == 1 else (price // 2, price - price // 2)


TestLifeOfAPiece = LifeOfAPiece.TestCase
TestLifeOfAPiece.settings = settings(max_examples=25, stateful_step_count=30, deadline=None)
