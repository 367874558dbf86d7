"""Random deals that come back, wholly or in part, against a reckoning from the law's words alone.

The reckoning knows nothing of the program: VAT is a sixth of what the buyer paid in the end above the cost,
half up to the penny, and never below nought; a credit first takes off what is owed, the rest is paid back.
"""

import tempfile
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from counter.reference.money import read_money_facts
from counter.trade.buying import Deal, note_purchase
from counter.trade.refunds import Allowing, note_allowance, note_refund, to_pay
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.values.item import Item

from .conftest import open_house

FACTS = read_money_facts()
pence = st.integers(1, 30000)


def vat(margin: int) -> int:
    sixth = Decimal(max(0, margin)) / 6
    return int(sixth.quantize(Decimal(1), ROUND_HALF_UP))


@settings(max_examples=12, deadline=None)
@given(st.lists(st.tuples(pence, pence, pence, pence, st.booleans(), st.booleans()), max_size=8))
def test_what_comes_back_agrees_with_the_reckoning(
    deals: list[tuple[int, int, int, int, bool, bool]],
) -> None:
    with tempfile.TemporaryDirectory() as place:
        house = open_house(Path(place) / "data", FACTS)
        house.change_business(name="A", address="B", vat_number="GB 1", registered_from="2020-01-01")
        box_1 = held = sold = 0
        for cost, price, paid, off, allowed, came_back in deals:
            paid, off = min(paid, price), min(off, price)
            pieces = (Item("", issue="penny_red_1841"),)
            bought = note_purchase(house, Deal("2026-01-05", cost, pieces, payment="card"))
            order = Order("2026-02-01", (Wanted(bought.items[0].number, price),))
            order = Order(order.day, order.lines, payments=(("card", paid),))
            number = note_sale(house, order).sale.id
            left = price
            if allowed:
                note_allowance(house, number, off, Allowing("2026-05-01"), "a thin")
                left = price - off
            if came_back:
                note_refund(house, number, [], "2026-08-01", "sent back")
                left = 0
            credits = house.ledger.sales.refunds(number)
            box_1 += 0 if came_back else vat(left - cost)
            held += min(paid, left)
            sold += left
            assert to_pay(house.ledger.sales.of(number), credits) == max(0, left - paid)
        quarters = [
            totals(Book(house, {}), f"2026-{first}-01", f"2026-{last}")
            for first, last in (("01", "03-31"), ("04", "06-30"), ("07", "09-30"))
        ]
        assert sum(each.box_1 or 0 for each in quarters) == box_1
        assert sum(each.sold for each in quarters) == sold
        paid_in = (p for sale in house.ledger.sales.records() for p in sale.payments)
        assert sum(each.pence for each in paid_in if each.method == "card") == held
        house.ledger.close()
