"""Taking back: of this sitting at once, of an earlier one only when asked; put back; a line to mend."""

import asyncio
from typing import Any

from tests.tui.conftest import Stall, open_stall


def walk(coroutine: Any) -> None:
    asyncio.run(coroutine)


def board_of(stall: Stall) -> Any:
    return stall.app.board  # type: ignore[attr-defined]


def entries(stall: Stall) -> int:
    return stall.app.desk.ledger.state.entries  # type: ignore[union-attr]


async def typed(stall: Stall, words: str) -> None:
    await stall.type(words)
    await stall.press("enter")


def test_a_purchase_taken_back_stands_in_the_line_is_mended_and_noted() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            bought = len(stall.app.desk.ledger.rows("purchases"))  # type: ignore[union-attr]
            await typed(stall, "bt 2d blue pl 3 KC £54 cash harrow")
            await stall.wait_for("Noted as")
            await stall.press("ctrl+t")
            await stall.said("Taken back: purchase noted")
            await stall.said("£54.00")
            assert board_of(stall).text == "bt 2d blue pl 3 KC £54 cash harrow"
            assert len(stall.app.desk.ledger.rows("purchases")) == bought  # type: ignore[union-attr]
            ask = stall.app.screen.query_one("#ask")
            ask.value = board_of(stall).text.replace("54", "45")  # type: ignore[attr-defined]
            await stall.press("enter")
            await stall.wait_for("Noted as")
            rows = stall.app.desk.ledger.rows("purchases")  # type: ignore[union-attr]
            assert len(rows) == bought + 1 and rows[-1]["total_pence"] == 4500
            assert board_of(stall).text == ""

    walk(walked())


def test_what_was_taken_back_is_put_back_by_one_key() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await typed(stall, "bt 2d blue pl 3 KC £45 cash harrow")
            rows = list(stall.app.desk.ledger.rows("purchases"))  # type: ignore[union-attr]
            await stall.press("ctrl+t", "ctrl+y")
            await stall.said("Put back: purchase noted")
            assert list(stall.app.desk.ledger.rows("purchases")) == rows  # type: ignore[union-attr]
            assert board_of(stall).text == ""  # it does not wait to be noted a second time
            await stall.press("ctrl+y")
            await stall.wait_for("nothing to put back")

    walk(walked())


def test_what_is_older_than_this_sitting_is_named_and_asked_about() -> None:
    """Somebody leans on the key in a fresh sitting: nothing of last month is touched."""

    async def walked() -> None:
        async with open_stall() as stall:
            before = entries(stall)
            await stall.press(*["ctrl+t"] * 6)
            assert "Take back what was noted earlier?" in stall.text()
            assert "April 2026" in stall.text()
            await stall.press("enter")
            await stall.said("Nothing is done")
            await stall.press("escape")
            assert entries(stall) == before and not stall.app.screen.query("#sure")
            await stall.press("ctrl+t")
            await typed(stall, "yes")
            await stall.said("Taken back:")
            assert entries(stall) == before + 1
            await stall.press("ctrl+y")
            await stall.said("Put back:")

    walk(walked())


def test_a_quote_emptied_or_lessened_comes_back_by_the_same_key() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            before = entries(stall)
            await stall.type("1d black")
            await stall.press("enter", "down", "enter", "f3", "ctrl+x")
            assert not board_of(stall).quote.lines
            await stall.press("ctrl+t")
            assert len(board_of(stall).quote.lines) == 2
            await stall.press("delete")
            assert len(board_of(stall).quote.lines) == 1
            await stall.press("escape", "ctrl+t")  # from the counter too
            assert len(board_of(stall).quote.lines) == 2
            await stall.press("ctrl+t")  # the quote is whole: now it is the ledger's last entry
            assert "Take back what was noted earlier?" in stall.text()
            assert entries(stall) == before

    walk(walked())


def test_what_was_emptied_long_ago_is_not_brought_back_instead_of_a_purchase() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d black")
            await stall.press("enter", "f3", "ctrl+x", "escape", "escape")
            await typed(stall, "bt 2d blue pl 3 KC £45 cash harrow")
            await stall.press("ctrl+t")
            await stall.said("Taken back: purchase noted")
            assert not board_of(stall).quote.lines

    walk(walked())
