"""Sales and what follows: never twice, never before the purchase, refunds that restore the book."""

from dataclasses import replace

import pytest
from msgspec.structs import replace as changed

from counter.store.records.check import put
from counter.trade.after_sale import cancel_deposit, keep_approval, name_buyer, note_balance
from counter.trade.buying import Deal
from counter.trade.cash_limit import cash_near, cash_with
from counter.trade.refunds import note_refund, to_pay
from counter.trade.selling import Order, Wanted, note_exchange, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.trade.vat_scheme import line_prices
from counter.values.errors import InputError, UserError
from counter.values.item import Item

from .conftest import DAY, Buy


def status(house: Settings, number: str) -> str:
    return str((house.ledger.row("items", number) or {}).get("status", "in stock"))


def order(number: str, pence: int, **how: object) -> Order:
    return Order(DAY, (Wanted(number, pence),), **how)  # type: ignore[arg-type]


def test_a_sale_freezes_cost_scheme_and_vat(house: Settings, buy: Buy) -> None:
    number = buy(4500).items[0].number
    sale = note_sale(house, order(number, 7250, payments=(("cash", 7250),), buyer="Green")).sale
    line = sale.lines[0]
    assert (line.cost_pence, line.scheme, line.vat_fraction, line.vat_pence) == (
        4500,
        "margin",
        "1/6",
        458,
    )
    assert status(house, number) == "sold" and sale.invoice_number == sale.id


def test_nothing_is_sold_twice(house: Settings, buy: Buy) -> None:
    number = buy(4500).items[0].number
    note_sale(house, order(number, 7250))
    entries = len(list(house.ledger.entries()))
    with pytest.raises(UserError, match=f"{number} is sold"):
        note_sale(house, order(number, 7250))
    with pytest.raises(UserError, match="twice"):
        other = buy(100).items[0].number
        note_sale(house, Order(DAY, (Wanted(other, 1), Wanted(other, 2))))
    assert len(list(house.ledger.entries())) == entries + 1  # the second purchase alone


@pytest.mark.parametrize(
    "wrong",
    [
        {"day": "2026-04-30"},
        {"day": "yesterday"},
        {"lines": ()},
        {"lines": (Wanted("WK-99", 5),)},
        {"lines": (Wanted("WK-1", -5),)},
        {"discount_pence": 7251},
        {"discount_pence": -1},
        {"postage_pence": -1},
        {"payments": (("cash", -1),)},
        {"payments": (("beads", 1),)},
        {"payments": (("cash", 7251),)},
        {"status": "maybe"},
        {"disposal": "eaten"},
        {"status": "on approval"},
        {"quote": "WK-Q9"},
    ],
)
def test_a_wrong_sale_is_refused_and_nothing_is_noted(
    house: Settings, buy: Buy, wrong: dict[str, object]
) -> None:
    number = buy(4500).items[0].number
    entries = len(list(house.ledger.entries()))
    with pytest.raises(UserError) as refused:
        note_sale(house, replace(order(number, 7250, buyer="Someone new"), **wrong))  # type: ignore[arg-type]
    assert str(refused.value).endswith(".") and "\n" not in str(refused.value)
    assert len(list(house.ledger.entries())) == entries and status(house, number) == "in stock"


def test_discount_and_postage_belong_to_the_selling_price(house: Settings, buy: Buy) -> None:
    # Rules "selling-price-includes", "selling-price-after-discount".
    first, second = (buy(1000).items[0].number for _ in range(2))
    wanted = (Wanted(first, 3000), Wanted(second, 1000))
    sale = note_sale(house, Order(DAY, wanted, discount_pence=401, postage_pence=250)).sale
    assert sale.total_pence == 4000 - 401 + 250 == sum(line_prices(sale).values())
    assert [line.discount_pence for line in sale.lines] == [301, 100]
    assert line_prices(sale) == {first: 2699 + 187, second: 900 + 63}
    assert [line.vat_pence for line in sale.lines] == [314, 0]  # a loss bears none and offsets none


def test_a_deposit_holds_a_piece_until_the_balance_is_paid(house: Settings, buy: Buy) -> None:
    number = buy(4500).items[0].number
    held = note_sale(house, order(number, 7200, status="deposit", payments=(("card", 1200),))).sale
    assert status(house, number) == "reserved" and to_pay(held) == 6000
    with pytest.raises(UserError, match="held on a deposit"):
        note_sale(house, order(number, 7200))
    part = note_balance(house, held.id, "cash", "2026-05-02", 1000).sale
    assert part.status == "deposit" and to_pay(part) == 5000
    with pytest.raises(UserError, match=r"between 1p and £50.00"):
        note_balance(house, held.id, "cash", "2026-05-02", 5001)
    done = note_balance(house, held.id, "cash", "2026-05-08").sale
    assert (done.status, done.date, done.lines[0].vat_pence) == ("complete", "2026-05-08", 450)
    assert status(house, number) == "sold"
    with pytest.raises(UserError, match="Nothing is owed"):
        note_balance(house, held.id, "cash", "2026-05-09")


