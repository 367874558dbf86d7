"""People kept apart: exported whole, erased except what the law wants, until when and why."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from counter.store.entry import Change
from counter.trade.buying import Deal, complete_purchase, note_purchase
from counter.trade.people import (
    complete_person,
    erase_person,
    held_about,
    kept_until,
    person_for,
)
from counter.trade.refunds import note_refund
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.values.days import years_later
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.record import write_row

from .conftest import DAY, Buy


def everything_written(folder: Path) -> bytes:
    return b"".join(each.read_bytes() for each in folder.rglob("*") if each.is_file())


def test_everything_held_about_a_person_is_shown(house: Settings, buy: Buy) -> None:
    bought = buy(4500)
    held = held_about(house, bought.purchase.seller)
    assert held["person"]["name"] == "Harrow"
    assert [each["id"] for each in held["purchases"]] == [bought.purchase.id]
    assert held["kept_until"] == "unsold"
    with pytest.raises(UserError, match="no person"):
        held_about(house, "WK-N99")


def test_a_word_that_is_no_detail_is_refused_whatever_it_is_called(house: Settings, buy: Buy) -> None:
    bought = buy(4500)
    for word in ("ledger", "key", "moon"):
        with pytest.raises(UserError, match="A person has"):
            complete_person(house.ledger, bought.purchase.seller, **{word: "x"})
    for word in ("house", "number", "moon"):
        with pytest.raises(UserError, match="cannot follow"):
            complete_purchase(house, bought.purchase.id, **{word: "x"})


def test_name_and_address_stay_while_a_piece_is_unsold_and_for_the_laws_term_after(
    house: Settings, buy: Buy
) -> None:
    # Retention "vat-6", "vat-old-stock" (govuk-margin-records) and "self-assessment": sold on
    # 1 June 2026, in the tax year to 5 April 2027, filed by 31 January 2028, kept 5 years.
    bought = buy(4500)
    key, number = bought.purchase.seller, bought.items[0].number
    complete_person(house.ledger, key, address="2 Low Lane", phone="01234", remarks="talks a lot")
    done = erase_person(house, key, DAY)
    assert set(done.gone) == {"phone", "remarks", "first_seen"}
    assert done.kept == ("name", "address") and done.until == "unsold"
    assert "01234" not in str(held_about(house, key))
    assert b"talks a lot" not in everything_written(house.ledger.folder)
    note_sale(house, Order("2026-06-01", (Wanted(number, 5000),)))
    assert kept_until(house, key)[0] == "2033-01-31"
    house.change_business(registered_from="")
    assert kept_until(house, key)[0] == "2033-01-31"
    assert erase_person(house, key, "2033-01-31").kept == ("name", "address")
    last = erase_person(house, key, "2033-02-01")
    assert last.kept == () and last.why == "" and last.remains
    assert house.ledger.people.named("Harrow") == []


def test_when_all_goes_the_typed_lines_go_too(house: Settings) -> None:
    deal = Deal(DAY, 100, (Item("", words="1d"),), words="1d £1 cash Penelope", seller="Penelope")
    bought = note_purchase(house, deal)
    note_sale(house, Order(DAY, (Wanted(bought.items[0].number, 100),)))
    erase_person(house, bought.purchase.seller, "2040-01-01")
    assert b"Penelope" not in everything_written(house.ledger.folder)
    assert house.ledger.row("purchases", bought.purchase.id) is not None  # the figures stay


def test_a_piece_that_came_back_counts_from_the_day_it_was_sold(house: Settings, buy: Buy) -> None:
    # Sold in the tax year to 5 April 2027, brought back in the next and withdrawn: kept as for the sale.
    bought = buy(4500)
    number = bought.items[0].number
    sold = note_sale(house, Order("2026-06-01", (Wanted(number, 5000),)))
    note_refund(house, sold.sale.id, (number,), "2027-06-01", "faulty", "cash")
    back = house.ledger.items.of(number)
    withdrawn = write_row(replace(back, status="withdrawn"))
    house.ledger.note("withdrawn", [Change("items", number, withdrawn)])
    assert kept_until(house, bought.purchase.seller)[0] == "2033-01-31"


def test_somebody_of_whom_nothing_must_be_kept_goes_at_once(house: Settings) -> None:
    someone, changes = person_for(house.ledger, "Green", DAY)
    house.ledger.note("person noted", changes)
    assert someone is not None
    assert erase_person(house, someone.id, DAY).kept == ()
    assert b"Green" not in everything_written(house.ledger.folder)


def test_two_of_a_name_must_be_told_apart(house: Settings) -> None:
    first, changes = person_for(house.ledger, "Green", DAY)
    house.ledger.note("person noted", changes)
    assert first is not None
    other = {"id": "WK-N9", "name": "green"}
    house.ledger.note("person noted", [Change("people", "WK-N9", other)])
    with pytest.raises(UserError, match="Several people are called Green"):
        person_for(house.ledger, "Green", DAY)
    assert person_for(house.ledger, "WK-N9", DAY)[0] is not None


def test_a_leap_day_six_years_on() -> None:
    assert years_later("2024-02-29", 6) == "2030-02-28"


def test_vat_records_may_have_the_longer_term(house: Settings, buy: Buy) -> None:
    # 5 April ends a tax year: filed by the next 31 January, so VAT's 6 years are the longer.
    bought = buy(4500, day="2026-04-05")
    note_sale(house, Order("2026-04-05", (Wanted(bought.items[0].number, 5000),)))
    assert kept_until(house, bought.purchase.seller)[0] == "2032-04-05"
    house.change_business(registered_from="")
    assert kept_until(house, bought.purchase.seller)[0] == "2032-01-31"
