"""The year for the accountant: profit by scheme, VAT periods as filed, what there was on a day.

Each sum is worked by hand beside its check. Boxes: rule "return-boxes" (notice 718/2); VAT at 1/6.
"""

import csv
import io
from typing import Any

import pytest

from counter.documents.accounts_pages import boxes_csv, nine_boxes, standing_files, year_files
from counter.store.records.accounts import Outlay
from counter.store.records.check import put
from counter.trade.accounts_day import standing_on
from counter.trade.after_sale import cancel_deposit, keep_approval, note_balance
from counter.trade.corrections import correct
from counter.trade.filing import file_return, late_words, read_filed
from counter.trade.lots import break_lot, split_by_hand
from counter.trade.refunds import note_refund
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.trade.year import read_year
from counter.values.errors import UserError
from counter.values.item import Item

from .conftest import DAY, Buy
from .test_adding_up import bought, run  # noqa: F401  (a fixture)

YEAR = ("2026-01-01", "2026-12-31")
Q2 = ("2026-04-01", "2026-06-30")


def sell(house: Settings, number: str, pence: int, day: str = DAY, **how: Any) -> str:
    paid = how.pop("paid", (("cash", pence),))
    order = Order(day, (Wanted(number, pence),), payments=paid, **how)
    return note_sale(house, order).sale.id


def test_profit_by_scheme_costs_own_use_and_losses(house: Settings, book: Book, buy: Buy) -> None:
    # margin: 90 - 50, VAT 40 / 6 = 6.67, left 33.33. ordinary: 120 of which VAT 20, cost 60: left 40.
    # lost at 10, kept at 8 (own use, no part of the profit), a stand at 60 of which VAT 10: costs 50.
    sell(house, buy(5000).items[0].number, 9000)
    sell(house, buy(6000, scheme="ordinary").items[0].number, 12000)
    sell(house, buy(1000).items[0].number, 0, disposal="lost", paid=())
    own = buy(800).items[0].number
    sell(house, own, 0, disposal="kept", paid=())
    cost = Outlay(id="WK-K1", date=DAY, category="stand", pence=6000, vat_pence=1000)
    house.ledger.note("cost noted", [put(cost)])
    year = read_year(book, *YEAR)
    found = {each.scheme: (each.sales, each.cost, each.vat, each.profit) for each in year.schemes}
    assert found == {"margin": (9000, 5000, 667, 3333), "ordinary": (12000, 6000, 2000, 4000)}
    assert year.costs == {"stand": 5000}
    assert year.net == 3333 + 4000 - 1000 - 5000
    assert [(each.item, each.cost) for each in year.own_use] == [(own, 800)]
    # box 4: the stand's VAT 10; box 7: 50 + 60 + 10 + 8 for stock and 50 for the stand.
    assert (year.box("input_vat"), year.box("box_7")) == (1000, 12800 + 5000)


