"""A house over an empty ledger in a folder of its own, on a fixed day, registered for VAT."""

from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path

import pytest

from counter.reference.money import MoneyFacts, read_money_facts
from counter.store.ledger import Ledger
from counter.trade.buying import Bought, Deal, note_purchase
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.values.item import Item

DAY = "2026-05-01"


@pytest.fixture(scope="session")
def facts() -> MoneyFacts:
    return read_money_facts()


def open_house(folder: Path, facts: MoneyFacts) -> Settings:
    ledger = Ledger.open(folder, clock=lambda: datetime(2026, 5, 1, 12), laptop="WK")
    return Settings(ledger, facts)


@pytest.fixture
def house(tmp_path: Path, facts: MoneyFacts) -> Iterator[Settings]:
    made = open_house(tmp_path / "data", facts)
    made.change_business(
        name="A. Dealer", address="1 High Street", vat_number="GB 1", registered_from="2020-01-01"
    )
    yield made
    made.ledger.close()


@pytest.fixture
def book(house: Settings) -> Book:
    return Book(house, {})


Buy = Callable[..., Bought]


@pytest.fixture
def buy(house: Settings) -> Buy:
    """Buy pieces for so many pence, plain penny reds unless told otherwise."""

    def bought(pence: int, count: int = 1, **how: object) -> Bought:
        pieces = tuple(Item("", issue="penny_red_1841", words="plain") for _ in range(count))
        terms: dict[str, object] = {"day": DAY, "payment": "cash", "seller": "Harrow"} | how
        return note_purchase(house, Deal(total_pence=pence, pieces=pieces, **terms))  # type: ignore[arg-type]

    return bought
