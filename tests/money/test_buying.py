"""Purchases: noted in one entry, owed details listed, lots split once, cash per person added up."""

from dataclasses import replace

import pytest

from counter.trade.buying import Deal, complete_purchase, note_purchase
from counter.trade.lots import break_lot, split_by_expected, split_by_hand
from counter.trade.people import complete_person
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.values.errors import InputError, UserError
from counter.values.item import Item

from .conftest import DAY, Buy


def rows(house: Settings) -> dict[str, int]:
    return {table: len(house.ledger.rows(table)) for table in ("items", "purchases", "people", "sales")}


def test_a_purchase_is_one_entry_with_piece_person_and_cost(house: Settings, buy: Buy) -> None:
    before = len(list(house.ledger.entries()))
    bought = buy(4500)
    assert len(list(house.ledger.entries())) == before + 1
    item = house.ledger.row("items", bought.items[0].number)
    assert item is not None
    assert (item["cost"], item["purchase"], item["scheme"]) == (4500, bought.purchase.id, "margin")
    assert rows(house) == {"items": 1, "purchases": 1, "people": 1, "sales": 0}


def test_what_is_owed_is_listed_and_goes_when_it_is_noted(house: Settings, buy: Buy) -> None:
    bought = buy(4500)
    assert house.ledger.purchases.wanting(bought.purchase) == (
        "seller's address",
        "seller's VAT standing",
    )
    complete_person(house.ledger, bought.purchase.seller, address="2 Low Lane")
    done = complete_purchase(house, bought.purchase.id, seller_kind="private")
    assert house.ledger.purchases.wanting(done) == () and house.ledger.purchases.incomplete() == []
    assert done.self_invoiced


def test_owed_details_are_noted_in_one_entry_or_not_at_all(house: Settings) -> None:
    bought = note_purchase(house, Deal(DAY, 500, (Item("", words="old letter"),)))
    number, entries = bought.purchase.id, len(list(house.ledger.entries()))
    with pytest.raises(InputError, match="name first"):
        complete_purchase(house, number, payment="cash", address="2 Low Lane")
    with pytest.raises(UserError, match="broken character"):
        complete_purchase(house, number, payment="cash", seller="Harrow", address="\udcff")
    assert len(list(house.ledger.entries())) == entries
    complete_purchase(house, number, payment="cash", seller="Harrow", address="2 Low Lane")
    assert len(list(house.ledger.entries())) == entries + 1
    done = complete_purchase(house, number, address="3 Low Lane")
    seller = house.ledger.people.find(done.seller)
    assert seller and (seller.name, seller.address, done.payment) == ("Harrow", "3 Low Lane", "cash")


def test_a_purchase_without_anything_but_a_price_lists_all_that_is_owed(house: Settings) -> None:
    bought = note_purchase(house, Deal(DAY, 100, (Item(""), Item(""))))
    assert house.ledger.purchases.wanting(bought.purchase) == (
        "seller's name",
        "seller's address",
        "seller's VAT standing",
        "how it was paid",
        "the lot's split",
        "a description",
    )


def test_the_same_seller_is_one_person(house: Settings, buy: Buy) -> None:
    first, second = buy(100), buy(200, seller="  HARROW ")
    assert first.purchase.seller == second.purchase.seller
    assert len(house.ledger.people.named("harrow")) == 1


def test_a_lot_is_split_by_expected_prices_and_stays_so(house: Settings, buy: Buy) -> None:
    lot = buy(10000, 3)
    numbers = lot.purchase.items
    assert [each.cost for each in lot.items] == [None] * 3
    made = split_by_expected(
        house, lot.purchase.id, dict(zip(numbers, (3000, 4500, 8000), strict=True)), DAY
    )
    assert [each.cost for each in made.items] == [1936, 2903, 5161]
    split = made.purchase.split
    assert split is not None and (split.basis, split.date) == ("expected prices", DAY)
    assert [each.expected_pence for each in split.shares] == [3000, 4500, 8000]
    with pytest.raises(UserError, match=r"was split on 2026-05-01 by expected prices"):
        split_by_hand(house, lot.purchase.id, dict(zip(numbers, (10000, 0, 0), strict=True)), DAY)


def test_a_split_by_hand_must_come_to_the_price(house: Settings, buy: Buy) -> None:
    lot = buy(10000, 2)
    first, second = lot.purchase.items
    with pytest.raises(UserError, match=r"come to £99.99; the lot cost £100.00"):
        split_by_hand(house, lot.purchase.id, {first: 9999, second: 0}, DAY)
    with pytest.raises(UserError, match="every piece"):
        split_by_hand(house, lot.purchase.id, {first: 10000}, DAY)
    made = split_by_hand(
        house, lot.purchase.id, {first: 10000, second: 0}, DAY
    )  # nil for a worthless one
    assert [each.cost for each in made.items] == [10000, 0]


