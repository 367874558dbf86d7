"""A clock that ticks when told, and a ledger in a folder of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from counter.store.ledger import Ledger


class Clock:
    """The time it was set to; `forward` moves it."""

    def __init__(self) -> None:
        self.now = datetime(2026, 5, 1, 10, 0)

    def __call__(self) -> datetime:
        return self.now

    def forward(self, **by: float) -> None:
        self.now += timedelta(**by)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "own"


@pytest.fixture
def opened(clock: Clock) -> Iterator[Callable[..., Ledger]]:
    """Opens ledgers and closes what a test left open."""
    every: list[Ledger] = []

    def opens(folder: Path, **more: object) -> Ledger:
        every.append(Ledger.open(folder, clock=clock, **more))  # type: ignore[arg-type]
        return every[-1]

    yield opens
    for ledger in every:
        ledger.close()


@pytest.fixture
def ledger(opened: Callable[..., Ledger], folder: Path) -> Ledger:
    return opened(folder, laptop="WK")