def test_a_reservation_that_falls_through_pays_the_deposit_back(house: Settings, buy: Buy) -> None:
    number = buy(4500).items[0].number
    held = note_sale(house, order(number, 7200, status="deposit", payments=(("card", 1200),))).sale
    with pytest.raises(UserError, match="cannot have fallen through"):
        cancel_deposit(house, held.id, "2020-01-01", "card", 200)
    ended = cancel_deposit(house, held.id, DAY, "card", 200).sale
    assert ended.status == "cancelled" and sum(each.pence for each in ended.payments) == 200
    assert status(house, number) == "in stock"


def test_on_approval_is_no_sale_until_something_is_kept(house: Settings, book: Book, buy: Buy) -> None:
    first, second = (buy(1000).items[0].number for _ in range(2))
    wanted = (Wanted(first, 3000), Wanted(second, 2500))
    out = note_sale(
        house, Order(DAY, wanted, discount_pence=100, status="on approval", due_back=DAY)
    ).sale
    assert status(house, first) == "on approval" and totals(book, DAY, DAY).sold == 0
    kept = keep_approval(house, out.id, [first], "2026-05-09", "card").sale
    assert (kept.status, kept.date, kept.total_pence) == ("complete", "2026-05-09", 3000 - 55)
    assert (status(house, first), status(house, second)) == ("sold", "in stock")
    again = note_sale(house, order(second, 2500, status="on approval", due_back="2026-06-01")).sale
    assert keep_approval(house, again.id, [], "2026-05-20").sale.status == "returned"
    assert status(house, second) == "in stock"


def test_a_part_exchange_is_two_deals_never_netted(house: Settings, book: Book, buy: Buy) -> None:
    # Rule "part-exchange-two-deals" (VATMARG13350).
    number = buy(4500).items[0].number
    taken = Deal(DAY, 2000, (Item("", words="a cover taken in"),))
    sold, purchase = note_exchange(
        house, order(number, 7250, payments=(("cash", 5250),), buyer="Green"), taken
    )
    bought = house.ledger.row("purchases", purchase) or {}
    assert (bought["total_pence"], bought["payment"], bought["exchange_sale"]) == (
        2000,
        "exchange",
        sold.sale.id,
    )
    sale = house.ledger.sales.of(sold.sale.id)
    assert sale.total_pence == 7250 and sale.exchange_purchase == purchase
    assert sale.buyer == bought["seller"] != "" and len(house.ledger.rows("people")) == 2
    assert {each.method: each.pence for each in sale.payments} == {"cash": 5250, "exchange": 2000}
    sums = totals(book, DAY, DAY)
    assert (sums.sold, sums.bought, sums.vat_on_margins) == (7250, 6500, 458)


def test_a_refund_restores_the_piece_and_the_book(house: Settings, book: Book, buy: Buy) -> None:
    # Record practice "return-entry" (notice-718-2): own number, own cost, the period's VAT corrected.
    number = buy(4500).items[0].number
    before, totals_before = house.ledger.row("items", number), totals(book, DAY, DAY)
    sale = note_sale(house, order(number, 7250, payments=(("card", 7400),), postage_pence=150)).sale
    refund = note_refund(house, sale.id, [], "2026-05-03", "not as described", "card").sale
    assert house.ledger.row("items", number) == before
    after = totals(book, DAY, "2026-05-03")
    assert after == totals_before
    assert [each.pence for each in refund.payments] == [-7400] and refund.refund_of == sale.id
    assert house.ledger.sales.of(sale.id) == sale  # the sale itself stays as it was written
    with pytest.raises(UserError, match="refunded already"):
        note_refund(house, sale.id, [number], "2026-05-04", "again", "card")
    again = note_sale(house, replace(order(number, 8000), day="2026-05-05")).sale
    assert again.lines[0].cost_pence == 4500


def test_a_piece_sold_on_two_laptops_stays_sold_until_both_sales_are_taken_back(
    house: Settings, buy: Buy
) -> None:
    number = buy(4500).items[0].number
    sale = note_sale(house, order(number, 7250)).sale
    theirs = changed(sale, id="VB-S1")  # as a merge brings it in
    house.ledger.note("sold", [put(theirs)])
    note_refund(house, sale.id, [], DAY, "sold twice", "cash")
    assert status(house, number) == "sold"
    note_refund(house, theirs.id, [], DAY, "sent back", "cash")
    assert status(house, number) == "in stock"


def test_part_of_a_sale_comes_back(house: Settings, book: Book, buy: Buy) -> None:
    first, second = (buy(1000).items[0].number for _ in range(2))
    wanted = (Wanted(first, 3000), Wanted(second, 1000))
    sale = note_sale(house, Order(DAY, wanted, discount_pence=401, postage_pence=250)).sale
    one = note_refund(house, sale.id, [first], DAY, "a thin found", "cash").sale
    assert one.total_pence == line_prices(sale)[first]
    two = note_refund(house, sale.id, [second], DAY, "and the other", "cash").sale
    assert one.total_pence + two.total_pence == sale.total_pence
    sums = totals(book, DAY, DAY)
    assert (sums.sold, sums.profit, sums.losses, sums.box_1) == (0, 0, 0, 0)


