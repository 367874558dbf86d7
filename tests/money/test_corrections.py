"""Put right, never rubbed out: each correction with its sums worked by hand.

Record practice "append-only": a wrong entry is followed by one that says what is right and why.
"""

from typing import Any

import pytest

from counter.store.ledger import Ledger
from counter.trade.buying import pay_purchase
from counter.trade.corrections import correct
from counter.trade.day_totals import look_at_day
from counter.trade.refunds import Allowing, note_allowance, note_refund
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.values.errors import InputError, UserError

from .conftest import DAY, Buy
from .test_adding_up import bought, run  # noqa: F401  (a fixture)


def sell(house: Settings, number: str, pence: int, day: str = DAY, **how: object) -> str:
    order = Order(day, (Wanted(number, pence),), payments=(("cash", pence),), **how)  # type: ignore[arg-type]
    return note_sale(house, order).sale.id


def test_a_price_with_two_noughts_too_many_is_put_right(house: Settings, book: Book, buy: Buy) -> None:
    # Noted 4500 for 45, sold at 90: no VAT. Right: (90 - 45) / 6 = 7.50; box 7 45; cash out 45.
    made = buy(450000)
    sale = sell(house, made.items[0].number, 9000)
    assert totals(book, DAY, DAY).box_1 == 0
    done = correct(house, made.purchase.id, {"total": "45"}, "2026-08-01", "two noughts too many")
    assert done.told == (
        f"{sale} of {DAY}: VAT on {made.items[0].number} was £0.00, is £7.50; if that period is filed, "
        "correct the return: ask HMRC.",
    )
    sums = totals(book, DAY, DAY)
    assert (sums.box_1, sums.box_7, sums.bought) == (750, 4500, 4500)
    assert look_at_day(book, DAY).box == 9000 - 4500
    kept = house.ledger.purchases.of(made.purchase.id)
    assert "total was £4,500.00 (two noughts too many)" in kept.remarks
    assert any(entry.verb == "purchase corrected" for entry in house.ledger.entries())


def test_a_split_lot_keeps_its_proportions(house: Settings, buy: Buy) -> None:
    # 300 shared 1 to 2 is 100 and 200; at 30 it is 10 and 20.
    made = buy(30000, 2, expected=(5000, 10000))
    correct(house, made.purchase.id, {"total": "30"}, DAY, "x")
    assert [house.ledger.items.of(each.number).cost for each in made.items] == [1000, 2000]


def test_the_way_and_the_day_of_a_sale_are_put_right(house: Settings, book: Book, buy: Buy) -> None:
    # Sold on 1 May, noted as of 1 July in cash: 40 / 6 = 6.67 belongs to the second quarter, by card.
    sale = sell(house, buy(5000).items[0].number, 9000, "2026-07-01")
    told = correct(house, sale, {"date": DAY, "payment": "card"}, "2026-07-02", "slip").told
    assert told == (f"{sale} moved from 2026-07-01 to {DAY}.",)
    assert totals(book, "2026-07-01", "2026-09-30").box_1 == 0
    assert totals(book, "2026-04-01", "2026-06-30").box_1 == 667
    assert look_at_day(book, DAY).takings == {"card": 9000}
    with pytest.raises(UserError, match="was bought after"):
        correct(house, sale, {"date": "2026-04-01"}, DAY, "x")


@pytest.mark.parametrize(
    ("wanted", "reason"),
    [
        ({"total": "45"}, ""),
        ({}, "x"),
        ({"colour": "red"}, "x"),
        ({"total": "-5"}, "x"),
        ({"payment": "beads"}, "x"),
        ({"vat": "5"}, "x"),  # bought from a private seller
        ({"date": "soon"}, "x"),
    ],
)
def test_a_wrong_correction_changes_nothing(
    house: Settings, buy: Buy, wanted: dict[str, str], reason: str
) -> None:
    made = buy(4500)
    entries = house.ledger.state.entries
    with pytest.raises(UserError) as refused:
        correct(house, made.purchase.id, wanted, DAY, reason)
    assert "\n" not in str(refused.value) and str(refused.value).endswith(".")
    assert house.ledger.state.entries == entries


def test_a_refund_follows_the_cost_of_its_sale(house: Settings, book: Book, buy: Buy) -> None:
    # 90 - 450 was a loss: no VAT. Right 90 - 45 = 45: 7.50, taken off again in the refund's quarter.
    made = buy(45000)
    sale = sell(house, made.items[0].number, 9000)
    note_refund(house, sale, [], "2026-07-05", "x")
    correct(house, made.purchase.id, {"total": "45"}, "2026-08-01", "slip")
    assert totals(book, "2026-04-01", "2026-06-30").box_1 == 750
    assert totals(book, "2026-07-01", "2026-09-30").box_1 == -750


