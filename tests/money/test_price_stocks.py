"""Small stocks by hand: what may and may not be suggested from them."""

from typing import Any

import pytest

from tests.money.stocks import STOCKS, evidence, priced, wrong


def test_the_table_is_long_enough_and_asks_for_figures() -> None:
    assert len(STOCKS) >= 60
    assert sum("hand" in stock for stock in STOCKS) >= 30
    assert len({stock["id"] for stock in STOCKS}) == len(STOCKS)


@pytest.mark.parametrize("stock", STOCKS, ids=lambda stock: stock["id"])
def test_a_small_stock(stock: dict[str, Any]) -> None:
    assert not wrong(stock, priced(stock["ask"], evidence(stock)))
