"""VAT periods to the penny: global accounting over several, a rate that changes, registration between.

Every sum is worked by hand in its comment. Rules: "ga-bulk", "ga-opening-stock", "ga-removal" (VATMARG03400
and 03450), "return-boxes" (notice 718/2), rates of VAT as published: 17.5 % until 3 January 2011, then 20 %.
"""

import pytest

from counter.documents.book_pages import total_lines
from counter.documents.invoices import sale_invoice
from counter.trade.lots import split_by_hand
from counter.trade.refunds import note_refund
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.values.errors import UserError

from .conftest import Buy

Q1 = ("2026-01-01", "2026-03-31")


def sell(house: Settings, number: str, pence: int, day: str, **how: object) -> str:
    order = Order(day, (Wanted(number, pence),), payments=(("card", pence),), **how)  # type: ignore[arg-type]
    return note_sale(house, order).sale.id


def box_1(book: Book, since: str, until: str) -> int | None:
    return totals(book, since, until).box_1


@pytest.mark.parametrize("before", [True, False])
def test_a_lot_split_before_or_after_a_sale_bears_the_same(
    house: Settings, book: Book, buy: Buy, before: bool
) -> None:
    # 1000 for two, 900 and 100. The 900 is above 500: margin scheme, (1500 - 900) / 6 = 100.00. The
    # other stays in the pool: 0 - 100, carried on. Never (1500 - 1000) / 6 or 233.33.
    house.change_business(scheme="global", global_since="2026-01-01")
    lot = buy(100000, 2, day="2026-01-05")
    first, second = (each.number for each in lot.items)
    shares = {first: 90000, second: 10000}
    if before:
        split_by_hand(house, lot.purchase.id, shares, "2026-01-10")
    number = sell(house, first, 150000, "2026-01-20")
    if not before:
        split_by_hand(house, lot.purchase.id, shares, "2026-01-25")
    q1 = totals(book, "2026-01-01", "2026-03-31")
    assert (q1.box_1, q1.vat_on_margins) == (10000, 10000)
    assert q1.pool is not None and q1.pool.worked.carried_forward == 10000
    assert house.ledger.sales.of(number).lines[0].scheme == "margin"


def test_several_periods_are_the_sum_of_each(house: Settings, book: Book, buy: Buy) -> None:
    # Q1: 700 - 100 = 600, VAT 100.00. Q2: 0 - 800: nothing, 800 carried on. The year: 100.00, not 0.
    house.change_business(scheme="global", global_since="2026-01-01")
    sell(house, buy(10000, day="2026-01-10").items[0].number, 70000, "2026-02-01")
    for _ in range(2):
        buy(40000, day="2026-04-10")
    assert box_1(book, "2026-01-01", "2026-03-31") == 10000
    assert box_1(book, "2026-04-01", "2026-06-30") == 0
    year = totals(book, "2026-01-01", "2026-12-31")
    assert year.box_1 == 10000 and year.pool is not None
    assert (year.pool.worked.carried_forward, year.pool.purchases) == (80000, 90000)
    month = totals(book, "2026-02-01", "2026-02-28")  # no VAT period: no box, and it says why
    assert (month.box_1, month.box_6) == (None, None)
    assert any("whole VAT periods" in line for line in total_lines(month))


def test_the_rate_changes_within_a_period(house: Settings, book: Book, buy: Buy) -> None:
    # November 2010 to January 2011. Bought for 100 on 1 December, sold for 335 on 20 December: 235 at
    # 17.5 %, 235 x 7/47 = 35.00, not 235 / 6 = 39.17.
    house.change_business(
        registered_from="2005-01-01", scheme="global", global_since="2010-11-01", period_months=3
    )
    sell(house, buy(10000, day="2010-12-01").items[0].number, 33500, "2010-12-20")
    assert box_1(book, "2010-11-01", "2011-01-31") == 3500


