"""The app over a folder of one's own, with clocks that a test moves by hand."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from counter.desk.opening import open_desk
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.bath import BathStage
from counter.trade.treatment_log import BathPlan
from counter.tui.app import CounterApp
from counter.values.item import Item
from counter.values.record import write_row
from tests.tui.conftest import LIBRARY, NOW, Stall

#: As the reference guides a brushing: three changes of clean water, two minutes each.
STAGES = (
    BathStage("Brush: paint only the dark ink", 30, works=True, look_every=10),
    BathStage("First water", 120),
    BathStage("Second water", 120),
    BathStage("Third water", 120),
    BathStage("Dry between blotters", 86400, last=True),
)


@dataclass
class Clocks:
    """A time of day and a monotonic count; asleep, the second stands still."""

    wall: datetime = NOW
    ticks: float = 500.0

    def go(self, seconds: float, *, asleep: bool = False) -> None:
        self.wall += timedelta(seconds=seconds)
        self.ticks += 0 if asleep else seconds


def plan(number: str = "", of: str = "a 1d black") -> BathPlan:
    return BathPlan(
        "peroxide_brush",
        "Brush dilute peroxide on darkened ink",
        STAGES,
        of=number or of,
        item=number,
        product="peroxide",
        strength="3 % w/v",
        by="A. N.",
        before="browned",
    )


def stocked(folder: Path) -> str:
    """A folder with two pieces of stock, both loose used 1d blacks; the number of the first."""
    ledger = Ledger.open(folder, clock=lambda: NOW)
    numbers = [ledger.next_number("items") for _ in range(2)]
    for number in numbers:
        piece = Item(
            number=number,
            issue="penny_black_1840",
            denomination="1d",
            colour="black",
            gum="used",
            attachment="loose",
            cancel="maltese_cross_black",
            cancel_colour="black",
        )
        ledger.note("stock noted", [Change("items", number, write_row(piece))])
    ledger.close()
    return numbers[0]


@asynccontextmanager
async def open_own(
    folder: Path, clocks: Clocks, size: tuple[int, int] = (80, 24), theme: str = "night"
) -> AsyncIterator[Stall]:
    """The app over `folder` until the desk is open and its stock can be searched."""
    app = CounterApp(
        lambda: open_desk(
            folder, library=LIBRARY, clock=lambda: clocks.wall, ticks=lambda: clocks.ticks
        ),
        theme=theme,
    )
    async with app.run_test(size=size, notifications=True) as pilot:
        stall = Stall(app, pilot)
        for _ in range(400):
            if app.desk and app.desk.stock_ready:
                break
            await pilot.pause(0.02)
        await pilot.pause()
        yield stall
    if app.desk:
        app.desk.close()
