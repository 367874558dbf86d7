"""Refunds, allowances and deposits to the penny: each case worked by hand in its comment.

The law checked against: HMRC's margin-scheme manual VATMARG13500 (deposits), Revenue and Customs Brief
13 (2018) (payments kept), VAT Notice 700 (price reductions); VAT at 20 % is one sixth of a margin.
"""

from datetime import date

import pytest

from counter.documents.invoices import sale_invoice
from counter.trade.after_sale import cancel_deposit, hand_over, note_balance
from counter.trade.buying import Deal
from counter.trade.day_totals import look_at_day
from counter.trade.refunds import Allowing, note_allowance, note_refund, to_pay
from counter.trade.selling import Order, Wanted, note_exchange, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals, turnover
from counter.values.errors import InputError, UserError
from counter.values.item import Item

from .conftest import DAY, Buy

LATER = "2026-05-02"


def owed(house: Settings, number: str) -> int:
    return to_pay(house.ledger.sales.of(number), house.ledger.sales.refunds(number))


def sold(
    house: Settings, buy: Buy, cost: int, price: int, *paid: tuple[str, int], **how: object
) -> str:
    number = buy(cost).items[0].number
    order = Order(DAY, (Wanted(number, price),), payments=paid, **how)  # type: ignore[arg-type]
    return note_sale(house, order).sale.id


@pytest.mark.parametrize(
    ("paid", "back"),
    [
        ((), {}),  # all owed: 90 cancelled, nothing paid back
        ((("cash", 3000),), {"cash": 3000}),  # 60 owed is cancelled, 30 goes back
        ((("card", 9000),), {"card": 9000}),
        ((("cash", 2000), ("card", 7000)), {"cash": 2000, "card": 7000}),
    ],
)
def test_a_refund_pays_back_what_was_paid_the_way_it_was_paid(
    house: Settings, book: Book, buy: Buy, paid: tuple[tuple[str, int], ...], back: dict[str, int]
) -> None:
    number = sold(house, buy, 5000, 9000, *paid)
    refund = note_refund(house, number, [], LATER, "a thin").sale
    assert {each.method: -each.pence for each in refund.payments} == back
    assert refund.total_pence == 9000 and owed(house, number) == 0
    assert look_at_day(book, LATER).takings == {way: -pence for way, pence in back.items()}
    with pytest.raises(UserError, match="Nothing is owed"):
        note_balance(house, number, "cash", LATER)


def test_part_of_a_part_paid_sale_comes_back_and_then_the_rest(house: Settings, buy: Buy) -> None:
    # 60 + 40 = 100, of which 70 by card. The 40 comes back: 30 owed is cancelled, 10 by card.
    # The rest: nothing is owed any more, 60 by card. Together 70, as paid.
    first, second = (buy(1000).items[0].number for _ in range(2))
    wanted = (Wanted(first, 6000), Wanted(second, 4000))
    sale = note_sale(house, Order(DAY, wanted, payments=(("card", 7000),))).sale
    one = note_refund(house, sale.id, [second], LATER, "not wanted").sale
    assert [(each.method, each.pence) for each in one.payments] == [("card", -1000)]
    rest = note_refund(house, sale.id, [], LATER, "nor that").sale
    assert rest.pieces == (first,)
    assert [(each.method, each.pence) for each in rest.payments] == [("card", -6000)]
    with pytest.raises(UserError, match="refunded already"):
        note_refund(house, sale.id, [], LATER, "again")


def test_a_card_sale_is_not_paid_back_in_cash(house: Settings, buy: Buy) -> None:
    number = sold(house, buy, 5000, 9000, ("card", 9000))
    entries = house.ledger.state.entries
    with pytest.raises(UserError, match="by card, not in cash"):
        note_refund(house, number, [], LATER, "x", "cash")
    assert house.ledger.state.entries == entries
    refund = note_refund(house, number, [], LATER, "x", "transfer").sale
    assert [(each.method, each.pence) for each in refund.payments] == [("transfer", -9000)]