def test_old_stock_counts_once_when_global_accounting_begins(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Bought for 40 under the margin scheme, opening stock of 40, sold for 100 in the first period:
    # (100 - 40) / 6 = 10.00 in the pool, and nothing beside it.
    number = buy(4000, day="2025-12-01").items[0].number
    house.change_business(scheme="global", global_since="2026-01-01", opening_stock_pence=4000)
    sale = sell(house, number, 10000, "2026-02-01")
    q1 = totals(book, "2026-01-01", "2026-03-31")
    assert (q1.box_1, q1.vat_on_margins) == (1000, 0)
    assert house.ledger.sales.of(sale).lines[0].scheme == "global"


def test_old_stock_exported_leaves_the_pool(house: Settings, book: Book, buy: Buy) -> None:
    # Unregistered stock of 100 and 50 is the opening value, 150. The 100 is exported: the pool holds
    # 50. The other is sold for 110: (110 - 50) / 6 = 10.00.
    house.change_business(registered_from="2026-01-01")
    gone, sold = (buy(cost, day="2025-12-01").items[0].number for cost in (10000, 5000))
    house.change_business(scheme="global", global_since="2026-01-01", opening_stock_pence=15000)
    sell(house, gone, 20000, "2026-02-01", disposal="exported")
    sell(house, sold, 11000, "2026-02-02")
    q1 = totals(book, "2026-01-01", "2026-03-31")
    assert q1.pool is not None and (q1.pool.removed, q1.box_1) == (10000, 1000)


def test_registered_within_a_period(house: Settings, book: Book, buy: Buy) -> None:
    # Sold 300 in February unregistered; registered from 1 March: cost 100, sold 300 in March, VAT
    # 200 / 6 = 33.33. Box 6: 300 - 33.33 = 266.67; box 7: the 100 bought in March alone. The February
    # sale refunded in March touches no box.
    house.change_business(registered_from="2026-03-01")
    early = sell(house, buy(10000, day="2026-01-10").items[0].number, 30000, "2026-02-10")
    sell(house, buy(10000, day="2026-03-02").items[0].number, 30000, "2026-03-10")
    q1 = totals(book, "2026-01-01", "2026-03-31")
    assert (q1.box_1, q1.box_6, q1.box_7, q1.registered) == (3333, 26667, 10000, True)
    note_refund(house, early, [], "2026-03-20", "sent back")
    after = totals(book, "2026-01-01", "2026-03-31")
    assert (after.box_1, after.box_6, after.box_7) == (3333, 26667, 10000)
    assert after.sold == 30000


def test_a_registered_dealer_gives_a_reason_for_no_scheme(house: Settings, buy: Buy) -> None:
    entries = house.ledger.state.entries
    with pytest.raises(UserError, match="give the reason"):
        buy(10000, scheme="none")
    assert house.ledger.state.entries == entries
    bought = buy(10000, scheme="none", reason="private collection, not of the business")
    assert bought.items[0].scheme == "none" and "private collection" in bought.purchase.remarks


def test_a_sale_that_mixes_schemes_has_a_paper_for_each(house: Settings, buy: Buy) -> None:
    # 72.50 under the margin scheme, 240 with VAT (40.00 in it), postage of 3.00 shared by price.
    margin = buy(4500).items[0].number
    full = buy(12000, seller_kind="VAT shown").items[0].number
    wanted = (Wanted(margin, 7250), Wanted(full, 24000))
    sale = note_sale(house, Order("2026-05-02", wanted, postage_pence=300)).sale
    with pytest.raises(UserError, match=rf"{sale.id}/margin and {sale.id}/ordinary"):
        sale_invoice(house, sale, {})
    one, two = (sale_invoice(house, sale, {}, scheme) for scheme in ("margin", "ordinary"))
    assert (one.number, two.number) == (f"{sale.id}/margin", f"{sale.id}/ordinary")
    assert (one.total, two.total) == ("£73.20", "£242.30")  # 300 x 7250 / 31250 = 69.6: 70p and £2.30
    assert "VAT at" not in one.text() and "VAT at 20 % £40.38" in two.text()  # 242.30 / 6
    with pytest.raises(UserError, match="its papers are"):
        sale_invoice(house, sale, {}, "global")


@pytest.mark.parametrize(("pence", "wanted"), [(25000, False), (25001, True)])
def test_over_250_pounds_an_ordinary_invoice_names_the_buyer(
    house: Settings, buy: Buy, pence: int, wanted: bool
) -> None:
    # VAT Notice 700, section 16: a simplified invoice up to £250, a full one above.
    number = buy(10000, seller_kind="VAT shown").items[0].number
    sale = note_sale(house, Order("2026-05-02", (Wanted(number, pence),))).sale
    assert ("buyer's name and address" in sale_invoice(house, sale, {}).missing) is wanted


def test_pence_are_dropped_from_a_negative_box(house: Settings, book: Book, buy: Buy) -> None:
    # Cost 50, sold 80.10 in Q2, refunded in Q3: -(80.10 - 5.02) = -75.08, so -75 and not -76.
    sale = sell(house, buy(5000).items[0].number, 8010, "2026-05-02")
    note_refund(house, sale, [], "2026-07-02", "x")
    q3 = totals(book, "2026-07-01", "2026-09-30")
    assert q3.box_6 == -7508
    assert any(line.split()[-1] == "-75" for line in total_lines(q3) if line.startswith("Box 6"))


def test_a_refund_line_adds_up_by_columns(house: Settings, book: Book, buy: Buy) -> None:
    sale = sell(house, buy(5000).items[0].number, 8000, "2026-05-02")
    note_refund(house, sale, [], "2026-07-02", "x")
    lines = book.lines("2026-01-01", "2026-12-31")
    for line in lines:
        assert line.margin == (line.selling_price or 0) - (line.purchase_price or 0)
    assert sum(line.purchase_price or 0 for line in lines) == 0


def leave_global(house: Settings, buy: Buy, pence: int) -> str:
    """Global accounting from January to June 2026 with one piece of so many pence still there."""
    house.change_business(scheme="global", global_since="2026-01-01")
    for _ in range(pence // 40000):
        number = buy(40000, day="2026-02-01").items[0].number
    house.change_business(scheme="margin", global_until="2026-06-30")
    return number


def test_leaving_global_accounting_gives_the_credit_back(house: Settings, book: Book, buy: Buy) -> None:
    # Rule "ga-closing": 16 x 400 = 6,400 held, VAT in it 1,066.67, over 1,000: it counts as sold in the
    # last period: -6,400 carried into Q2, 6,400 - 6,400 = 0. Without it 6,400 of credit would be lost to HMRC.
    number = leave_global(house, buy, 640000)
    q1, q2 = totals(book, *Q1), totals(book, "2026-04-01", "2026-06-30")
    assert q1.pool and q2.pool
    assert (q1.box_1, q1.pool.worked.carried_forward) == (0, 640000)
    assert (q2.box_1, q2.pool.closing, q2.pool.worked.carried_forward) == (0, 640000, 0)
    # After it a piece sells under the margin scheme at its own cost: (460 - 400) / 6 = 10.00.
    paid = (("cash", 46000),)
    sale = note_sale(house, Order("2026-07-10", (Wanted(number, 46000),), payments=paid)).sale
    assert (sale.lines[0].scheme, sale.lines[0].vat_pence) == ("margin", 1000)
    q3 = totals(book, "2026-07-01", "2026-09-30")
    assert (q3.pool, q3.box_1) == (None, 1000)
    assert totals(book, "2026-04-01", "2026-06-30").box_1 == 0  # what is sold later moves nothing
    assert buy(1000, day="2026-07-11").items[0].scheme == "margin"


def test_the_closing_adjustment_takes_back_credit_that_was_used(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Bought 16 x 400 and one of 100 sold at 8,100 in Q1: 8,100 - 6,500 = 1,600: VAT 266.67. On leaving
    # the 6,400 held are given back: 1,066.67.
    house.change_business(scheme="global", global_since="2026-01-01")
    sold = buy(10000, day="2026-02-01").items[0].number
    paid = (("card", 810000),)
    note_sale(house, Order("2026-02-02", (Wanted(sold, 810000),), payments=paid))
    leave_global(house, buy, 640000)
    assert totals(book, *Q1).box_1 == 26667
    assert totals(book, "2026-04-01", "2026-06-30").box_1 == 106667


def test_a_small_stock_needs_no_closing_adjustment(house: Settings, book: Book, buy: Buy) -> None:
    # 15 x 400 = 6,000: VAT in it exactly 1,000.00, which is let out.
    leave_global(house, buy, 600000)
    q2 = totals(book, "2026-04-01", "2026-06-30")
    assert q2.pool and q2.pool.closing == 0


def test_a_piece_exported_from_the_opening_stock_leaves_the_pool(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Opening value 300 with a piece of 100 in it, exported; another sold at 360. Purchases 300 - 100:
    # 360 - 200 = 160, VAT 26.67 (rules "ga-opening-stock", "export-zero", "ga-removal").
    first, second = (buy(10000, day="2025-12-01").items[0].number for _ in range(2))
    house.change_business(scheme="global", global_since="2026-01-01", opening_stock_pence=30000)
    paid = (("card", 20000),)
    order = Order("2026-02-01", (Wanted(first, 20000),), disposal="exported", payments=paid)
    note_sale(house, order)
    paid = (("card", 36000),)
    note_sale(house, Order("2026-02-02", (Wanted(second, 36000),), payments=paid))
    sums = totals(book, *Q1)
    assert sums.pool and (sums.pool.removed, sums.box_1) == (10000, 2667)
