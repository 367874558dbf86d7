"""Every screen drawn, every key of it pressed: the longest that any of it holds the screen's thread.

    python tests/benchmarks/all_screens.py [--lines N] [--deals N] [--most N]

Over the demo, or over N synthetic lines of stock with the demo's purchases and sales taken N times
over. What is measured is the processor time of the longest single turn of the event loop, so that
other programs' work does not count; the goal is 50 ms.
"""

from __future__ import annotations

import argparse
import asyncio
import gc
import sys
import tempfile
import time
from asyncio.events import Handle
from collections.abc import Callable
from contextlib import contextmanager
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from textual.pilot import Pilot

from counter.csv_files.columns import STOCK
from counter.desk.opening import open_desk
from counter.desk.stock.item_from_text import read_piece
from counter.reference.library import Library
from counter.store.entry import Change
from counter.tui.app import CounterApp
from counter.tui.navigation import SCREENS, screen_class
from counter.tui.screens.cover.opening import notes_in_hand
from counter.tui.screens.data_job.jobs import JOBS
from counter.tui.screens.treatments.case import case_of_stock
from counter.values.record import write_row
from tests.benchmarks.synthetic_stock import stock

GOAL_MS = 50.0
LINE = "1d blk kc"
#: Keys that close the counter or put the stock aside.
LEFT_OUT = ("leave", "open_demo")


class Turns:
    """The longest single turn of the event loop, in seconds of its own processor time."""

    longest = 0.0

    @contextmanager
    def timed(self) -> Any:
        own = Handle._run

        def run(handle: Handle) -> None:
            began = time.thread_time()
            own(handle)
            self.longest = max(self.longest, time.thread_time() - began)

        Handle._run = run  # type: ignore[method-assign]
        try:
            yield self
        finally:
            Handle._run = own  # type: ignore[method-assign]


def enlarge(desk: Any, library: Library, lines: int, deals: int) -> None:
    """Synthetic stock, and the purchases and sales noted again under other numbers."""
    ledger = desk.ledger
    if lines:
        ledger.note_many(
            ("stock noted", [Change("items", each.number, write_row(each))])
            for each in stock(library.stamps, lines)
        )
    entries = []
    for table, letter in (("purchases", "P"), ("sales", "S")):
        for row in list(ledger.rows(table)):
            for turn in range(1, deals):
                number = f"ZZ-{letter}{turn}{row['id'].rpartition(letter)[2]}"
                entries.append((f"{table} again", [Change(table, number, {**row, "id": number})]))
    ledger.note_many(entries)


def given(app: CounterApp, name: str) -> Callable[[], tuple[object, ...]] | None:
    """What a screen asks for; None for those that need a treatment under way."""
    desk, board = app.desk, app.board
    assert desk is not None
    item = desk.item(board.stock[0].number)
    rows = {table: desk.ledger.rows(table)[0]["id"] for table in ("sales", "purchases", "people")}

    def say(words: str) -> None:
        pass

    case = case_of_stock(desk, item.number) if item else None
    treatments = desk.library.treatments
    alone = ("day", "stock_book", "sales", "people", "settings", "treatment_timer")
    known: dict[str, Callable[[], tuple[object, ...]]] = {
        **{each: lambda: (desk,) for each in alone},
        "after_sale": lambda: (desk, rows["sales"]),
        "cash_box": lambda: (desk, desk.trading.today),
        "command_palette": lambda: (screen_class("counter"),),
        "complete_purchase": lambda: (desk, rows["purchases"]),
        "confirm": lambda: ("Take it back?", "This was 1 May 2026."),
        "conflicts": lambda: (),
        "cover": lambda: (notes_in_hand(board, 0),),
        "data_files": lambda: (),
        "data_job": lambda: (JOBS[0],),
        "edit_item": lambda: (desk, item, None),
        "examine": lambda: (board,),
        "help": lambda: (screen_class("counter"),),
        "import_columns": lambda: ({each.heading: each.heading for each in STOCK}, {}, say),
        "import_stock": lambda: (),
        "invoice": lambda: (desk, rows["sales"]),
        "item": lambda: (desk, board, item),
        "peroxide": lambda: (treatments,),
        "person": lambda: (desk, rows["people"]),
        "price_in_hand": lambda: (desk, read_piece(LINE, desk.library)),
        "put_right": lambda: (desk, rows["sales"]),
        "quote": lambda: (board,),
        "save_file": lambda: (desk, "a file", "x.txt", lambda: "x", say),
        "save_quote": lambda: (board, desk, say),
        "saved_quotes": lambda: (board, desk, say),
        "sell": lambda: (board, desk),
        "split_lot": lambda: (desk, rows["purchases"], say),
        "treatment": lambda: (
            (case, treatments.treatments["water_float"])
            if "water_float" in treatments.treatments
            else (case, next(iter(treatments.treatments.values())))
        ),
        "treatments": lambda: ((case,),),
    }
    return known.get(name)


