"""A fair and its costs: takings by hour and way, what sold of what was taken, the box; sums by hand."""

from datetime import datetime
from typing import Any

import pytest

from counter.store.records.accounts import Outlay
from counter.trade.day_totals import look_at_day
from counter.trade.fairs import note_cost, note_fair, read_fair
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.values.errors import UserError

from .conftest import DAY, Buy
from .test_adding_up import bought, run  # noqa: F401  (a fixture)


def cost(category: str, pence: int, **how: Any) -> Outlay:
    return Outlay(id="-", date=how.pop("date", DAY), category=category, pence=pence, **how)


def test_costs_by_category_leave_the_box_and_give_their_vat_back(house: Settings, book: Book) -> None:
    # A stand at 60 in cash with VAT of 10, petrol at 20 by card: the box -60; box 4 10; box 7 50 + 20.
    note_cost(house, cost("stand", 6000, vat_pence=1000))
    note_cost(house, cost("travel", 2000, method="card"))
    assert look_at_day(book, DAY).box == -6000
    sums = totals(book, DAY, DAY)
    assert (sums.input_vat, sums.box_7) == (1000, 7000)


@pytest.mark.parametrize(
    "wanted",
    [
        cost("beer", 100),
        cost("stand", 0),
        cost("stand", 100, vat_pence=101),
        cost("stand", 100, method="owed"),
        cost("expertising", 100, item="WK-99"),
        cost("stand", 100, fair="WK-F9"),
    ],
)
def test_a_wrong_cost_is_one_sentence_and_nothing_noted(house: Settings, wanted: Outlay) -> None:
    entries = house.ledger.state.entries
    with pytest.raises(UserError) as refused:
        note_cost(house, wanted)
    assert str(refused.value).endswith(".") and "\n" not in str(refused.value)
    assert house.ledger.state.entries == entries


def test_how_a_fair_went_and_last_time(house: Settings, book: Book, buy: Buy) -> None:
    # Last time: one of one sold at 30. This time: 90 at eleven in cash, 45 at noon by card of which 5
    # owed; the stand 30. Profit (90 - 50 - 6.67) + (45 - 20 - 4.17) = 33.33 + 20.83, less 30.
    early = buy(1000, day="2026-03-01").items[0].number
    last = note_fair(house, "Ludmere", "2026-03-01", "2026-03-01", [early])
    paid = (("cash", 3000),)
    note_sale(house, Order("2026-03-01", (Wanted(early, 3000),), payments=paid))
    first, second, third = (buy(each).items[0].number for each in (5000, 2000, 700))
    fair = note_fair(house, "ludmere", DAY, DAY, [first, second, third])
    house.ledger.clock = lambda: datetime(2026, 5, 1, 11, 20)
    note_sale(house, Order(DAY, (Wanted(first, 9000),), payments=(("cash", 9000),)))
    house.ledger.clock = lambda: datetime(2026, 5, 1, 12, 5)
    owed = note_sale(house, Order(DAY, (Wanted(second, 4500),), payments=(("card", 4000),))).sale.id
    note_cost(house, cost("stand", 3000, fair=fair.id))
    read = read_fair(book, fair)
    assert read.hours == {"11": {"cash": 9000}, "12": {"card": 4000}}
    assert read.takings == {"cash": 9000, "card": 4000}
    assert read.unnoted == ((owed, 500),)
    assert (read.sold, read.left) == (((first, 9000), (second, 4500)), (third,))
    assert (read.profit, read.net) == (3333 + 2083, 3333 + 2083 - 3000)
    assert read.before and read.before.fair.id == last.id and read.before.sold == ((early, 3000),)


def test_from_the_command_line(run: Any) -> None:  # noqa: F811
    number = bought(run, "2d blue £5 cash Ann")["items"][0]["number"]
    made = run("fair", "Ludmere", "--from", "2026-05-01", "--take", number)[1]
    run("sell", f"{number}=9", "--payment", "cash", "--date", "2026-05-01")
    assert run("cost", "stand", "2.50", "--fair", made["id"], "--date", "2026-05-01")[0] == 0
    read = run("fair", made["id"])[1]
    assert read["costs"] == {"stand": 250} and read["takings"] == {"cash": 900}
    assert read["net"] == 900 - 500 - 250  # not registered: no VAT
    assert run("cost", "stand", "-3")[0] == 2
    assert run("fair")[1]["fairs"][0]["name"] == "Ludmere"
