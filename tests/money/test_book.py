"""The stock book: every line, its gaps, the return's boxes, global accounting, files and pages.

Worked by hand from the rules in data/money/vat.toml; csv and html parsers are the outside readers.
"""

import csv
import io
from datetime import datetime
from html.parser import HTMLParser

import pytest

from counter.documents.book_pages import COLUMNS, book_csv, book_layout, book_text
from counter.documents.html_page import html_of
from counter.store.ledger import Ledger
from counter.trade.buying import complete_purchase
from counter.trade.people import complete_person
from counter.trade.refunds import note_refund
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import global_pool, registration_warning, totals, turnover
from counter.values.errors import UserError
from counter.values.item import Item

from .conftest import DAY, Buy


def sell(house: Settings, number: str, pence: int, day: str = DAY, **how: object) -> str:
    order = Order(day, (Wanted(number, pence),), payments=(("cash", pence),), buyer="Green", **how)  # type: ignore[arg-type]
    return note_sale(house, order).sale.id


def test_losses_are_never_offset_and_vat_is_summed_by_line(
    house: Settings, book: Book, buy: Buy
) -> None:
    for cost, price in ((10000, 25000), (50000, 100000), (40000, 35000), (1000, 1016)):
        sell(house, buy(cost, payment="card").items[0].number, price)
    sums = totals(book, DAY, DAY)
    # published lines 25.00, 83.33 and nil (uk-accountant-margin); 16p / 6 is 2.67p, so 3p
    assert sums.vat_on_margins == 2500 + 8333 + 0 + 3
    assert (sums.profit, sums.losses) == (15000 + 50000 + 16, -5000)
    assert sums.box_1 == sums.vat_on_margins
    assert sums.box_6 == sums.sold - sums.box_1  # rule "return-boxes" (notice-718-2)
    assert sums.box_7 == 101000


def test_each_sale_has_the_rate_of_its_day(house: Settings, book: Book, buy: Buy) -> None:
    house.change_business(registered_from="2008-01-01")
    for day, vat in (("2011-01-03", 1489), ("2011-01-04", 1667), ("2009-06-01", 1304)):
        number = buy(10000, day="2008-02-01").items[0].number
        sell(house, number, 20000, day)
        assert book.lines(day, day)[0].vat_due == vat  # 7/47, 1/6, 3/23 of 100.00


def test_a_rate_the_dealer_notes_holds_from_its_day(house: Settings, book: Book, buy: Buy) -> None:
    house.set_vat_rate("25", "2026-06-01")
    first, second = (buy(10000).items[0].number for _ in range(2))
    sell(house, first, 20000, "2026-05-31")
    sell(house, second, 20000, "2026-06-01")
    assert [line.vat_due for line in book.lines("2026-05-31", "2026-06-01") if line.sale_date] == [
        1667,
        2000,
    ]


def test_what_the_law_asks_for_and_is_missing_is_listed(house: Settings, book: Book, buy: Buy) -> None:
    bought = buy(4500)
    sale = note_sale(house, Order(DAY, (Wanted(bought.items[0].number, 5000),)))
    assert book.lines(DAY, DAY)[0].gaps == ("Seller's address", "Name of buyer")
    complete_person(house.ledger, bought.purchase.seller, address="2 Low Lane")
    assert book.lines(DAY, DAY)[0].gaps == ("Name of buyer",)
    complete_purchase(house, bought.purchase.id, seller_kind="margin scheme")
    assert book.lines(DAY, DAY)[0].gaps == ("Purchase invoice number", "Name of buyer")
    assert sale.sale.id in book_csv(book.lines(DAY, DAY))


def test_a_piece_without_a_purchase_is_a_gap(house: Settings, book: Book) -> None:
    from counter.store.entry import Change

    house.ledger.note("stock imported", [Change("items", "X1", {"number": "X1", "noted": DAY})])
    line = book.lines(DAY, DAY)[0]
    assert "no purchase noted" in line.gaps and "Purchase price" in line.gaps
    assert "Description of the item" in line.gaps