async def home(app: CounterApp, pilot: Pilot[None]) -> None:
    """Back to the counter, with a line typed and a piece in the quote."""
    while len(app.screen_stack) > 1:
        app.pop_screen()
    await pilot.pause()


async def walk(app: CounterApp, pilot: Pilot[None], *, keys: bool) -> list[tuple[float, str]]:
    """(milliseconds, what) of every screen's first frame and, if wanted, of every key."""
    found: list[tuple[float, str]] = []
    turns = Turns()
    with turns.timed():

        async def measure(what: str, key: str = "") -> None:
            turns.longest = 0.0
            if key:
                await pilot.press(key)
            await pilot.pause()
            await app.workers.wait_for_complete()
            await pilot.pause()
            found.append((turns.longest * 1000, what))
            assert app.is_running, f"{what}: the counter stopped"

        for name in SCREENS:
            make = (lambda: ()) if name == "counter" else given(app, name)
            if make is None:
                if keys:
                    print(f"{name}: only opened while a treatment is under way, not measured here")
                continue
            for action in (None, *screen_class(name).ACTIONS):
                if action and (not keys or action.id in LEFT_OUT or not action.keys):
                    continue
                await home(app, pilot)
                if name != "counter":
                    app.open_screen(name, *make())
                await measure(f"{name}: drawn")
                if action:
                    key = action.keys.split()[0]
                    await measure(f"{name}: {key} ({action.id})", key)
    return found


async def run(lines: int, deals: int, most: int) -> float:
    library = Library()
    with tempfile.TemporaryDirectory() as folder:
        desk = open_desk(None, demo=True, library=library)
        enlarge(desk, library, lines, deals)
        desk.index_all()
        app = CounterApp(lambda: desk, theme="night", log_folder=Path(folder))
        async with app.run_test(size=(80, 24)) as pilot:
            while not (app.desk and app.desk.stock_ready):
                await pilot.pause(0.05)
            await pilot.press(*("space" if each == " " else each for each in LINE), "enter")
            await app.workers.wait_for_complete()
            gc.set_threshold(10_000)  # as the counter itself is started
            gc.freeze()
            await walk(app, pilot, keys=False)  # reads modules in and warms what is kept
            found = sorted(await walk(app, pilot, keys=True), reverse=True)
        desk.close()
    for held, what in found[:most]:
        print(f"{held:7.1f} ms  {what}")
    over = sum(held > GOAL_MS for held, _ in found)
    print(f"{len(found)} measured, {over} over {GOAL_MS:.0f} ms, worst {found[0][0]:.1f} ms")
    return found[0][0]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lines", type=int, default=0, help="synthetic stock lines beside the demo")
    parser.add_argument("--deals", type=int, default=1, help="how many times over the demo's deals")
    parser.add_argument("--most", type=int, default=15, help="how many of the worst are printed")
    chosen = parser.parse_args()
    return int(asyncio.run(run(chosen.lines, chosen.deals, chosen.most)) > GOAL_MS)


if __name__ == "__main__":
    sys.exit(main())
