"""The counter on a real pseudo-terminal, which opens the screen it is told and tells what its keys did.

python -m tests.tui.pty_screens SOCKET

Commands come over a socket, one a line; each is answered by one line of JSON:
"open NAME" opens that screen fresh (is there an entry?), "trace" waits for the key that ends a run and
tells every action carried out, with what stood in the entries when it was, and where it all ended.
"""

from __future__ import annotations

import asyncio
import json
import sys
from dataclasses import replace
from typing import Any

from textual import events

from counter.desk.opening import open_desk
from counter.reference.library import Library
from counter.store.history import undo
from counter.tui.textual_private import mend_driver
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.text_entry import TextEntry
from tests.benchmarks.all_screens import given
from tests.tui.pty_stall import NOW, Told

#: Ends a run of keys: bound nowhere, and handed to nobody.
END_KEY, END = "ctrl+right_square_bracket", b"\x1d"
LINE = "1d blk kc"


class Traced(Told):
    """The app, which writes down each action in the order carried out."""

    def __init__(self) -> None:
        super().__init__(lambda: open_desk(None, demo=True, library=Library(), clock=lambda: NOW))
        self.done: list[list[Any]] = []
        self.ended = asyncio.Event()
        self.before: dict[str, Any] = {}

    async def on_ready(self) -> None:
        await asyncio.start_unix_server(self._serve, sys.argv[1])

    async def run_action(self, action: Any, *args: Any, **words: Any) -> bool:
        screen = self.screen
        if isinstance(screen, BaseScreen) and isinstance(action, str) and action.startswith("do("):
            self.done.append([screen.NAME, action[4:-2], self._entries()])
        return await super().run_action(action, *args, **words)

    def _entries(self) -> list[str]:
        return [each.value for each in self.screen.query(TextEntry)]

    async def _hand_on(self, event: events.Key | events.Paste) -> None:
        if isinstance(event, events.Key) and event.key == END_KEY:
            self.ended.set()
        else:
            await super()._hand_on(event)

    async def _serve(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        async for line in reader:
            name, _, what = line.decode().strip().partition(" ")
            try:
                told = await (self._open_fresh(what) if name == "open" else self._trace())
            except Exception as fault:
                told = {"fault": repr(fault)}
            writer.write(json.dumps(told).encode() + b"\n")
            await writer.drain()

    async def _open_fresh(self, name: str) -> dict[str, Any]:
        """The screen over the counter, as it was the first time; whether it takes words."""
        desk = self.desk
        if desk is None or not desk.stock_ready:
            await asyncio.sleep(0.05)
            return {"wait": True}
        while len(self.screen_stack) > 1:
            self.pop_screen()
        await self._rest()
        ask = self.board_entry
        if not self.before:
            ask.value = LINE
            await self._rest()
            self.board.quote_line(*_first_priced(self))
            self.before = {"quote": self.board.quote, "entries": desk.ledger.state.entries}
        if desk.ledger.state.entries > self.before["entries"]:
            for entry in list(desk.ledger.entries())[self.before["entries"] :][::-1]:
                if entry.reverses is None:
                    undo(desk.ledger, entry.id)
            self.before["entries"] = desk.ledger.state.entries
        for written in desk.ledger.folder.glob("1d*"):
            written.unlink()
        self.board.quote, self.board.sale = replace(self.before["quote"]), {}
        self.board.cover, self.board.side = None, "stock"
        ask.value = "" if name == "counter" else LINE
        ask.cursor_position = len(ask.value)
        await self._rest()
        if name != "counter":
            make = given(self, name)
            if make is None:
                return {"entry": None}
            self.open_screen(name, *make())
        await self._rest()
        self.done.clear()
        self.ended.clear()
        for entry in self.screen.query(TextEntry):
            entry.value = ""
        focused = self.focused
        return {"entry": bool(isinstance(focused, TextEntry))}

    @property
    def board_entry(self) -> TextEntry:
        return self._counter.query_one("#ask", TextEntry)

    async def _rest(self) -> None:
        """Until what was begun has been worked on and drawn, also what is read in a thread."""
        await self.workers.wait_for_complete()
        for _ in range(2):
            drawn = asyncio.Event()
            self.screen.call_after_refresh(drawn.set)
            await drawn.wait()

    async def _trace(self) -> dict[str, Any]:
        await asyncio.wait_for(self.ended.wait(), 20)
        self.ended.clear()
        await self._rest()
        stack = [getattr(each, "NAME", "") for each in self.screen_stack]
        return {"done": self.done, "stack": stack, "entries": self._entries()}


def _first_priced(app: Traced) -> tuple[str, str, int | None]:
    found = next(each for each in app.board.stock if each.price is not None)
    return found.number, found.words, found.price


if __name__ == "__main__":
    mend_driver()
    Traced().run()
