"""People on the screen: found, completed, exported, erased as far as the law lets."""

import json
from typing import Any

from tests.tui.conftest import Stall, open_stall
from tests.tui.test_counter import HOSTILE, shown_as_typed
from tests.tui.test_sale import desk_of, walk


async def person(stall: Stall, words: str) -> str:
    """The first person found by the words."""
    await stall.press("f8")
    await stall.wait_for("Still to complete")
    await stall.press("f9")
    await stall.type(words)
    await stall.press("enter")
    key: str = stall.app.screen.key  # type: ignore[attr-defined]
    return key


def test_completed_and_exported(tmp_path: Any) -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            key = await person(stall, "ivelcroft")
            await stall.press("down")
            await stall.type("3 Ropewalk, Ludmere")
            await stall.press("enter")
            assert desk_of(stall).ledger.row("people", key)["address"] == "3 Ropewalk, Ludmere"
            await stall.press("f5")
            stall.app.screen.query_one("#name").value = str(tmp_path / "held.json")  # type: ignore[attr-defined]
            await stall.press("enter")
            await stall.wait_for("Written to")
            held = json.loads((tmp_path / "held.json").read_text(encoding="utf-8"))
            assert held["person"]["address"] == "3 Ropewalk, Ludmere" and held["why"]
            await stall.press("f6")
            stall.app.screen.query_one("#name").value = str(tmp_path / "held.html")  # type: ignore[attr-defined]
            await stall.press("enter")
            await stall.wait_for("Written to")
            page = (tmp_path / "held.html").read_text(encoding="utf-8")
            assert "3 Ropewalk, Ludmere" in page and "sold to us" in page
            await stall.press("f8")
            await stall.wait_for("first noted")

    walk(walked())


def test_erasing_is_asked_twice_and_says_what_stays() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            key = await person(stall, "ivelcroft")
            desk_of(stall).trading.settings  # noqa: B018
            await stall.press("down", "down", "down", "down")
            await stall.type("0123 456")
            await stall.press("enter", "ctrl+x")
            await stall.press("ctrl+x", "ctrl+x", "enter")  # a key leant on is no answer
            assert "Name and address stay" in stall.text() and "nothing brings it back" in stall.text()
            assert desk_of(stall).ledger.row("people", key)["phone"] == "0123 456"
            await stall.type("yes")
            await stall.press("enter")
            row = desk_of(stall).ledger.row("people", key)
            assert "phone" not in row and row["name"]
            assert "Erased" in stall.text() and "Kept" in stall.text()

    walk(walked())


def test_hostile_details_are_shown_as_typed() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            await person(stall, "WK-N1")
            for text in HOSTILE:
                entry = stall.app.screen.query_one("#form-answer")
                entry.value = ""  # type: ignore[attr-defined]
                entry.insert_text_at_cursor(text)  # type: ignore[attr-defined]
                await stall.press("enter")
                shown_as_typed(text, stall.text())
                await stall.press("up")

    walk(walked())