def test_an_album_is_broken_into_pieces_whose_costs_add_up(house: Settings, buy: Buy) -> None:
    album = buy(20000)
    pieces = [Item("", words="1d red"), Item("", words="2d blue"), Item("", words="the rest")]
    made = break_lot(house, album.purchase.id, pieces, [5000, 10050, 100], DAY)
    assert sum(each.cost or 0 for each in made.items) == 20000
    old = house.ledger.row("items", album.items[0].number)
    assert old is not None and (old["status"], old["cost"]) == ("withdrawn", 0)
    with pytest.raises(UserError, match="was split"):
        break_lot(house, album.purchase.id, pieces, [1, 1, 1], DAY)


def test_a_piece_sold_before_the_split_has_its_margin_worked_out_by_it(
    house: Settings, buy: Buy
) -> None:
    lot = buy(10000, 2)
    first, second = lot.purchase.items
    sale = note_sale(house, Order(DAY, (Wanted(first, 9000),), payments=(("cash", 9000),))).sale
    assert sale.lines[0].vat_pence is None and sale.lines[0].cost_pence is None
    split_by_hand(house, lot.purchase.id, {first: 3000, second: 7000}, DAY)
    line = (house.ledger.row("sales", sale.id) or {})["lines"][0]
    assert (line["cost_pence"], line["vat_pence"]) == (3000, 1000)


def test_cash_with_one_person_is_added_up_and_warned_of_well_below_the_limit(
    house: Settings, buy: Buy
) -> None:
    # High value dealer: £10,000 since 30 June 2026, 10,000 euro before (mlr-2026, govuk-hvd).
    assert buy(400000).told == ()
    warned = buy(150000, day="2026-07-01").told
    assert len(warned) == 1 and "£5,500.00" in warned[0] and "£10,000.00" in warned[0]
    assert "since 2026-06-30" in warned[0] and "HMRC" in warned[0]
    assert buy(150000, day="2026-07-01", payment="card").told == ()
    assert buy(400000, day="2026-07-01", seller="Somebody else").told == ()
    house.set_limit("high-value-dealer", 300000, "2026-07-02")
    house.change_business(high_value_dealer="XYZ 1")  # without it such a payment may not be taken
    assert "£3,000.00" in buy(300000, day="2026-07-03", seller="A third").told[0]


def test_vat_shown_on_the_sellers_paper_keeps_a_piece_off_the_scheme(house: Settings, buy: Buy) -> None:
    assert buy(4500, seller_kind="VAT shown").items[0].scheme == "ordinary"
    before = rows(house)
    with pytest.raises(UserError, match="VAT is shown on the seller's paper"):
        buy(4500, seller_kind="VAT shown", scheme="margin")
    assert rows(house) == before


def test_vat_shown_found_later_takes_unsold_pieces_off_the_scheme(house: Settings, buy: Buy) -> None:
    unsold, sold = buy(4500), buy(4500)
    note_sale(house, Order(DAY, (Wanted(sold.items[0].number, 5000),)))
    complete_purchase(house, unsold.purchase.id, seller_kind="VAT shown", invoice_number="77")
    assert (house.ledger.row("items", unsold.items[0].number) or {})["scheme"] == "ordinary"
    with pytest.raises(UserError, match="was sold under the margin scheme"):
        complete_purchase(house, sold.purchase.id, seller_kind="VAT shown")


def test_global_accounting_takes_500_with_a_warning_and_refuses_a_penny_more(
    house: Settings, buy: Buy
) -> None:
    # Rule "ga-limit-boundary" (VATMARG03100, VATMARG03250): the authority's pages disagree at 500.00.
    assert buy(49999, scheme="global").told == ()
    exact = buy(50000, scheme="global", payment="card")
    assert exact.items[0].scheme == "global" and "both ways" in exact.told[0]
    with pytest.raises(UserError, match=r"£500.01 is above £500.00"):
        buy(50001, scheme="global")


def test_a_dear_piece_of_a_pooled_lot_is_taken_out_of_the_pool(house: Settings, buy: Buy) -> None:
    # Rule "ga-bulk" (VATMARG03200).
    lot = buy(200000, 2, scheme="global", payment="card")
    first, second = lot.purchase.items
    made = split_by_hand(house, lot.purchase.id, {first: 160000, second: 40000}, DAY)
    assert [each.scheme for each in made.items] == ["margin", "global"]


@pytest.mark.parametrize(
    "wrong",
    [
        {"total_pence": -1},
        {"pieces": ()},
        {"payment": "beads"},
        {"seller_kind": "duke"},
        {"scheme": "magic"},
        {"day": "2026-02-30"},
        {"shares": (1, 2)},
        {"expected": (1,)},
        {"expected": (0, 0)},
    ],
)
def test_a_wrong_purchase_is_refused_in_one_sentence_and_nothing_is_noted(
    house: Settings, wrong: dict[str, object]
) -> None:
    deal = Deal(DAY, 10000, (Item(""), Item("")), seller="New Person")
    entries = len(list(house.ledger.entries()))
    with pytest.raises(UserError) as refused:
        note_purchase(house, replace(deal, **wrong))
    assert str(refused.value).endswith(".") and "\n" not in str(refused.value)
    assert len(list(house.ledger.entries())) == entries
    assert rows(house) == {"items": 0, "purchases": 0, "people": 0, "sales": 0}
