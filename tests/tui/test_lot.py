"""Lots on the screen: shares that add up, by hand to the penny, kept as a draft, frozen once."""

from typing import Any

from counter.desk.trade.split_lot import looked_at
from tests.tui.conftest import Stall, open_stall
from tests.tui.test_sale import desk_of, walk


async def bought(stall: Stall, line: str) -> str:
    """A purchase typed at the counter, its lot's screen in front."""
    await stall.type(line)
    await stall.press("enter", "f8")
    await stall.wait_for("Still to complete")
    await stall.wait_for("WK-P")
    await stall.press("enter", "f6")
    number: str = stall.app.screen.number  # type: ignore[attr-defined]
    return number


def row_of(stall: Stall, number: str) -> Any:
    return desk_of(stall).ledger.row("purchases", number)


def test_shares_are_looked_at_before_they_are_frozen() -> None:
    assert looked_at(10_000, {"a": 3_000, "b": 4_500, "c": 8_000}, 3, by_hand=False) == (
        {"a": 1936, "b": 2903, "c": 5161},  # the worked split of the command line's own example
        "",
    )
    assert looked_at(100, {"a": 40}, 2, by_hand=True)[1] == "£0.60 left to share"
    assert looked_at(100, {"a": 40}, 2, by_hand=False)[1] == "1 without an expected price"
    assert looked_at(100, {"a": 0, "b": 0}, 2, by_hand=False)[1]


def test_by_expected_prices() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await bought(stall, "bt 1d black KC; 2d blue pl 3; old letter £100 cash Harrow")
            await stall.press("enter")
            await stall.type("30")
            await stall.press("enter")
            await stall.type("45")
            await stall.press("enter")
            assert "1 without an expected price" in stall.text()
            await stall.press("escape", "f6")  # what was typed waits
            assert "£30.00" in stall.text() and "£45.00" in stall.text()
            await stall.press("down", "down", "down")
            await stall.type("80")
            await stall.press("enter")
            assert "shared to the penny" in stall.text() and "£19.36" not in stall.text()
            await stall.press("f8")
            assert "£19.36" in stall.text()
            await stall.press("enter")
            assert "split by expected prices and stays so" in stall.text()
            split = row_of(stall, number)["split"]
            assert [each["pence"] for each in split["shares"]] == [1936, 2903, 5161]
            await stall.press("f6", "f8")
            assert "it stays so" in stall.text() and "bears £51.61" in stall.text()
            await stall.press("f9")
            assert "was split on 2026-05-02" in stall.text()

    walk(walked())


def test_by_hand_must_come_to_the_price() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            number = await bought(stall, "bt 1d black KC; 2d blue pl 3 £60 cash Harrow")
            await stall.press("2", "enter")
            await stall.type("40")
            await stall.press("enter")
            await stall.type("20.01")
            await stall.press("enter", "f9")
            assert "come to £60.01" in stall.text() and not row_of(stall, number).get("split")
            await stall.press("up", "tab")
            entry = stall.app.screen.query_one("#form-answer")
            assert entry.value == "£20.01"  # type: ignore[attr-defined]
            entry.value = "20"  # type: ignore[attr-defined]
            await stall.press("enter", "f9")
            assert row_of(stall, number)["split"]["basis"] == "by hand"

    walk(walked())


def test_an_album_in_one_line_is_broken_up() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await bought(stall, "bt old album £50 cash Harrow")
            await stall.type("2d blue pl 3")
            await stall.press("enter")
            assert "its expected price" in stall.text()
            stall.app.screen.query_one("#form-answer").value = "2d blue pl 3 KC @75"  # type: ignore[attr-defined]
            await stall.press("enter")
            await stall.press("up", "down", "down")
            await stall.press("up")
            await stall.type("[red]x £25")
            await stall.press("enter", "f9")
            row = row_of(stall, number)
            assert [each["pence"] for each in row["split"]["shares"]] == [3750, 1250]
            assert len(row["items"]) == 2

    walk(walked())


def test_piece_after_piece_is_typed_and_none_is_frozen_out() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await bought(stall, "bt old album £50 cash Harrow")
            for words in ("2d blue pl 3 KC @75", "2d blue pl 4 AB @25"):
                await stall.type(words)
                await stall.press("enter")
            await stall.press("f8")
            assert "bears £37.50" in stall.text() and "bears £12.50" in stall.text()
            await stall.type("1d red")
            await stall.press("f9")
            shown = " ".join(stall.text().split())
            assert "1d red is typed and not entered" in shown and not row_of(stall, number).get("split")
            stall.app.screen.query_one("#form-answer").value = ""  # type: ignore[attr-defined]
            await stall.press("enter")  # nothing more: on to the last line
            await stall.type("oops")
            await stall.press("enter")
            assert "Nothing is noted: oops" in stall.text() and not row_of(stall, number).get("split")
            await stall.press("ctrl+u", "enter")
            assert len(row_of(stall, number)["split"]["shares"]) == 2

    walk(walked())