def test_global_accounting_carries_its_excess_on(house: Settings, book: Book, buy: Buy) -> None:
    # The Dutch authority's two quarters (nl-ob203) in pounds at a hundredth: 400 in and 300 out, then
    # 250 in and 400 out; at one sixth the second bears (400 - 250 - 100) / 6 = 8.33.
    house.change_business(scheme="global", global_since="2026-01-01")
    one = buy(40000, day="2026-02-01", payment="card").items[0].number
    sell(house, one, 30000, "2026-03-01")
    first = totals(book, "2026-01-01", "2026-03-31")
    assert first.pool is not None and (first.box_1, first.pool.worked.carried_forward) == (0, 10000)
    two = buy(25000, day="2026-04-01", payment="card").items[0].number
    sell(house, two, 40000, "2026-05-01")
    second = totals(book, "2026-04-01", "2026-06-30")
    assert second.pool is not None
    assert (second.pool.brought_forward, second.pool.worked.balance, second.box_1) == (10000, 5000, 833)
    line = next(each for each in book.lines("2026-04-01", "2026-06-30") if each.sale_date)
    assert (line.scheme, line.margin, line.vat_due) == ("global", None, None)


def test_opening_stock_and_pieces_taken_out_of_the_pool(house: Settings, book: Book, buy: Buy) -> None:
    # Rules "ga-opening-stock" (VATMARG03450), "ga-removal" (VATMARG03400).
    house.change_business(scheme="global", global_since="2026-04-01", opening_stock_pence=50000)
    kept, exported, sold = (buy(10000, payment="card").items[0].number for _ in range(3))
    note_sale(house, Order(DAY, (Wanted(kept, 0),), disposal="kept"))
    sell(house, exported, 20000, disposal="exported")
    sell(house, sold, 90000)
    pool = global_pool(book, "2026-04-01", "2026-06-30")
    assert pool is not None
    assert (pool.purchases, pool.removed, pool.sales) == (80000, 20000, 90000)
    assert pool.worked.vat == 5000


def test_a_global_sale_refunded_leaves_the_pool_as_it_was(
    house: Settings, book: Book, buy: Buy
) -> None:
    house.change_business(scheme="global", global_since="2026-04-01")
    number = buy(10000, payment="card").items[0].number
    before = totals(book, "2026-04-01", "2026-06-30")
    sale = sell(house, number, 30000)
    assert totals(book, "2026-04-01", "2026-06-30").box_1 == 3333
    note_refund(house, sale, [], DAY, "sent back", "cash")
    assert totals(book, "2026-04-01", "2026-06-30") == before


def test_the_book_rebuilt_from_the_journal_is_the_live_one(
    house: Settings, book: Book, buy: Buy
) -> None:
    for cost, price in ((4500, 7250), (100, 90)):
        sell(house, buy(cost).items[0].number, price)
    live, folder = book.lines(DAY, DAY), house.ledger.folder
    house.ledger.close()
    for kept in folder.glob("snapshot*"):
        kept.unlink()
    again = Ledger.open(folder, clock=lambda: datetime(2026, 5, 2, 9), read_only=True)
    rebuilt = Book(Settings(again, house.facts), {})
    assert rebuilt.lines(DAY, DAY) == live
    assert totals(rebuilt, DAY, DAY) == totals(book, DAY, DAY)
    again.close()


def test_the_file_reads_back_and_runs_no_formula(house: Settings, book: Book, buy: Buy) -> None:
    bought = buy(4500, seller='=HYPERLINK("http://x")', payment="card")
    sell(house, bought.items[0].number, 4000)
    rows = list(csv.DictReader(io.StringIO(book_csv(book.lines(DAY, DAY)))))
    assert list(rows[0]) == [*COLUMNS, "missing"]
    assert rows[0]["margin"] == "-5.00" and rows[0]["selling_price"] == "40.00"
    assert rows[0]["seller_name"].startswith("'=")