def test_an_allowance_follows_the_cost_of_its_sale(house: Settings, book: Book, buy: Buy) -> None:
    # 90 - 60: 5.00; 12 allowed: (78 - 60) / 6 = 3.00, so 2.00 falls away. At 30: 10.00, 8.00, 2.00.
    # At 84 (nothing above 6): 1.00, then (78 - 84): nothing, so all of 1.00 falls away.
    made = buy(6000)
    sale = sell(house, made.items[0].number, 9000)
    note_allowance(house, sale, 1200, Allowing("2026-07-05"), "a thin")
    for cost, first, later in (("30", 1000, -200), ("84", 100, -100)):
        correct(house, made.purchase.id, {"total": cost}, "2026-08-01", "slip")
        assert totals(book, "2026-04-01", "2026-06-30").box_1 == first
        assert totals(book, "2026-07-01", "2026-09-30").box_1 == later


def test_the_price_of_a_sale_is_put_right(house: Settings, book: Book, buy: Buy) -> None:
    # 900 for 90 in cash: 90 - 50, VAT 6.67, box 90. Half paid, 45 stays owed of 90.
    sale = sell(house, buy(5000).items[0].number, 90000, buyer="Bo")
    done = correct(house, sale, {"price": "90"}, "2026-05-02", "a nought too many")
    assert (totals(book, DAY, DAY).box_1, look_at_day(book, DAY).takings) == (667, {"cash": 9000})
    assert "price of WK-1 was £900.00" in done.record.remarks
    order = Order(DAY, (Wanted(buy(5000).items[0].number, 90000),), payments=(("card", 4500),))
    part = note_sale(house, order).sale.id
    correct(house, part, {"price": "90"}, "2026-05-02", "slip")
    kept = house.ledger.sales.of(part)
    assert [(each.method, each.pence) for each in kept.payments] == [("card", 4500), ("owed", 4500)]
    with pytest.raises(UserError, match="more than"):
        correct(house, part, {"price": "40"}, "2026-05-02", "slip")


def test_one_price_among_several_keeps_the_discount(house: Settings, book: Book, buy: Buy) -> None:
    # 90 + 60 less 15: 9 and 6. Right 30 for the second: 15 of 120 is 11.25 and 3.75; 78.75 - 50 = 28.75:
    # 4.79; 26.25 - 10 = 16.25: 2.71.
    first, second = buy(5000).items[0].number, buy(1000).items[0].number
    lines = (Wanted(first, 9000), Wanted(second, 6000))
    sale = note_sale(house, Order(DAY, lines, discount_pence=1500, payments=(("cash", 13500),))).sale
    correct(house, sale.id, {second: "30"}, DAY, "slip")
    right = house.ledger.sales.of(sale.id)
    assert (right.total_pence, right.received) == (10500, 10500)
    assert [line.vat_pence for line in right.lines] == [479, 271]
    with pytest.raises(InputError, match="Say which piece"):
        correct(house, sale.id, {"price": "30"}, DAY, "slip")


def test_scheme_seller_and_buyer_are_put_right(house: Settings, book: Book, buy: Buy) -> None:
    # Bought with VAT shown after all: not 40 / 6 = 6.67 on the margin but 90 / 6 = 15.00 on the price.
    made = buy(5000)
    sale = sell(house, made.items[0].number, 9000)
    wanted = {"seller_kind": "VAT shown", "vat": "8.33", "seller": "A. Trader"}
    correct(house, made.purchase.id, wanted, "2026-05-02", "the paper shows VAT")
    sums = totals(book, DAY, DAY)
    assert (sums.box_1, sums.input_vat, sums.box_7) == (1500, 833, 4167)
    seller = house.ledger.purchases.of(made.purchase.id).seller
    assert house.ledger.people.of(seller).name == "A. Trader"
    correct(house, sale, {"buyer": "Mrs Green"}, "2026-05-02", "said later")
    assert house.ledger.people.of(house.ledger.sales.of(sale).buyer).name == "Mrs Green"
    with pytest.raises(UserError, match="cannot go under"):
        correct(house, made.purchase.id, {"scheme": "margin"}, DAY, "x")


