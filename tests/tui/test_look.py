"""Looking closer, walked by keys: answers identify, the map marks, the gauge measures, finds quote."""

import asyncio
import re

import pytest

from counter.judge.finds import finds
from counter.tui.screens.examine.looks_pane import Looks
from counter.tui.widgets.text_entry import TextEntry
from counter.values.item import Item
from counter.values.record import read_record
from tests.tui.conftest import Stall, open_stall
from tests.tui.test_counter import HOSTILE


def walk(coroutine):
    return asyncio.run(coroutine)


async def look(stall: Stall, line: str) -> None:
    """Type the line and look closer; the looks have come."""
    await stall.type(line)
    await stall.press("f4")
    await stall.wait_for("Look closer")
    for _ in range(1_000):
        if stall.app.screen.looking.looks is not None:  # type: ignore[attr-defined]
            break
        await stall.pilot.pause(0.02)
    await stall.pilot.pause()


async def answer(stall: Stall, wanted: dict[str, str]) -> str:
    """Take the first look whose kind is in `wanted` and give that answer; the kind, or ""."""
    looking = stall.app.screen.looking  # type: ignore[attr-defined]
    for digit, each in enumerate(looking.looks, 1):
        values = [one.observation.value for one in each.answers]
        if wanted.get(each.kind) in values[:9]:
            place = values.index(wanted[each.kind])
            await stall.press(str(digit))
            assert each.answers[place].words in stall.text()
            await stall.press(str(place + 1))
            for _ in range(1_000):
                if looking.looks is not None:
                    break
                await stall.pilot.pause(0.02)
            return each.kind
    return ""


#: The 3d of 1867, by its reference record: large white letters, spray of rose.
SPRAY = {
    "watermark": "spray_of_rose",
    "corners": "large_white_letters",
    "series": "surface_printed",
    "reign": "victoria",
    "separation": "perforated",
}


def test_answers_by_digit_identify() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await look(stall, "3d rose")
            wanted, asked = dict(SPRAY), []
            while kind := await answer(stall, wanted):
                wanted.pop(kind)
                asked.append(kind)
            assert "watermark" in asked
            board = stall.app.screen.board  # type: ignore[attr-defined]
            assert board.candidates[0].issue_id == "qv_3d_1867_spray"
            assert "spray of rose" in board.text
            await stall.press("escape")
            assert "spray of rose" in stall.rows()[0]  # the line is the one truth
            await stall.press("f4", "ctrl+t")
            assert "Nothing was put into the line here" in stall.text()

    walk(walked())


def test_an_answer_can_be_unsaid_and_a_look_left() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await look(stall, "1d red")
            await stall.press("1")
            assert "Which do you see?" in stall.text()
            await stall.press("escape")
            assert "What to look at next" in stall.text()
            await stall.press("1", "1")
            board = stall.app.screen.board  # type: ignore[attr-defined]
            assert board.text != "1d red"
            await stall.press("ctrl+t")
            assert board.text == "1d red"

    walk(walked())


def test_looks_that_wet_only_when_asked() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await look(stall, "3d rose large white letters pl 4")
            assert " wets" not in stall.text()
            await stall.press("f6")
            await stall.wait_for(" wets")

    walk(walked())


def test_a_purchase_keeps_its_price() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            stall.app.screen.query_one("#ask", TextEntry).value = "bt 2d blue pl 3 KC £45 cash"
            await look(stall, "")
            await stall.press("1", "1")
            await stall.press("escape")
            board = stall.app.screen.board  # type: ignore[attr-defined]
            assert board.text.startswith("bt ") and board.text.endswith("2d blue pl 3 KC £45 cash")
            assert board.deal and not isinstance(board.deal, str)
            assert board.deal.deal.total_pence == 4500

    walk(walked())


def test_reasons_follow_the_arrow_keys_with_their_sources() -> None:
    async def walked() -> None:
        async with open_stall((100, 44)) as stall:
            await look(stall, "1d black perf 14 small crown")
            first = stall.text()
            assert "✗ against" in first and "✓ for" in first and "? not seen" in first
            assert "sources" in first and "[1]" in first
            await stall.press("down")
            assert stall.app.screen.board.chosen_issue == 1  # type: ignore[attr-defined]
            assert stall.text() != first

    walk(walked())


def test_the_map_marks_k_c_at_row_11_column_3() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await look(stall, "1d blk imp KC KD pl 6")
            await stall.press("tab")
            rows = stall.rows()
            head = next(number for number, row in enumerate(rows) if "A B C D" in row)
            marked = rows[head + 11]  # K is the 11th letter
            assert marked.split()[0] == "K"
            cells = marked.split()[1:13]
            assert cells[:5] == ["·", "○", "■", "■", "○"]  # C and D are the 3rd and 4th
            assert rows[head + 10].split()[1:13][2] == "○"
            assert len([row for row in rows[head + 1 : head + 21] if re.match(r" +[A-T] ", row)]) == 20
            text = stall.text()
            assert "K C  row 11, column 3, number 123 of 240" in text
            assert "K B left, K D right, J C above, L C below" in text
            assert "horizontal pair" in text and "plate 6 was used" in text

    walk(walked())


