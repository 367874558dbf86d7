"""The law's edges: cash before it is noted, the turnover limit where the sale is made, goods long out.

Limits as published: a high value dealer takes or pays £10,000 in cash (since 30 June 2026) and must be
registered before; VAT registration from £90,000 of twelve months' turnover (since 1 April 2024).
"""

from typing import Any

import pytest

from counter.trade.after_sale import keep_approval, note_balance
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.values.errors import UserError

from .conftest import Buy
from .test_adding_up import bought, run  # noqa: F401  (a fixture)

DAY = "2026-07-01"


def selling(number: str, pence: int, **how: object) -> Order:
    terms: dict[str, object] = {"payments": (("cash", pence),)} | how
    return Order(DAY, (Wanted(number, pence),), **terms)  # type: ignore[arg-type]


def test_cash_from_or_to_nobody_asks_for_a_name_before_it_is_noted(house: Settings, buy: Buy) -> None:
    number = buy(1000).items[0].number
    entries = house.ledger.state.entries
    with pytest.raises(UserError, match=r"name the seller, as is wanted from £5,000\.00 on"):
        buy(500000, seller="", day=DAY)
    with pytest.raises(UserError, match="name the buyer"):
        note_sale(house, selling(number, 1500000))
    assert house.ledger.state.entries == entries
    assert buy(499999, seller="", day=DAY).told == ()
    out = note_sale(house, selling(number, 1100000, status="on approval", due_back=DAY, payments=()))
    with pytest.raises(UserError, match="name the buyer"):
        keep_approval(house, out.sale.id, [number], DAY, "cash")
    other = buy(1000).items[0].number
    owed = note_sale(house, selling(other, 600000, payments=())).sale.id
    with pytest.raises(UserError, match="name the buyer"):
        note_balance(house, owed, "cash", DAY)


def test_cash_at_the_laws_limit_is_refused_until_registered(house: Settings, buy: Buy) -> None:
    entries = house.ledger.state.entries
    with pytest.raises(UserError, match="ask HMRC"):
        buy(1000000, day=DAY)
    assert house.ledger.state.entries == entries
    assert buy(999999, day=DAY, seller="A").told  # a penny less: told, not refused
    house.change_business(high_value_dealer="XYZ 1")
    assert "£10,000.00" in buy(1000000, day=DAY, seller="B").told[0]


def test_goods_out_for_more_than_twelve_months_are_told(house: Settings, buy: Buy) -> None:
    # Out on 1 July 2026: kept on 1 July 2027 is within twelve months, on the 2nd it is not.
    for day, told in (("2027-07-01", 0), ("2027-07-02", 1)):
        number = buy(1000).items[0].number
        out = note_sale(
            house, selling(number, 5000, status="on approval", due_back=DAY, payments=())
        ).sale
        assert len(keep_approval(house, out.id, [number], day, "card").told) == told


def test_the_turnover_limit_is_said_at_the_sale_and_at_the_close(run: Any) -> None:  # noqa: F811
    # Four fifths of 90,000 are 72,000: nothing at 71,999, near at 72,000 and more, over above 90,000.
    pieces = bought(run, "1d black £9; 1d red £9; 2d blue £9 card Ann")["items"]
    said = []
    for item, price in zip(pieces, ("71999", "1", "18001"), strict=True):
        sale = run("sell", f"{item['number']}={price}", "--payment", "card", "--date", "2026-05-02")[1]
        said.append(" ".join(sale["told"]))
    assert "limit for VAT registration" not in said[0]
    assert "comes near" in said[1] and "is over" in said[2] and "HMRC" in said[2]
    assert "is over" in run("close-day", "--date", "2026-05-02")[1]["told"][0]


def test_goods_taken_in_may_be_worth_more_than_what_is_sold(run: Any) -> None:  # noqa: F811
    # 200 is taken in, 150 sold: 150 by exchange, 50 out of the box; sold 150, bought 200.
    number = bought(run, "1d black £90 card Ann")["items"][0]["number"]
    words = ["sell", f"{number}=150", "--exchange", "2d blue £200", "--buyer", "Bo"]
    code, _, err = run(*words, "--date", "2026-05-02")
    assert code == 2 and "£50.00 more" in err
    sold = run(*words, "--date", "2026-05-02", "--payment", "cash")
    assert sold[0] == 0 and sold[1]["payments"][0]["pence"] == 15000
    day = run("close-day", "--date", "2026-05-02")[1]
    assert (day["box"], day["sold"], day["bought"]) == (-5000, 15000, 20000)
    assert day["paid_out"] == {"cash": 5000, "exchange": 15000}


def test_imported_collectors_items_go_under_the_margin_scheme_once_opted(
    house: Settings, book: Book, buy: Buy
) -> None:
    # M7: 420 all in, sold at 600: without the option ordinary VAT, 600 / 6 = 100.00; with it
    # (600 - 420) / 6 = 30.00 (rule "import-margin-option", notice 718/2 and article 317).
    with pytest.raises(UserError, match="unless you opted"):
        buy(42000, seller_kind="import", scheme="margin")
    plain = buy(42000, seller_kind="import", vat_pence=2000).items[0].number
    note_sale(house, Order(DAY, (Wanted(plain, 60000),), payments=(("card", 60000),)))
    assert totals(book, DAY, DAY).box_1 == 10000
    house.change_business(import_option_from="2026-05-02")
    assert buy(42000, seller_kind="import").items[0].scheme == "ordinary"  # before the option
    opted = buy(42000, seller_kind="import", day="2026-05-02").items[0]
    paid = (("card", 60000),)
    note_sale(house, Order("2026-05-03", (Wanted(opted.number, 60000),), payments=paid))
    assert totals(book, "2026-05-03", "2026-05-03").box_1 == 3000
    with pytest.raises(UserError, match="not reclaimed"):
        buy(42000, seller_kind="import", vat_pence=2000, day="2026-05-04")
