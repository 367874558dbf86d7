"""The day's close, and quotes kept, found again and turned into sales."""

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.store.records.money import Foreign
from counter.store.records.sale import Quote, QuotedPiece
from counter.trade.after_sale import note_balance
from counter.trade.day_totals import BoxLine, close_day, day_text, look_at_day, note_cash
from counter.trade.quotes import (
    end_quote,
    find_quotes,
    note_quote,
    order_from_quote,
    shared_foreign,
)
from counter.trade.refunds import note_refund
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.values.errors import UserError
from counter.values.quote import QuoteLine as Line
from counter.values.quote import RunningQuote

from .conftest import DAY, Buy


def test_a_day_adds_up(house: Settings, book: Book, buy: Buy) -> None:
    note_cash(book, "float", 10000, DAY)
    note_cash(book, "expense", -350, DAY, "tea")
    first, second, third = (buy(4500).items[0].number for _ in range(3))
    note_sale(house, Order(DAY, (Wanted(first, 7250),), payments=(("cash", 5000), ("card", 2250))))
    held = note_sale(
        house, Order(DAY, (Wanted(second, 6000),), payments=(("cash", 1000),), status="deposit")
    ).sale
    back = note_sale(house, Order(DAY, (Wanted(third, 5000),), payments=(("cash", 5000),))).sale
    note_refund(house, back.id, [], DAY, "changed their mind", "cash")
    day = look_at_day(book, DAY)
    assert day.takings == {"card": 2250, "cash": 6000}
    assert (day.sales, day.refunds, day.sold) == (2, 1, 7250)
    assert (day.purchases, day.bought) == (3, 13500)
    assert day.cash == (BoxLine("expense", -350, "tea"),) and day.other_cash == -350
    told = day_text(day)
    assert "2 sales, 1 refund: £72.50" in told and "other cash" not in told
    assert re.search(r"expense, tea +-£3\.50", told)
    assert day.box == 10000 - 350 + 6000 - 13500
    assert day.profit == 2292 and day.counted is None  # 27.50 less 4.58 of VAT
    assert len(day.owed) == 3
    closed = close_day(book, DAY, 3000)
    assert (closed.counted, closed.difference) == (3000, 850)
    assert "difference £8.50" in day_text(closed)
    with pytest.raises(UserError, match="closed already"):
        close_day(book, DAY, 3000)
    note_balance(house, held.id, "cash", "2026-05-02")
    after = look_at_day(book, "2026-05-02")
    assert after.takings == {"cash": 5000} and after.sold == 6000 and after.profit == 1250


def running(house: Settings, buy: Buy, *prices: int) -> RunningQuote:
    lines = [Line(buy(100).items[0].number, "1d red", price) for price in prices]
    return RunningQuote(tuple(lines))


def test_a_quote_is_kept_found_and_sold(house: Settings, buy: Buy) -> None:
    offered = running(house, buy, 5000, 1235).discounted("10%")
    quote = note_quote(house, offered, DAY, customer="Green")
    assert (quote.total_pence, quote.valid_until) == (5612, "2026-05-15")
    assert [each.id for each in find_quotes(house.ledger, "green 1d")] == [quote.id]
    assert find_quotes(house.ledger, "nobody") == []
    with pytest.raises(UserError, match="held until 2026-05-15"):
        order_from_quote(house.ledger, quote.id, "2026-05-16")
    sale = note_sale(house, order_from_quote(house.ledger, quote.id, "2026-05-15")).sale
    assert sale.total_pence == 5612 and sale.buyer == quote.customer and sale.quote == quote.id
    taken = house.ledger.quotes.of(quote.id)
    assert (taken.status, taken.sale) == ("taken", sale.id)
    with pytest.raises(UserError, match="taken already"):
        order_from_quote(house.ledger, quote.id, DAY)
    with pytest.raises(UserError, match="taken already"):
        end_quote(house.ledger, quote.id)


def test_a_quote_in_another_currency_is_turned_once_at_the_dealers_own_dated_rate(
    house: Settings, buy: Buy
) -> None:
    offered = running(house, buy, 5000, 1235)
    with pytest.raises(UserError, match="No rate of yours is noted for EUR"):
        note_quote(house, offered, DAY, currency="EUR")
    house.set_exchange("EUR", "1.1650", "2026-04-01", "newspaper")
    house.set_exchange("EUR", "1.2000", "2026-06-01", "newspaper")
    quote = note_quote(house, offered, DAY, currency="EUR")
    # decimal: 62.35 x 1.1650 = 72.63775, half up 72.64
    assert quote.foreign == Foreign("EUR", 7264, "1.1650", "2026-04-01", "newspaper")
    assert (
        int((Decimal("62.35") * Decimal("1.1650")).quantize(Decimal("0.01"), "ROUND_HALF_UP") * 100)
        == 7264
    )
    assert sum(shared_foreign(quote)) == 7264
    with pytest.raises(UserError, match="not a currency"):
        note_quote(house, offered, DAY, currency="ZZZ")


@given(st.lists(st.integers(0, 10**6), min_size=1, max_size=8).filter(any), st.integers(0, 10**8))
def test_shares_of_a_foreign_sum_add_up(prices: list[int], amount: int) -> None:
    lines = tuple(QuotedPiece(f"W{place}", price) for place, price in enumerate(prices))
    quote = Quote("Q", DAY, lines, total_pence=sum(prices), foreign=Foreign("EUR", amount, "1.2"))
    assert sum(shared_foreign(quote)) == amount


def test_a_quote_that_makes_no_sense_is_refused(house: Settings, buy: Buy) -> None:
    with pytest.raises(UserError, match="nothing in the quote"):
        note_quote(house, RunningQuote(), DAY)
    offered = running(house, buy, 5000)
    with pytest.raises(UserError, match="would end on 2026-04-01"):
        note_quote(house, offered, DAY, until="2026-04-01")
    note_sale(house, Order(DAY, (Wanted(offered.lines[0].number, 1),)))
    with pytest.raises(UserError, match="is sold"):
        note_quote(house, offered, DAY)
    assert house.ledger.rows("quotes") == []