def test_letters_that_cannot_be_and_a_plate_never_put_to_press() -> None:
    async def walked() -> None:
        async with open_stall((120, 36)) as stall:
            await look(stall, "1d red plate 77 lettered CKKZ")
            await stall.press("tab")
            text = stall.text()
            assert "there is no column Z" in text
            assert "plate 77: never put to press" in text
            assert "it may be 177" in text
            await stall.press("f5")
            assert "it may be 177" not in stall.text()

    walk(walked())


def test_the_gauge_is_measured_and_put_into_the_line() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await look(stall, "1d red perf 14")
            await stall.press("tab", "tab")
            await stall.type("20 over 25 mm")
            await stall.wait_for("16.0 ± 0.3")
            assert "agrees with 16" in stall.text()
            assert "cannot be a genuine" in stall.text()  # the first candidate gauges 14
            await stall.press("enter")
            board = stall.app.screen.board  # type: ignore[attr-defined]
            assert board.asked.reading.first("gauge") == "16±0.3"
            assert len(board.asked.reading.all("gauge")) == 1
            assert "p16" in board.short_name(board.candidates[0].issue_id)

    walk(walked())


def test_hostile_text_in_the_count() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await look(stall, "1d red")
            await stall.press("tab", "tab")
            count = stall.app.screen.query_one("#count", TextEntry)
            for text in HOSTILE:
                count.value = ""
                await stall.pilot.pause()
                count.insert_text_at_cursor(text)
                await stall.wait_for("is no count")
                shown = stall.text()
                assert "\x1b" not in shown and "\x07" not in shown and "\u202e" not in shown
                for part in text.split():
                    if part.isascii() and part.isprintable():
                        assert part in shown, shown
                await stall.press("enter")
                assert stall.app.screen.board.text == "1d red"  # type: ignore[attr-defined]

    walk(walked())


def test_any_line_can_be_looked_at() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            ask = stall.app.screen.query_one("#ask", TextEntry)
            for text in ("[/] [red]x \\", "切手 🏷 \u202eabc", "x" * 3000, ""):
                ask.value = ""
                ask.insert_text_at_cursor(text)
                await look(stall, "")
                for _ in range(4):
                    await stall.press("tab")
                    assert "Look closer" in stall.rows()[0]
                await stall.press("escape")

    walk(walked())


def find_with_mate(stall: Stall) -> tuple[Item, str]:
    """An item of the demo with another of the stock that belongs with it."""
    desk = stall.app.desk
    assert desk
    stock = [read_record(Item, dict(row)) for row in desk.ledger.rows("items")]
    for item in stock:
        found = finds(item, stock, desk.library.stamps)
        clear = [each for each in item.letters if each not in ("LC", "SC")]
        if found and item.issue == "penny_black_1840" and clear and len(item.letters) == 1:
            other = desk.item(found[0].number)
            if other and other.asking is not None:
                return item, found[0].number
    raise AssertionError("the demo has no such pair")


def test_a_find_goes_into_the_quote() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            item, number = find_with_mate(stall)
            await look(stall, f"1d black pl {item.plate} lettered {item.letters[0]}")
            await stall.press("tab", "tab", "tab")
            await stall.wait_for(number)
            row = next(row for row in stall.rows() if number in row)
            assert re.search(r"£[\d,]+\.\d\d\s*$", row)
            assert "could adjoin" in stall.text()
            await stall.press("enter")
            board = stall.app.screen.board  # type: ignore[attr-defined]
            chosen = stall.app.screen.looking.found[0].number  # type: ignore[attr-defined]
            assert board.quote.holds(chosen)
            await stall.press("escape")
            assert "1 line" in stall.text()

    walk(walked())


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
def test_every_size_shows_what_it_should(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with open_stall(size) as stall:
            await look(stall, "1d red KC")
            text = stall.text()
            looks = stall.app.screen.looking.looks  # type: ignore[attr-defined]
            assert looks and text.count("tells ") >= len(looks)
            assert text.count("dry") >= len(looks)
            if size[0] >= 128:
                assert "Finds in stock" in text and "A B C D" in text and "count ▸" in text
            await stall.press("1")
            shown = stall.text()
            for each in looks[0].answers[:9]:
                assert each.words in shown
            assert "not seen" in shown

    walk(walked())


def test_a_click_is_its_digit() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await look(stall, "1d red")
            await stall.pilot.click(Looks, offset=(6, 0))
            await stall.pilot.pause()
            assert "Which do you see?" in stall.text()
            await stall.pilot.click(Looks, offset=(6, 1))
            await stall.pilot.pause()
            assert stall.app.screen.board.text != "1d red"  # type: ignore[attr-defined]

    walk(walked())


def test_the_counter_hints_at_the_best_look_when_the_keys_rest() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("3d rose")
            assert "next: " not in stall.text()
            await stall.wait_for("next: ")
            assert "F4" in next(row for row in stall.rows() if "next: " in row)
            await stall.type(" ")
            assert "next: " not in stall.text()

    walk(walked())