def test_lost_and_exported_pieces_leave_without_vat(house: Settings, book: Book, buy: Buy) -> None:
    lost, exported = (buy(4000).items[0].number for _ in range(2))
    note_sale(house, order(lost, 0, disposal="lost"))
    sale = note_sale(house, order(exported, 9000, disposal="exported")).sale
    assert sale.lines[0].vat_pence == 0  # rule "export-zero"
    assert (status(house, lost), status(house, exported)) == ("withdrawn", "sold")
    lines = {each.stock_number: each for each in book.lines(DAY, DAY)}
    assert lines[lost].disposal == "lost" and lines[lost].selling_price is None
    assert lines[exported].vat_due == 0 and lines[exported].margin == 5000


def test_vat_shown_on_our_invoice_is_on_the_full_price(house: Settings, buy: Buy) -> None:
    number = buy(4500).items[0].number
    sale = note_sale(house, order(number, 7200, vat_shown=True)).sale
    assert (sale.lines[0].scheme, sale.lines[0].vat_pence) == ("ordinary", 1200)


def test_an_unregistered_dealer_meets_no_vat_anywhere(house: Settings, book: Book, buy: Buy) -> None:
    house.change_business(registered_from="")
    number = buy(4500).items[0].number
    sale = note_sale(house, order(number, 7250)).sale
    assert (sale.lines[0].scheme, sale.lines[0].vat_pence) == ("none", 0)
    sums = totals(book, DAY, DAY)
    assert (sums.box_1, sums.box_6, sums.box_7, sums.profit) == (0, 0, 0, 2750)


def test_what_is_not_settled_by_a_sum_is_said(house: Settings, buy: Buy) -> None:
    first, second = (buy(4500).items[0].number for _ in range(2))
    held = note_sale(house, order(first, 6000, status="deposit", payments=(("cash", 100),)))
    assert "deposit" in held.told[0] and "HMRC" in held.told[0]
    gone = note_sale(house, order(second, 6000, disposal="exported"))
    assert "proof of export" in gone.told[0]
    third = buy(4500).items[0].number
    big = note_sale(house, order(third, 600000, status="deposit", buyer="Green"))
    warned = note_balance(house, big.sale.id, "cash", "2026-07-01").told
    assert "Cash from this person comes to £6,000.00" in warned[0]


def test_a_refused_purchase_or_sale_leaves_no_gap_in_the_numbers(house: Settings, buy: Buy) -> None:
    with pytest.raises(UserError):
        buy(4500, seller_kind="VAT shown", scheme="margin")
    assert buy(4500).items[0].number == "WK-1"
    with pytest.raises(UserError):
        note_sale(house, order("WK-1", 5000, payments=(("cash", 5001),)))
    assert note_sale(house, order("WK-1", 5000)).sale.id == "WK-S1"


def test_a_price_below_the_floor_is_said_and_not_refused(house: Settings, buy: Buy) -> None:
    # Habit "floor-price": cost 45.00, least profit 4.50, VAT on 5.40 is 0.90: 50.40.
    first, second = (buy(4500).items[0].number for _ in range(2))
    assert note_sale(house, order(first, 5040)).told == ()
    told = note_sale(house, order(second, 5039)).told
    assert told == (f"{second} goes for £50.39, below its floor £50.40.",)
    full = buy(4500, seller_kind="VAT shown").items[0].number
    assert "floor £59.40" in note_sale(house, order(full, 5939)).told[0]  # 49.50 and a fifth


def test_a_buyer_is_named_afterwards_once(house: Settings, buy: Buy) -> None:
    number = buy(1000).items[0].number
    sale = note_sale(house, Order(DAY, (Wanted(number, 2000),), payments=(("cash", 2000),))).sale
    before = house.ledger.state.entries
    with pytest.raises(InputError):
        name_buyer(house, sale.id, "  ")
    assert house.ledger.state.entries == before
    named = name_buyer(house, sale.id, "Mr Green").sale
    assert house.ledger.people.find(named.buyer).name == "Mr Green"  # type: ignore[union-attr]
    assert changed(named, buyer="") == sale  # nothing else of the sale changed
    with pytest.raises(UserError):
        name_buyer(house, sale.id, "Mr Brown")


def test_cash_near_the_warning_is_listed_per_person(house: Settings, buy: Buy) -> None:
    buy(249_999, seller="Small")
    buy(150_000, seller="Large")
    buy(150_000, seller="Large")
    buy(900_000, seller="By transfer", payment="transfer")
    near = cash_near(house.ledger, house.on(DAY))
    assert [(each.cash.paid, each.cash.received) for each in near] == [(300_000, 0)]
    assert near[0].cash == cash_with(house.ledger, near[0].person, DAY)
    assert cash_near(house.ledger, house.on("2027-05-02")) == []  # twelve months are over
