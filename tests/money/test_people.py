"""People kept apart: exported whole, erased except what the law wants, until when and why."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from counter.documents.layout import all_text
from counter.documents.person_page import person_page, record_lines
from counter.store.entry import Change
from counter.trade.after_sale import note_balance
from counter.trade.buying import Deal, complete_purchase, note_purchase
from counter.trade.people import complete_person, join_people, name_and_address, person_for
from counter.trade.personal_data import erase_person, held_about, kept_until
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


@pytest.mark.parametrize(
    ("typed", "name", "address"),
    [
        ("Mrs Penny Brown, 4 High St, Ludmere", "Mrs Penny Brown", "4 High St, Ludmere"),
        ("Mrs Penny Brown, Ludmere", "Mrs Penny Brown", "Ludmere"),
        ("Harrow, The Old Mill House", "Harrow", "The Old Mill House"),
        ("Green & Sons, Ltd, 2 Low Lane", "Green & Sons, Ltd", "2 Low Lane"),
        ("Brown, Penny", "Brown, Penny", ""),
        ("Mr Green", "Mr Green", ""),
        ("  A   Smith ,", "A Smith", ""),
    ],
)
def test_name_and_address_are_parted_as_typed(typed: str, name: str, address: str) -> None:
    # Common practice: a name, then the lines of an address, parted by commas.
    assert name_and_address(typed) == (name, address)


def test_the_next_time_is_the_same_person(house: Settings, buy: Buy) -> None:
    first = buy(500, seller="Mr Green, 4 High St").purchase.seller
    assert buy(500, seller="mr green").purchase.seller == first
    assert buy(500, seller="Mr Green, 4, High St.").purchase.seller == first
    other = buy(500, seller="Mr Green, 9 Low Lane")
    assert other.purchase.seller != first
    assert house.ledger.people.of(first).address == "4 High St"
    with pytest.raises(UserError, match="say which by number"):
        buy(500, seller="Mr Green")


def test_a_like_name_is_told_and_asks_where_cash_adds_up(house: Settings, buy: Buy) -> None:
    # 4,000 and 2,000 make 6,000, over the warning of 5,000: one person or two?
    smith = buy(400000, seller="Smith").purchase.seller
    told = buy(500, seller="Mr J Smith", payment="card").told
    assert any(f"{smith}" in each and "--join" in each for each in told)
    entries = house.ledger.state.entries
    with pytest.raises(UserError, match="say the number"):
        buy(200000, seller="P Smith")
    assert house.ledger.state.entries == entries
    buy(200000, seller="P Smith, 4 High St", payment="card")
    warned = buy(200000, seller=smith).told
    assert any("6,000" in each for each in warned)
    assert not any("--join" in each for each in buy(500, seller="Smithson").told)


def test_two_records_are_joined_with_their_deals(house: Settings, buy: Buy) -> None:
    # 3,000 and 1,000 in cash are 4,000 with one person; a further 1,500 reaches the warning.
    first = buy(300000, seller="Smith").purchase.seller
    second = buy(100000, seller="A. N. Other").purchase.seller
    complete_person(house.ledger, second, address="4 High St", phone="01234")
    whole = join_people(house.ledger, first, second)
    assert (whole.name, whole.address, whole.phone) == ("Smith", "4 High St", "01234")
    assert len(house.ledger.purchases.from_(first)) == 2
    assert any("5,500" in each for each in buy(150000, seller=second).told)
    assert len(house.ledger.purchases.from_(first)) == 3
    with pytest.raises(UserError, match="joined"):
        join_people(house.ledger, first, second)
    with pytest.raises(UserError, match="itself"):
        join_people(house.ledger, first, first)


def test_an_open_debt_holds_a_name(house: Settings, buy: Buy) -> None:
    # Owed since 2015: the term of six years is over, but the debt is open (M27).
    made = buy(5000, day="2015-05-01", seller="")
    order = Order("2015-06-01", (Wanted(made.items[0].number, 9000),), buyer="Bo Limm")
    sale = note_sale(house, order).sale
    assert kept_until(house, sale.buyer)[0] == "open"
    assert "name" in erase_person(house, sale.buyer, DAY).kept
    note_balance(house, sale.id, "cash", "2015-06-02")
    assert kept_until(house, sale.buyer)[0] != "open"
    house.change_business(company_year_end="03-31")
    # A company: six years from the end of its year, 31 March 2016.
    assert kept_until(house, sale.buyer)[0] == "2022-03-31"


def test_free_text_that_names_a_person_is_found_and_erased(house: Settings, buy: Buy) -> None:
    # M27: the reason of a refund and the place of a purchase survived.
    made = buy(5000, day="2015-05-01", seller="", place="at Bo Limm's house")
    number = made.items[0].number
    order = Order("2015-06-01", (Wanted(number, 9000),), payments=(("cash", 9000),), buyer="Bo Limm")
    sale = note_sale(house, order).sale
    complete_person(house.ledger, sale.buyer, address="7 Oak St, Ludmere")
    back = note_refund(house, sale.id, (), "2015-06-05", "Bo Limm of 7 Oak St changed his mind").sale
    held = held_about(house, sale.buyer)["mentioned"]
    assert set(held) == {f"purchases {made.purchase.id}: place", f"sales {back.id}: reason"}
    assert "sold to us" not in "\n".join(record_lines(held_about(house, sale.buyer)))
    erase_person(house, sale.buyer, DAY)
    assert b"Limm" not in everything_written(house.ledger.folder)
    assert b"Oak St" not in everything_written(house.ledger.folder)


def test_a_joined_record_goes_with_the_person(house: Settings, buy: Buy) -> None:
    first = buy(500, day="2015-05-01", seller="Quill Pen")
    second = buy(500, day="2015-05-01", seller="Q. Penworth")
    for made in (first, second):
        order = Order("2015-06-01", (Wanted(made.items[0].number, 900),), payments=(("cash", 900),))
        note_sale(house, order)
    join_people(house.ledger, first.purchase.seller, second.purchase.seller)
    erase_person(house, first.purchase.seller, DAY)
    written = everything_written(house.ledger.folder)
    assert b"Quill" not in written and b"Penworth" not in written


def test_the_whole_record_is_shown_and_printed(house: Settings, buy: Buy) -> None:
    made = buy(4500, seller="Mr Green, 4 High St", words="1d red £45")
    number = made.items[0].number
    sell = Order(DAY, (Wanted(number, 9000),), payments=(("card", 9000),), buyer="Mr Green")
    note_sale(house, sell)
    held = held_about(house, made.purchase.seller)
    shown = all_text(person_page(held, "until 2033-01-31"))
    for words in (
        "Mr Green",
        "4 High St",
        "£45.00, paid by cash",
        "£90.00",
        "1 May 2026",
        "Kept until",
    ):
        assert words in shown