def test_a_sale_is_invoiced_again_with_vat_and_never_back(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Rule "switch-after-sale": 90 / 6 = 15.00 instead of 40 / 6; "margin-optional": not the other way.
    sale = sell(house, buy(5000).items[0].number, 9000)
    correct(house, sale, {"scheme": "ordinary"}, DAY, "the buyer is registered")
    assert totals(book, DAY, DAY).box_1 == 1500
    with pytest.raises(UserError, match="margin-optional"):
        correct(house, sale, {"scheme": "margin"}, DAY, "x")


def test_parts_of_a_payment_are_put_right(house: Settings, book: Book, buy: Buy) -> None:
    # 90 noted in cash; 20 of it was cash and 70 by card.
    sale = sell(house, buy(5000).items[0].number, 9000)
    correct(house, sale, {"payment": "cash 20, card 70"}, DAY, "slip")
    assert look_at_day(book, DAY).takings == {"card": 7000, "cash": 2000}
    with pytest.raises(InputError, match="must come to"):
        correct(house, sale, {"payment": "cash 20, card 60"}, DAY, "slip")


def test_what_was_owed_to_a_seller_leaves_the_box_on_the_day_it_is_paid(
    house: Settings, book: Book, buy: Buy
) -> None:
    # M21: owed 45 on 1 May; 20 in cash on 3 May, the rest by transfer on 4 May.
    number = buy(4500, payment="owed").purchase.id
    pay_purchase(house, number, "cash", "2026-05-03", 2000)
    pay_purchase(house, number, "transfer", "2026-05-04")
    days = [look_at_day(book, f"2026-05-0{day}").paid_out for day in (1, 3, 4)]
    assert days == [{}, {"cash": 2000}, {"transfer": 2500}]
    with pytest.raises(UserError, match="Nothing is owed"):
        pay_purchase(house, number, "cash", "2026-05-05")


def test_a_piece_goes_back_to_its_seller_with_the_money(house: Settings, book: Book, buy: Buy) -> None:
    # Bought for 90 cash on 1 May, returned on 1 July: 90 back in the box, box 7 -90 in that quarter.
    made = buy(9000)
    wanted = (Wanted(made.items[0].number, 0),)
    order = Order("2026-07-01", wanted, disposal="returned to seller", payments=(("cash", 9000),))
    note_sale(house, order)
    assert totals(book, "2026-04-01", "2026-06-30").box_7 == 9000
    q3 = totals(book, "2026-07-01", "2026-09-30")
    assert (q3.box_7, q3.bought, q3.sold, q3.box_1) == (-9000, -9000, 0, 0)
    assert look_at_day(book, "2026-07-01").box == 9000
    assert house.ledger.items.of(made.items[0].number).status == "returned"
    again = buy(1000).items[0].number
    with pytest.raises(InputError, match=r"more than the £10\.00"):
        note_sale(
            house,
            Order(DAY, (Wanted(again, 0),), disposal="returned to seller", payments=(("cash", 1001),)),
        )


def test_vat_shown_on_a_purchase_is_box_4(house: Settings, book: Book, buy: Buy) -> None:
    # 120 with VAT of 20: box 4 is 20, box 7 is 100.
    buy(12000, seller_kind="VAT shown", vat_pence=2000)
    sums = totals(book, DAY, DAY)
    assert (sums.input_vat, sums.box_7) == (2000, 10000)
    with pytest.raises(InputError, match="VAT shown or imported"):
        buy(12000, vat_pence=2000)


def test_the_corrected_book_is_rebuilt_from_the_journal(house: Settings, book: Book, buy: Buy) -> None:
    made = buy(450000)
    sell(house, made.items[0].number, 9000)
    correct(house, made.purchase.id, {"total": "45"}, DAY, "x")
    live, folder = book.lines(DAY, DAY), house.ledger.folder
    house.ledger.close()
    for kept in folder.glob("snapshot*"):
        kept.unlink()
    ledger = Ledger.open(folder, clock=house.ledger.clock, laptop="WK")
    assert Book(Settings(ledger, house.facts), {}).lines(DAY, DAY) == live
    ledger.close()


def test_from_the_command_line(run: Any) -> None:  # noqa: F811
    data = bought(run, "2d blue £4500 cash Ann")
    code, done, _ = run("correct", data["purchase"], "--set", "total=45", "--reason", "slip")
    assert code == 0 and done["total_pence"] == 4500 and "slip" in done["remarks"]
    assert "purchase corrected" in run("correct", "--last")[1]["taken_back"]
    code, _, err = run("correct", data["purchase"], "--last")
    assert code == 2 and err.strip().endswith(".")
    number = data["items"][0]["number"]
    back = run("sell", number, "--disposal", "returned to seller", "--paid", "cash=4500")
    assert back[0] == 0, back
    paid = "--vat", "20", "--invoice", "77", "--stock-number", "A9"
    shown = bought(run, "2d blue £120 card A. Trader (vat)", *paid)
    assert "the seller's invoice number" not in shown["owed"]
    assert run("book", "--from", "2026-05-01", "--to", "2026-05-01")[0] == 0
