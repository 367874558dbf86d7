"""People kept apart: exported whole, erased except what the law wants, until when and why."""

from pathlib import Path

import pytest

from counter.ledger.buying import Deal, note_purchase
from counter.ledger.house import House
from counter.ledger.people import (
    complete_person,
    erase_person,
    find_people,
    held_about,
    kept_until,
    person_for,
)
from counter.ledger.selling import Order, Wanted, note_sale
from counter.values.days import years_later
from counter.values.item import Item
from counter.values.trouble import Trouble

from .conftest import DAY, Buy


def everything_written(folder: Path) -> bytes:
    return b"".join(each.read_bytes() for each in folder.rglob("*") if each.is_file())


def test_everything_held_about_a_person_is_shown(house: House, buy: Buy) -> None:
    bought = buy(4500)
    held = held_about(house.ledger, bought.purchase.seller)
    assert held["person"]["name"] == "Harrow"
    assert [each["id"] for each in held["purchases"]] == [bought.purchase.id]
    assert held["kept_until"] == "unsold"
    with pytest.raises(Trouble, match="no person"):
        held_about(house.ledger, "WK-N99")


def test_name_and_address_stay_while_a_piece_is_unsold_and_six_years_after(
    house: House, buy: Buy
) -> None:
    # Retention "vat-6" and "vat-old-stock" (govuk-margin-records).
    bought = buy(4500)
    key, number = bought.purchase.seller, bought.items[0].number
    complete_person(house.ledger, key, address="2 Low Lane", phone="01234", remarks="talks a lot")
    done = erase_person(house.ledger, key, DAY)
    assert set(done.gone) == {"phone", "remarks", "first_seen"}
    assert done.kept == ("name", "address") and done.until == "unsold"
    assert "01234" not in str(held_about(house.ledger, key))
    assert b"talks a lot" not in everything_written(house.ledger.folder)
    note_sale(house, Order("2026-06-01", (Wanted(number, 5000),)))
    assert kept_until(house.ledger, key)[0] == "2032-06-01"
    assert erase_person(house.ledger, key, "2032-06-01").kept == ("name", "address")
    last = erase_person(house.ledger, key, "2032-06-02")
    assert last.kept == () and last.why == "" and last.remains
    assert find_people(house.ledger, "Harrow") == []


def test_when_all_goes_the_typed_lines_go_too(house: House) -> None:
    deal = Deal(DAY, 100, (Item("", words="1d"),), words="1d £1 cash Penelope", seller="Penelope")
    bought = note_purchase(house, deal)
    note_sale(house, Order(DAY, (Wanted(bought.items[0].number, 100),)))
    erase_person(house.ledger, bought.purchase.seller, "2040-01-01")
    assert b"Penelope" not in everything_written(house.ledger.folder)
    assert house.ledger.row("purchases", bought.purchase.id) is not None  # the figures stay


def test_somebody_of_whom_nothing_must_be_kept_goes_at_once(house: House) -> None:
    someone, changes = person_for(house.ledger, "Green", DAY)
    house.ledger.note("person noted", changes)
    assert someone is not None
    assert erase_person(house.ledger, someone.id, DAY).kept == ()
    assert b"Green" not in everything_written(house.ledger.folder)


def test_two_of_a_name_must_be_told_apart(house: House) -> None:
    first, changes = person_for(house.ledger, "Green", DAY)
    house.ledger.note("person noted", changes)
    assert first is not None
    other = {"id": "WK-N9", "name": "green"}
    from counter.ledger.entry import Change

    house.ledger.note("person noted", [Change("people", "WK-N9", other)])
    with pytest.raises(Trouble, match="Several people are called Green"):
        person_for(house.ledger, "Green", DAY)
    assert person_for(house.ledger, "WK-N9", DAY)[0] is not None


def test_a_leap_day_six_years_on() -> None:
    assert years_later("2024-02-29", 6) == "2030-02-28"
