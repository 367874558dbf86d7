"""The app over a fresh demo, driven without a terminal; and its screen read as plain text."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager
from datetime import datetime

import pytest
from textual._compositor import Compositor
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.events import Key
from textual.keys import _character_to_key
from textual.pilot import Pilot

from counter.desk.desk import Desk
from counter.desk.opening import open_desk
from counter.reference.library import Library
from counter.tui.app import CounterApp
from counter.values.item import Item

LIBRARY = Library()
#: The day on which every screen test takes place.
NOW = datetime.fromisoformat("2026-05-02T10:00:00+01:00")
_RENDER_UPDATE = Compositor.render_update


def _unsent(compositor: Compositor, *_: object, **__: object) -> None:
    compositor._dirty_regions.clear()


class Stall:
    """A running counter: type, press, read the screen."""

    def __init__(self, app: CounterApp, pilot: Pilot[None]) -> None:
        self.app = app
        self.pilot = pilot
        self.keys = 0

    async def press(self, *keys: str) -> None:
        self.keys += len(keys)
        await self.pilot.press(*keys)

    async def type(self, text: str) -> None:
        """Type faster than the screen is drawn, as somebody in a hurry does."""
        self.keys += len(text)
        for char in text:
            self.app.post_message(Key(_character_to_key(char), char).set_sender(self.app))
        await self.pilot.pause()

    async def wait_for(self, words: str) -> None:
        """Wait until the words are on the screen; the test fails when they do not come."""
        for _ in range(1_000):
            if words in self.text():
                return
            await self.pilot.pause(0.02)
        raise AssertionError(f"{words!r} never came:\n{self.text()}")

    async def opened(self) -> None:
        """Wait until the whole stock can be asked."""
        for _ in range(1_000):
            if self.app.desk and self.app.desk.stock_ready:
                break
            await self.pilot.pause(0.02)
        await self.wait_for("pieces")

    async def said(self, words: str) -> None:
        """Wait for words that may be broken over lines."""
        for _ in range(1_000):
            if words in " ".join(self.text().split()):
                return
            await self.pilot.pause(0.02)
        raise AssertionError(f"{words!r} never came:\n{self.text()}")

    def item(self, number: str) -> Item:
        """A line of stock that must be there."""
        assert self.app.desk
        item = self.app.desk.item(number)
        assert item
        return item

    def rows(self) -> list[str]:
        """The screen, row by row, as a person sees it."""
        width, height = self.app.size
        strips = self.app.screen._compositor.render_strips(self.app.size)
        return ["".join(segment.text for segment in strip)[:width] for strip in strips][:height]

    def text(self) -> str:
        return "\n".join(self.rows())


@pytest.fixture
def sent(monkeypatch: pytest.MonkeyPatch) -> None:
    """What would be sent to a terminal is made too."""
    monkeypatch.setattr(Compositor, "render_update", _RENDER_UPDATE)


@pytest.fixture(autouse=True, scope="session")
def nothing_is_sent() -> Iterator[None]:
    """No terminal reads what a Pilot's app would send; `Stall.rows` draws the screen when it is read."""
    Compositor.render_update = _unsent  # type: ignore[method-assign]
    yield
    Compositor.render_update = _RENDER_UPDATE  # type: ignore[method-assign]


@pytest.fixture(autouse=True, scope="session")
def read_once() -> Iterator[None]:
    """The reference and the rules of the style sheet are read by the first app for all of them."""
    warm, parse, parsed = Desk.warm, Stylesheet._parse_rules, {}

    def warm_once(desk: Desk) -> None:
        if desk.library is not LIBRARY or "warm" not in parsed:
            warm(desk)
        parsed.setdefault("warm", desk.library is LIBRARY)

    def parse_once(sheet: Stylesheet, css: str, *more: object, **named: object) -> list[RuleSet]:
        key = (css, more, *named.items(), *sheet._variables.items())
        if key not in parsed:
            parsed[key] = parse(sheet, css, *more, **named)
        return parsed[key]

    Desk.warm, Stylesheet._parse_rules = warm_once, parse_once  # type: ignore[method-assign]
    yield
    Desk.warm, Stylesheet._parse_rules = warm, parse  # type: ignore[method-assign]


@asynccontextmanager
async def open_stall(size: tuple[int, int] = (80, 24), **words: str) -> AsyncIterator[Stall]:
    app = CounterApp(
        lambda: open_desk(None, demo=True, library=LIBRARY, clock=lambda: NOW),
        theme=words.get("theme", "night"),
    )
    async with app.run_test(size=size, notifications=True) as pilot:
        stall = Stall(app, pilot)
        await stall.opened()
        yield stall
    if app.desk:
        app.desk.close()


@pytest.fixture
def stall_of() -> object:
    return open_stall
