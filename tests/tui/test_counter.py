"""The opening screen walked as a dealer walks it: type, see the stamp, the ink, the stock; quote."""

import asyncio
import re
from decimal import ROUND_HALF_UP, Decimal

import pytest

from tests.tui.conftest import Stall, open_stall


def walk(coroutine):
    return asyncio.run(coroutine)


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("1d blk imp KC sm crown", "1d black"),
        ("2d blu no lines", "2d blue"),
        ("1d red pl 148", "1d rose-red"),
        ("9d green 1884", "9d dull green"),
        ("1d lilac 16 dots", "1d lilac 16 dots"),
        ("3d rose emblems", "3d rose, emblems"),
    ],
)
def test_the_right_issue_stands_first(typed: str, first: str) -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type(typed)
            candidates = [row[:45].replace(",", "") for row in stall.rows()[3:12]]
            assert first.replace(",", "") in candidates[0], stall.text()

    walk(walked())


def test_identify_check_and_quote_on_one_screen() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d blk imp KC sm crown")
            screen = stall.text()
            assert "row 11, column 3" in screen  # K is the 11th letter, C the 3rd
            strip = next(row for row in stall.rows() if "peroxide" in row)
            assert (
                strip.count("? ask first") == 4
            )  # words, not colour alone; nothing unsaid is permission
            found = [row for row in stall.rows() if re.match(r"[▸ ] [A-Z]{1,3}-\d+", row)]
            assert found and "KC" in found[0] and re.search(r"£[\d,]+\.\d\d\s*$", found[0])
            before = stall.keys
            await stall.press("down", "down", "enter")
            assert stall.keys - before == 3
            number = re.search(r"[A-Z]{1,3}-\d+", found[2]).group()  # type: ignore[union-attr]
            price = re.search(r"£[\d,]+\.\d\d", found[2]).group()  # type: ignore[union-attr]
            bar = next(row for row in stall.rows() if row.strip().startswith("Quote"))
            assert "1 line" in bar and price in bar
            assert stall.app.screen.board.quote.lines[0].number == number  # type: ignore[attr-defined]

    walk(walked())


def test_the_quote_takes_a_discount_and_reads_back() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d black")
            await stall.press("enter", "down", "enter", "f3")
            quote = stall.app.screen.board.quote  # type: ignore[attr-defined]
            await stall.type("10%")
            await stall.press("enter")
            assert "less 10 %" in stall.text()
            await stall.type("5000000")
            await stall.press("enter")
            assert "more than the lines" in stall.text()  # one sentence, nothing changed
            entry = stall.app.screen.query_one("#discount")
            assert entry.selected_text == "5000000"  # type: ignore[attr-defined]
            await stall.type("5")
            assert entry.value == "5"  # type: ignore[attr-defined]
            less = (Decimal(quote.before) * 9 / 10).quantize(Decimal(1), ROUND_HALF_UP)
            assert stall.app.screen.board.quote.total == less  # type: ignore[attr-defined]
            await stall.press("delete")
            assert len(stall.app.screen.board.quote.lines) == 1  # type: ignore[attr-defined]
            await stall.press("escape")
            assert "1 line" in stall.text()

    walk(walked())


def test_what_was_not_understood_is_shown() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d black zzqqy")
            assert "zzqqy" in stall.rows()[2]

    walk(walked())


HOSTILE = ("[/]", "[red]x", "[@click=app.bell()]x[/]", "[", "a\\", "é́ 切手 🏷 \u202eabc", "\x1b[31m\x07")


def shown_as_typed(text: str, shown: str) -> None:
    """Nothing of the text steers the terminal, and what can be drawn of it is drawn."""
    assert not set(shown) & {"\x1b", "\x07", "\u202e"}
    for part in text.split():
        if part.isascii() and part.isprintable():
            assert part in shown, shown


def test_hostile_text_is_shown_as_typed() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            for text in HOSTILE:
                entry = stall.app.screen.query_one("#ask")
                entry.value = ""  # type: ignore[attr-defined]
                entry.insert_text_at_cursor(text)  # type: ignore[attr-defined]
                await stall.pilot.pause()
                shown_as_typed(text, stall.text())

    walk(walked())