def test_a_refund_left_owing_is_paid_out_later(house: Settings, book: Book, buy: Buy) -> None:
    number = sold(house, buy, 5000, 9000, ("cash", 9000))
    refund = note_refund(house, number, [], DAY, "x", "owed").sale
    assert look_at_day(book, DAY).takings["cash"] == 9000
    note_balance(house, refund.id, "cash", LATER, 4000)  # 90 owed, 40 now
    note_balance(house, refund.id, "cash", "2026-05-03")  # and the 50 left
    assert look_at_day(book, LATER).takings["cash"] == -4000
    assert look_at_day(book, "2026-05-03").takings["cash"] == -5000
    with pytest.raises(UserError, match="Nothing is owed"):
        note_balance(house, refund.id, "cash", "2026-05-03")


def test_what_was_paid_with_goods_asks_how_it_goes_back(house: Settings, buy: Buy) -> None:
    number = buy(4500).items[0].number
    taken = Deal(DAY, 2000, (Item("", words="a cover"),))
    order = Order(DAY, (Wanted(number, 7250),), payments=(("card", 5250),), buyer="Green")
    sale = note_exchange(house, order, taken)[0].sale
    with pytest.raises(InputError, match=r"say how £20\.00 is paid back"):
        note_refund(house, sale.id, [], LATER, "x")
    refund = note_refund(house, sale.id, [], LATER, "x", "cash").sale
    assert {each.method: each.pence for each in refund.payments} == {"card": -5250, "cash": -2000}


