"""The book for any run of purchases, sales and refunds: it adds up, and refunds restore it."""

import tempfile
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from counter.reference.money import read_money_facts
from counter.store.ledger import Ledger
from counter.trade.buying import Deal, note_purchase
from counter.trade.refunds import note_refund
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.values.item import Item
from counter.values.vat import on_margin

from .conftest import DAY, open_house

FACTS = read_money_facts()
PENCE = st.integers(0, 60000)
DEALS = st.lists(
    st.tuples(
        PENCE,  # cost
        PENCE,  # price
        st.integers(0, 500),  # postage
        st.sampled_from(["margin", "ordinary", "global"]),
        st.booleans(),  # comes back
    ),
    min_size=1,
    max_size=6,
)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(DEALS)
def test_the_book_adds_up_and_refunds_restore_it(deals: list[tuple[int, int, int, str, bool]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        house = open_house(Path(folder) / "data", FACTS)
        house.change_business(registered_from="2020-01-01", global_since="2026-01-01")
        book = Book(house, {})
        expected = 0
        for cost, price, postage, scheme, back in deals:
            scheme = "margin" if scheme == "global" and cost > 50000 else scheme
            deal = Deal(DAY, cost, (Item("", words="a piece"),), scheme=scheme)
            number = note_purchase(house, deal).items[0].number
            before = totals(book, DAY, DAY), house.ledger.row("items", number)
            order = Order(DAY, (Wanted(number, price),), postage_pence=postage)
            sale = note_sale(house, order).sale
            assert all((line.vat_pence or 0) >= 0 for line in sale.lines)
            if back:
                note_refund(house, sale.id, [], DAY, "sent back", "cash")
                assert (totals(book, DAY, DAY), house.ledger.row("items", number)) == before
            elif scheme == "margin":
                expected += on_margin(cost, price + postage, FACTS.rate_on(DAY).part).vat
        sums = totals(book, DAY, DAY)
        assert sums.vat_on_margins == expected
        assert sums.sold == sum(price + postage for _, price, postage, _, back in deals if not back)
        assert sums.bought == sum(cost for cost, *_ in deals)
        live = book.lines(DAY, DAY)
        house.ledger.close()
        again = Ledger.open(house.ledger.folder, clock=house.ledger.clock, read_only=True)
        assert Book(Settings(again, FACTS), {}).lines(DAY, DAY) == live
        again.close()