def test_a_year_of_global_accounting_is_the_sum_of_its_periods(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Q1: 700 - 100 = 600, VAT 100. Q2: bought 800, nothing sold: carried 800, no VAT back (ga-formula).
    house.change_business(scheme="global", global_since="2026-01-01")
    sell(house, buy(10000, day="2026-01-05").items[0].number, 70000, "2026-02-01")
    buy(40000, day="2026-04-05"), buy(40000, day="2026-04-06")
    year = read_year(book, *YEAR)
    assert [each.sums.box_1 for each in year.periods] == [10000, 0, 0, 0]
    assert year.box("box_1") == 10000
    (scheme,) = year.schemes
    assert (scheme.scheme, scheme.vat, scheme.profit) == ("global", 10000, 70000 - 10000 - 10000)


def test_a_refund_of_another_year_falls_in_its_own(house: Settings, book: Book, buy: Buy) -> None:
    # Sold 2026 at 90 (VAT 6.67), back in 2027: the one year has +33.33, the other -33.33.
    sale = sell(house, buy(5000).items[0].number, 9000)
    note_refund(house, sale, (), "2027-01-05", "faulty")
    assert read_year(book, *YEAR).net == 3333
    assert read_year(book, "2027-01-01", "2027-12-31").net == -3333


def test_a_filed_return_is_frozen_and_later_changes_are_listed(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Filed with 90 - 50: box 1 6.67. The purchase was 45: 45 / 6 = 7.50. A sale dated back: 12 / 6 = 2.
    made = buy(5000)
    late = buy(800).items[0].number
    sale = sell(house, made.items[0].number, 9000)
    filed = file_return(book, *Q2, "2026-07-20", "receipt 1")
    assert (filed.box_1_pence, filed.box_6_pence, filed.box_7_pence) == (667, 8333, 5800)
    assert read_filed(book, filed).changes == ()
    told = correct(house, made.purchase.id, {"total": "45"}, "2026-08-01", "slip").told
    assert any("filed on 20 July 2026" in each for each in told)
    order = Order(DAY, (Wanted(late, 2000),), payments=(("card", 2000),))
    assert any("filed on 20 July 2026" in each for each in note_sale(house, order).told)
    read = read_filed(book, house.ledger.accounts.returns.of(filed.id))
    assert read.filed.box_1_pence == 667
    assert read.boxes == (
        ("box 1", 667, 950),
        ("box 6", 8333, 10050),
        ("box 7", 5800, 5300),
    )
    moved = {each.deal: (each.was.vat_pence, each.now.vat_pence) for each in read.changes}
    assert moved == {sale: (667, 750), made.purchase.id: (0, 0), "WK-S2": (0, 200)}
    assert read_year(book, *YEAR).periods[1].moved


@pytest.mark.parametrize(
    ("since", "until", "day", "why"),
    [
        (*Q2, "2026-06-30", "ends on"),
        ("2019-01-01", "2019-03-31", "2019-04-20", "not registered"),
        ("2026-05-01", "2026-07-31", "2026-08-20", "was filed"),
    ],
)
def test_what_cannot_be_filed_is_refused(
    house: Settings, book: Book, since: str, until: str, day: str, why: str
) -> None:
    if why == "was filed":
        file_return(book, *Q2, "2026-07-20")
    with pytest.raises(UserError, match=why):
        file_return(book, since, until, day)
    assert len(house.ledger.accounts.returns.records()) == (why == "was filed")


def test_a_lot_split_after_filing_shows_what_moved(house: Settings, book: Book, buy: Buy) -> None:
    # Unsplit, the piece sold at 145 bears nothing yet; with a share of 0: 145 / 6 = 24.17.
    lot = buy(30000, 2)
    sale = sell(house, lot.items[0].number, 14500)
    filed = file_return(book, *Q2, "2026-07-20")
    shares = {lot.items[0].number: 0, lot.items[1].number: 30000}
    told = split_by_hand(house, lot.purchase.id, shares, "2026-08-01").told
    assert any("lot-freeze" in each for each in told)
    assert any("filed on" in each for each in told)
    read = read_filed(book, filed)
    assert read.boxes[0] == ("box 1", 0, 2417)
    assert [each.deal for each in read.changes] == [sale]


def test_a_day_that_was_closed_is_said(house: Settings, book: Book, buy: Buy) -> None:
    from counter.trade.day_totals import close_day

    number = buy(5000).items[0].number
    close_day(book, DAY, 0)
    assert any("closed already" in each for each in late_words(house, DAY))
    order = Order(DAY, (Wanted(number, 9000),), payments=(("cash", 9000),), buyer="Bo")
    assert any("closed already" in each for each in note_sale(house, order).told)


def test_the_nine_boxes(house: Settings, book: Book, buy: Buy) -> None:
    # 90 - 50.99: VAT 39.01 / 6 = 6.50; box 6 is 83.50, declared 83; bought with VAT 20: box 4.
    sell(house, buy(5099).items[0].number, 9000)
    buy(12000, seller_kind="VAT shown", vat_pence=2000, invoice_number="77")
    sums = totals(book, *Q2)
    assert [(number, pence) for number, _, pence in nine_boxes(sums)] == [
        ("1", "6.50"),
        ("2", "0.00"),
        ("3", "6.50"),
        ("4", "20.00"),
        ("5", "13.50"),
        ("6", "83"),
        ("7", "150"),
        ("8", "0"),
        ("9", "0"),
    ]
    rows = list(csv.DictReader(io.StringIO(boxes_csv(*Q2, sums))))
    assert (rows[4]["what"], rows[4]["sum"], rows[0]["from"]) == ("to reclaim", "13.50", "2026-04-01")
    assert nine_boxes(totals(book, *Q2))[0][2] == "6.50"


def test_stock_on_a_day_at_cost(house: Settings, book: Book, buy: Buy) -> None:
    # 1 May: 50 and 8 there. 10 May: the 50 sold. 20 May: it came back. 1 June: a lot of 300, not split.
    first, second = buy(5000).items[0].number, buy(800).items[0].number
    sale = sell(house, first, 9000, "2026-05-10")
    note_refund(house, sale, (), "2026-05-20", "faulty")
    lot = buy(30000, 2, day="2026-06-01")
    costs = {day: standing_on(book, day).stock_cost for day in ("2026-04-30", DAY, "2026-05-10")}
    assert costs == {"2026-04-30": 0, DAY: 5800, "2026-05-10": 800}
    assert standing_on(book, "2026-05-20").stock_cost == 5800
    assert standing_on(book, "2026-06-01").stock_cost == 35800
    there = standing_on(book, "2026-06-01")
    assert [each.number for each in there.stock][:2] == [first, second]
    assert sum(1 for each in there.stock if each.remark) == 2
    rows = list(csv.DictReader(io.StringIO(standing_files(there)["stock.csv"])))
    assert "net realisable value" in rows[0] and rows[0]["cost"] == "50.00"
    # split later: on the day before, the pieces still come to the lot's price
    split_by_hand(house, lot.purchase.id, {each.number: 15000 for each in lot.items}, "2026-07-01")
    assert standing_on(book, "2026-06-01").stock_cost == 35800


def test_debtors_deposits_approval_and_creditors_on_a_day(
    house: Settings, book: Book, buy: Buy
) -> None:
    # Sold at 90 with 30 paid on 1 May, 60 on 1 June: 60 owed in between. A deposit of 20 on 1 May, the
    # balance on 1 July; one of 10 fell through on 2 May. Out 1 May at 70, kept on 15 May. Bought on credit: 45.
    numbers = [buy(5000).items[0].number for _ in range(4)]
    owed = sell(house, numbers[0], 9000, paid=(("cash", 3000),), buyer="Bo")
    note_balance(house, owed, "card", "2026-06-01")
    held = sell(house, numbers[1], 8000, status="deposit", paid=(("cash", 2000),), buyer="Di")
    note_balance(house, held, "card", "2026-07-01")
    gone = sell(house, numbers[2], 8000, status="deposit", paid=(("cash", 1000),))
    cancel_deposit(house, gone, "2026-05-02")
    out = sell(house, numbers[3], 7000, status="on approval", paid=(), due_back="2026-06-01")
    keep_approval(house, out, [numbers[3]], "2026-05-15", "cash")
    credit = buy(4500, payment="owed").purchase.id
    may, june = standing_on(book, DAY), standing_on(book, "2026-06-01")
    assert [(each.deal, each.person, each.pence) for each in may.debtors] == [(owed, "Bo", 6000)]
    assert {each.deal: each.pence for each in may.deposits} == {held: 2000, gone: 1000}
    assert [(each.deal, each.pence) for each in may.approval] == [(out, 7000)]
    assert [(each.deal, each.pence) for each in may.creditors] == [(credit, 4500)]
    assert not june.debtors and not june.approval
    assert [each.deal for each in june.deposits] == [held]
    assert not standing_on(book, "2026-07-01").deposits


def test_numbers_that_are_no_invoice_are_explained(house: Settings, book: Book, buy: Buy) -> None:
    # M24, M30: a lot broken up leaves a gap in the stock numbers, a refund one in the invoices.
    lot = buy(5000)
    album = lot.items[0].number
    made = break_lot(
        house, lot.purchase.id, [Item("", words="a"), Item("", words="b")], [100, 300], DAY
    )
    sale = sell(house, made.items[0].number, 9000)
    back = note_refund(house, sale, (), DAY, "faulty").sale.id
    numbers = dict(read_year(book, *YEAR).numbers)
    assert numbers[back] == f"refund of {sale}"
    pieces = f"{made.items[0].number}, {made.items[1].number}"
    assert numbers[album] == f"broken up on {DAY} into {pieces}"
    assert sale not in numbers


def test_the_files_add_up(house: Settings, book: Book, buy: Buy) -> None:
    # The profit column's own sum is its last line: 33.33 - 10 - 50 (see above).
    sell(house, buy(5000).items[0].number, 9000)
    sell(house, buy(1000).items[0].number, 0, disposal="stolen", paid=())
    cost = Outlay(id="WK-K1", date=DAY, category="travel", pence=5000)
    house.ledger.note("cost noted", [put(cost)])
    rows = list(csv.DictReader(io.StringIO(year_files(read_year(book, *YEAR))["profit.csv"])))
    *parts, whole = [round(float(each["profit"]) * 100) for each in rows]
    assert sum(parts) == whole == 3333 - 1000 - 5000


def test_the_command_line_gives_the_year_and_files_a_return(run: Any, tmp_path: Any) -> None:  # noqa: F811
    # 90 - 50, VAT 6.67: 33.33 left.
    run("house", "--set", "name=A", "address=B", "registered_from=2020-01-01")
    number = bought(run, "1d red £50 cash")["items"][0]["number"]
    run("sell", f"{number}=90", "--payment", "cash", "--date", "2026-05-06")
    assert run("filed", "q2", "2026", "--date", "2026-07-20")[1]["box_1_pence"] == 667
    assert run("filed")[1]["filed"][0]["changes"] == []
    (tmp_path / "year").mkdir()
    words = ("accounts", "2026", "--folder", str(tmp_path / "year"))
    code, data, _ = run(*words)
    assert code == 0 and data["year"]["net"] == 3333 and data["standing"]["stock_cost"] == 0
    assert (tmp_path / "year" / "profit.csv").exists() and (tmp_path / "year" / "stock.csv").exists()
    code, _, err = run(*words)  # the files are there already, and stay
    assert code == 1 and "already" in err
    assert run("accounts", "2026", "--on", "2026-05-01")[0] == 2
    assert run("accounts", "--on", "2026-05-05")[1]["standing"]["stock"][0]["cost"] == 5000
    assert (
        run("book", "--from", "2026-04-01", "--to", "2026-06-30", "--boxes", str(tmp_path / "b"))[0]
        == 0
    )
    assert "1,VAT due on sales,6.67" in (tmp_path / "b").read_text()