class Cells(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.tags: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def test_the_page_shows_text_as_typed(house: Settings, book: Book, buy: Buy) -> None:
    bought = buy(4500, seller="<script>alert(1)</script> & Co", payment="card")
    sell(house, bought.items[0].number, 7250)
    lines, sums = book.lines(DAY, DAY), totals(book, DAY, DAY)
    read = Cells()
    read.feed(html_of(book_layout(house.business, DAY, DAY, lines, sums)))
    assert "<script>alert(1)</script> & Co" in read.texts and "script" not in read.tags
    assert "£4.58" in read.texts
    assert "Box 1" in book_text(DAY, DAY, lines, sums)


def test_turnover_near_the_registration_limit_is_said(house: Settings, book: Book, buy: Buy) -> None:
    # Rule "registration-turnover" (VATREG02400): full prices count; £90,000 from 1 April 2024.
    house.change_business(registered_from="", high_value_dealer="XYZ 1")
    number = buy(10000, payment="card").items[0].number
    sell(house, number, 7199999)
    assert registration_warning(book, DAY) == ""
    other = buy(100, payment="card").items[0].number
    sell(house, other, 1)
    assert turnover(book, DAY) == 7200000 and "comes near" in registration_warning(book, DAY)
    assert turnover(book, "2027-04-30") == 7200000 and turnover(book, "2027-05-01") == 0


def test_a_wrong_edit_of_the_house_is_refused(house: Settings) -> None:
    for wrong in (
        {"scheme": "magic"},
        {"registered_from": "soon"},
        {"warn_cash_pence": -1},
        {"name": 5},
        {"period_months": 0},
    ):
        with pytest.raises(UserError):
            house.change_business(**wrong)
    for call in (
        lambda: house.set_limit("moon-tax", 5, DAY),
        lambda: house.set_vat_rate("nan", DAY),
        lambda: house.set_factor("fault-thin", "-1"),
        lambda: house.set_factor("fault-none", "1"),
        lambda: house.set_exchange("ZZZ", "1.1", DAY),
        lambda: house.set_exchange("EUR", "0", DAY),
        lambda: house.set_exchange("GBP", "1", DAY),
        lambda: house.on(DAY).rate("EUR"),
    ):
        with pytest.raises(UserError):
            call()
    assert house.business.scheme == "margin" and house.on(DAY).factors == {}


def test_a_sale_line_has_the_words_it_was_sold_by(house: Settings, book: Book, buy: Buy) -> None:
    number = buy(4500).items[0].number
    note_sale(house, Order(DAY, (Wanted(number, 5000, "1d red, as described on the day"),)))
    assert book.lines(DAY, DAY)[0].description == "1d red, as described on the day"
    assert book.item("nothing") == Item("nothing")


def test_a_lot_may_go_into_the_pool_and_its_dear_piece_comes_out(house: Settings, buy: Buy) -> None:
    from counter.trade.lots import split_by_hand

    house.change_business(scheme="global", global_since="2026-01-01")
    lot = buy(160000, 2, payment="card")
    assert {each.scheme for each in lot.items} == {"global"}
    first, second = lot.purchase.items
    made = split_by_hand(house, lot.purchase.id, {first: 120000, second: 40000}, DAY)
    assert [each.scheme for each in made.items] == ["margin", "global"]
    assert buy(60000, payment="card").items[0].scheme == "margin"


def test_old_stock_above_the_limit_is_sold_under_the_margin_scheme(house: Settings, buy: Buy) -> None:
    house.change_business(registered_from="")
    old = buy(60000, payment="card").items[0].number
    house.change_business(registered_from="2026-05-02", scheme="global", global_since="2026-05-02")
    sale = note_sale(house, Order("2026-05-03", (Wanted(old, 66000),))).sale
    assert (sale.lines[0].scheme, sale.lines[0].vat_pence) == ("margin", 1000)