def test_the_quote_survives_closing(tmp_path) -> None:
    from counter.desk.opening import open_desk
    from counter.tui.app import CounterApp
    from seed_demo.plant import plant
    from tests.tui.conftest import LIBRARY, NOW

    plant(tmp_path)

    async def once(keys: list[str]) -> str:
        app = CounterApp(lambda: open_desk(tmp_path, library=LIBRARY, clock=lambda: NOW))
        async with app.run_test(size=(80, 24)) as pilot:
            stall = Stall(app, pilot)
            await stall.opened()
            await stall.type("1d black")
            await stall.press(*keys)
            bar = next(row for row in stall.rows() if row.strip().startswith("Quote"))
            await stall.press("f10")
        assert app.desk
        app.desk.close()
        return bar

    async def walked() -> None:
        first = await once(["enter"])
        assert "1 line" in first
        assert await once([]) == first

    walk(walked())


@pytest.mark.parametrize("size", [(80, 24), (100, 30), (160, 50), (200, 60)])
def test_no_price_number_or_verdict_is_cut(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with open_stall(size) as stall:
            await stall.type("1d red")
            for row in stall.rows():
                if re.match(r"[▸ ] [A-Z]{1,3}-\d+", row):
                    assert re.search(r"(£[\d,]+\.\d\d|no price)\s*$", row), row
            strip = next(row for row in stall.rows() if "peroxide" in row)
            verdicts = re.findall(r"[✓!✗?] (tolerates|with care|never|unknown|ask first)", strip)
            assert len(verdicts) == (6 if size[0] >= 130 else 4), strip

    walk(walked())


def test_bt_alone_is_told_as_a_purchase_begun() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("bt")
            assert "begins a purchase" in stall.text() and "row 2" not in stall.text()
            await stall.type(" 2d blue")
            assert "begins a purchase" not in stall.text()

    walk(walked())


def test_the_cursor_is_never_under_the_share_of_none_of_these() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d red")
            await stall.press("tab")
            assert stall.app.screen.query_one("#candidates").count() > 9  # type: ignore[attr-defined]
            for _ in range(11):
                await stall.press("down")
                left = [row[:45] for row in stall.rows()[3:12]]
                assert [row for row in left if row.startswith("▸")], stall.text()
                assert left[-1].startswith("  none of these")

    walk(walked())


def test_what_decides_stands_under_the_list_and_faint_ones_are_gathered() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d red-brown imperf 1841 alph II")
            await stall.wait_for("rests on 1841")
            left = [row[:45] for row in stall.rows()[3:12]]
            shares = [row.split()[-2] for row in left if row.rstrip().endswith("%")]
            assert not [row for row in left if "." in "".join(row.split()[-2:-1])]  # whole per cents
            assert [row for row in left if row.startswith("  none of these")]
            assert shares.count("<1") <= 1  # none of these may be under one; no candidate is

    walk(walked())


def test_a_wide_screen_says_a_thing_once_and_keeps_its_columns() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            await stall.type("1d blk pl 6 kc")
            rows = stall.rows()
            strip = next(place for place, row in enumerate(rows) if "peroxide ?" in row)
            reasons = "\n".join(rows[strip + 1 : strip + 4])
            assert reasons.count("gum?") == 3 and "could be tolerates" in reasons
            assert "_" not in reasons  # titles of sources, not their ids
            kept = [row.index("black album") for row in rows[strip + 5 :] if "black album" in row]
            assert any(" sold " in row for row in rows[strip + 5 :])
            assert len(kept) > 5 and len(set(kept)) == 1

    walk(walked())


def test_the_other_reading_is_shown_and_one_key_takes_it() -> None:
    """LC beside perf 14 is the large crown, or letters: the line is read the other way by Ctrl+L. On the
    same line a denied, a doubted, an unused and an unread word look different, in words."""

    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("2d blue LC perf 14")
            assert "or: letters L C" in stall.text()
            await stall.press("ctrl+l")
            board = stall.app.screen.board  # type: ignore[attr-defined]
            assert board.asked.reading.first("letters") == "LC"
            assert "or:" not in stall.text()
            await stall.press("ctrl+l")
            assert "only one reading" in stall.text()
            await stall.press("escape")
            await stall.type("1d red no thins, plate 6? docketed in brown")
            shown = stall.text()
            assert "not thin" in shown and "perhaps plate 6" in shown and ": not used)" in shown

    walk(walked())
