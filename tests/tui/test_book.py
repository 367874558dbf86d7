"""The stock book on the screen: periods, totals, gaps that lead to what is missing, files."""

import csv
from typing import Any

from tests.tui.conftest import Stall, open_stall
from tests.tui.test_sale import desk_of, walk


async def opened(stall: Stall, period: str) -> Any:
    """The book of a period, worked out."""
    await stall.press("f8")
    await stall.wait_for("Still to complete")
    await stall.press("f5")
    await stall.type(period)
    await stall.press("enter")
    for _ in range(1_000):
        read = stall.app.screen.read  # type: ignore[attr-defined]
        if read and "lines" in stall.rows()[0]:
            return read
        await stall.pilot.pause(0.02)
    raise AssertionError(stall.text())


def test_totals_gaps_and_the_way_to_what_is_missing() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            read = await opened(stall, "2026 q1")
            assert read.lines and read.sums.box_1 == sum(each.vat_due or 0 for each in read.lines)
            await stall.press("tab")
            assert "Box 1" not in stall.text()  # a customer may be looking
            await stall.press("f8")
            assert "Box 1" in stall.text() and "HMRC" in stall.text()
            assert f"£{(read.sums.box_1 or 0) / 100:,.2f}" in stall.text()
            await stall.press("tab")
            assert "what is missing" in stall.text()
            first = read.gaps[0]
            assert first.stock_number in stall.rows()[3] and first.gaps[0] in stall.rows()[3]
            sale = next(at for at, each in enumerate(read.gaps) if each.gaps == ("Name of buyer",))
            await stall.press(*["down"] * sale, "enter")
            await stall.wait_for("What became of it")
            await stall.press("down")
            await stall.type("Mr Green")
            await stall.press("enter", "f9")
            assert "Noted as" in stall.text() and "Mr Green" in stall.text()
            before = len(read.gaps)
            await stall.press("escape")
            for _ in range(1_000):
                if len(stall.app.screen.read.gaps) < before:  # type: ignore[attr-defined]
                    return
                await stall.pilot.pause(0.02)
            raise AssertionError("the gap is still there")

    walk(walked())


def test_the_files_hold_every_line(tmp_path: Any) -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            read = await opened(stall, "2025")
            for key, name in (("f5", "book.csv"), ("f6", "book.html")):
                await stall.press(key)
                stall.app.screen.query_one("#name").value = str(tmp_path / name)  # type: ignore[attr-defined]
                await stall.press("enter")
                await stall.wait_for("Written to")
            with (tmp_path / "book.csv").open(encoding="utf-8", newline="") as lines:
                assert len(list(csv.DictReader(lines))) == len(read.lines)
            assert "Stock book 1 January 2025" in (tmp_path / "book.html").read_text(encoding="utf-8")

    walk(walked())


def test_a_bad_period_is_told_and_the_book_stays() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await opened(stall, "2026 q1")
            await stall.type("[red]x")
            await stall.press("enter")
            assert "[red]x is not a period" in stall.text()
            assert "1 Jan 2026 to 31 Mar 2026" in stall.rows()[0]
            assert desk_of(stall) is not None

    walk(walked())