def test_an_allowance_lowers_price_and_vat_and_the_piece_stays_sold(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Cost 60, sold 120: VAT 60/6 = 10.00. Allowed 15: margin 45, VAT 7.50; so -15.00 and -2.50.
    number = sold(house, buy, 6000, 12000, ("card", 12000))
    item = house.ledger.sales.of(number).lines[0].item
    told = note_allowance(house, number, 1500, Allowing("2026-08-01"), "a small thin")
    assert [(each.method, each.pence) for each in told.sale.payments] == [("card", -1500)]
    assert house.ledger.items.of(item).status == "sold" and owed(house, number) == 0
    q3 = totals(book, "2026-07-01", "2026-09-30")
    assert (q3.sold, q3.vat_on_margins, q3.box_1) == (-1500, -250, -250)
    assert totals(book, DAY, "2026-06-30").box_1 == 1000  # the quarter of the sale stays as it was
    # then it comes back after all: 120 - 15 = 105 goes back, VAT 10.00 - 2.50 = 7.50
    refund = note_refund(house, number, [], "2026-10-01", "came back after all").sale
    assert (refund.total_pence, refund.lines[0].vat_pence) == (10500, 750)
    year = totals(book, "2026-01-01", "2026-12-31")
    assert (year.sold, year.box_1, year.profit + year.losses) == (0, 0, 0)
    with pytest.raises(InputError, match="Allow between"):
        note_allowance(house, sold(house, buy, 1, 5), 6, Allowing(LATER), "x")


def test_the_first_paper_shows_that_it_was_refunded(house: Settings, buy: Buy) -> None:
    number = sold(house, buy, 5000, 9000, ("cash", 3000))
    paper = sale_invoice(house, house.ledger.sales.of(number), {}).text()
    assert "Paid: cash £30.00." in paper and "Owed: £60.00." in paper and "owed £" not in paper
    refund = note_refund(house, number, [], LATER, "x").sale
    paper = sale_invoice(house, house.ledger.sales.of(number), {}).text()
    assert f"Refunded 2 May 2026: £90.00, credit note {refund.id}." in paper and "Owed" not in paper


def test_a_deposit_of_the_full_price_is_handed_over_and_becomes_the_sale(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Cost 80, deposit 200 on 1 June: 120 above the cost, VAT 20.00 then; nothing more on 1 August.
    number = buy(8000).items[0].number
    order = Order("2026-06-01", (Wanted(number, 20000),), status="deposit", payments=(("cash", 20000),))
    held = note_sale(house, order).sale
    with pytest.raises(UserError, match="handed over"):
        note_balance(house, held.id, "cash", "2026-06-02")
    done = hand_over(house, held.id, "2026-08-01").sale
    assert (done.status, done.date, done.lines[0].vat_pence) == ("complete", "2026-08-01", 2000)
    assert totals(book, "2026-04-01", "2026-06-30").box_1 == 2000
    q3 = totals(book, "2026-07-01", "2026-09-30")
    assert (q3.box_1, q3.sold) == (0, 8000)
    assert house.ledger.items.of(number).status == "sold"
    with pytest.raises(UserError, match="not held on a deposit"):
        hand_over(house, held.id, "2026-08-02")


def test_a_deposit_bears_vat_from_what_passes_the_cost(house: Settings, book: Book, buy: Buy) -> None:
    # Cost 80, deposit 100 on 31 December 2010 at 17.5 %: 20 x 7/47 = 2.98. Balance of 100 on
    # 10 January 2011 at 20 %: the rest of the margin, 100 / 6 = 16.67. (VATMARG13500)
    house.change_business(registered_from="2005-01-01")
    number = buy(8000, day="2010-12-01").items[0].number
    order = Order("2010-12-31", (Wanted(number, 20000),), status="deposit", payments=(("cash", 10000),))
    held = note_sale(house, order).sale
    note_balance(house, held.id, "cash", "2011-01-10")
    assert totals(book, "2010-10-01", "2010-12-31").box_1 == 298
    assert totals(book, "2011-01-01", "2011-03-31").box_1 == 1667
    assert totals(book, "2010-10-01", "2011-03-31").sold == 20000


def test_a_deposit_below_the_cost_bears_nothing_yet(house: Settings, book: Book, buy: Buy) -> None:
    # Cost 80, deposit 80: nothing; balance 40: 40 / 6 = 6.67.
    number = buy(8000).items[0].number
    order = Order(DAY, (Wanted(number, 12000),), status="deposit", payments=(("cash", 8000),))
    held = note_sale(house, order).sale
    assert totals(book, DAY, "2026-06-30").box_1 == 0
    note_balance(house, held.id, "cash", "2026-07-01")
    assert totals(book, "2026-07-01", "2026-09-30").box_1 == 667


def test_a_deposit_kept_is_turnover_with_vat_on_the_day(house: Settings, book: Book, buy: Buy) -> None:
    # Deposit 60 (cost 80: no VAT yet), all kept on 1 August 2026: 60 / 6 = 10.00, sold 60, box 6 50.
    number = buy(8000).items[0].number
    order = Order(DAY, (Wanted(number, 20000),), status="deposit", payments=(("card", 6000),))
    held = note_sale(house, order).sale
    ended = cancel_deposit(house, held.id, "2026-08-01", "", 6000)
    assert "turnover" in ended.told[0] and "accountant" in ended.told[0]
    q3 = totals(book, "2026-07-01", "2026-09-30")
    assert (q3.sold, q3.box_1, q3.box_6) == (6000, 1000, 5000)
    day = look_at_day(book, "2026-08-01")
    assert (day.kept, day.profit, day.takings) == (6000, 5000, {})
    assert turnover(book, "2026-08-01") == 6000
    assert house.ledger.items.of(number).status == "in stock"


def test_some_of_a_deposit_is_kept_and_what_bore_vat_is_taken_off(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Cost 80, deposit 100 by card: 20 / 6 = 3.33 in Q2. Cancelled in Q3 with 30 kept: 70 by card,
    # -3.33 and 30 / 6 = 5.00, so 1.67.
    number = buy(8000).items[0].number
    order = Order(DAY, (Wanted(number, 20000),), status="deposit", payments=(("card", 10000),))
    held = note_sale(house, order).sale
    ended = cancel_deposit(house, held.id, "2026-08-01", "", 3000).sale
    assert ended.payments[-1].method == "card" and ended.payments[-1].pence == -7000
    assert totals(book, DAY, "2026-06-30").box_1 == 333
    assert totals(book, "2026-07-01", "2026-09-30").box_1 == 500 - 333


@pytest.mark.parametrize(("day", "vat"), [("2019-02-28", 0), ("2019-03-01", 1000)])
def test_a_deposit_kept_bears_vat_since_march_2019(
    house: Settings, book: Book, buy: Buy, day: str, vat: int
) -> None:
    house.change_business(registered_from="2005-01-01")
    begun = date.fromisoformat(day).replace(day=1).isoformat() if vat else "2019-02-01"
    number = buy(8000, day="2019-01-01").items[0].number
    order = Order(begun, (Wanted(number, 20000),), status="deposit", payments=(("card", 6000),))
    cancel_deposit(house, note_sale(house, order).sale.id, day, "", 6000)
    assert totals(book, "2019-01-01", "2019-03-31").box_1 == vat
