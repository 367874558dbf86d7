"""The cover check walked over the demo's invented covers: what it finds, asks, answers and keeps."""

import asyncio
import re
from collections.abc import Callable, Coroutine
from typing import Any

import pytest

from counter.describe.description import long_form, short_line
from counter.tui.app import CounterApp
from tests.tui.conftest import LIBRARY, NOW, Stall, open_stall

#: The invented covers by what their dealer noted (or the marks, where nothing was).
COVERS = {
    "good": "receiver of 18 September 1840",
    "made up": "made up:",
    "early cancel": "early cancel:",
    "wrong rate": "wrong rate:",
    "late use": "late use of the black:",
    "re-used letter": "turned letter:",
}


def walk(coroutine: Coroutine[Any, Any, None]) -> None:
    asyncio.run(coroutine)


def number_of(stall: Stall, kind: str) -> str:
    """The stock number of one of the invented covers."""
    assert stall.app.desk
    for row in stall.app.desk.ledger.rows("items"):
        cover = row.get("cover") or {}
        if COVERS[kind] in cover.get("finding", "") + cover.get("marks", ""):
            return str(row["number"])
    raise AssertionError(f"the demo has no cover: {kind}")


async def say(stall: Stall, text: str) -> None:
    """The ask line in one go; the keys themselves are walked in the opening screen's tests."""
    stall.app.screen.query_one("#ask").value = text  # type: ignore[attr-defined]
    await stall.pilot.pause()


async def open_kind(stall: Stall, kind: str) -> str:
    number = number_of(stall, kind)
    await say(stall, number)
    await stall.press("f5")
    return number


async def answer(stall: Stall, label: str, typed: str) -> None:
    """Go to a question by its label and answer it."""
    form = stall.app.screen.query_one("Form")
    labels = [field.label for field in form.fields]  # type: ignore[attr-defined]
    rows = stall.app.screen.query_one("FormRows")
    rows.go(labels.index(label))  # type: ignore[attr-defined]
    await stall.type(typed)
    await stall.press("enter")


FINDINGS = {
    "good": ("✓ CONSISTENT", "tie (strong)"),
    "made up": ("! CAUTION", "charge marks (moderate)"),
    "early cancel": ("✗ CONTRADICTS", "cancel's period (strong)"),
    "wrong rate": ("! CAUTION", "rate (moderate)"),
    "late use": ("✓ CONSISTENT", "years of use (weak)"),  # 1843 for a black: unusual, no more
    "re-used letter": ("✓ CONSISTENT", "journeys of the letter (weak)"),
}


def test_each_invented_cover_has_its_finding() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            for kind, (finding, because) in FINDINGS.items():
                number = await open_kind(stall, kind)
                rows = stall.rows()
                assert number in rows[0] and finding in rows[1], stall.text()
                assert because in rows[3 if kind == "good" else 2], stall.text()
                assert "expert committee" in rows[4]  # a finding, never a certificate
                await stall.press("escape")

    walk(walked())


def test_a_clash_of_dates_is_drawn() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await open_kind(stall, "early cancel")
            numeral = next(row for row in stall.rows() if row.strip().startswith("barred numeral"))
            # barred numerals began in May 1844 (dates of the cancels: see the source in the reference)
            assert "╳" in numeral and numeral.index("╳") < numeral.index("━")
            assert "the date lies outside: barred numeral" in stall.text()
            assert "3 November 1843" in stall.text()

    walk(walked())


def test_an_answer_judges_the_cover_anew_and_can_be_taken_back() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await open_kind(stall, "good")
            assert "CONSISTENT" in stall.rows()[1]
            await answer(stall, "cancel at the edge", "2")  # it stops, shifts or changes ink
            assert "✗ CONTRADICTS" in stall.rows()[1]
            assert "cancel at the edge (strong)" in stall.rows()[2]
            await answer(stall, "cancel at the edge", "-")
            assert "CONSISTENT" in stall.rows()[1]

    walk(walked())


def test_the_made_up_cover_is_found_out_by_its_weight() -> None:
    """A charge of 2 beside a penny that pays the half ounce: "common practice" of the 1840s."""

    async def walked() -> None:
        async with open_stall() as stall:
            await open_kind(stall, "made up")
            await stall.press("f6")
            assert "not established" in stall.text()  # said plainly while the weight is missing
            assert "1d alone pays up to ½ oz." in stall.text()
            await answer(stall, "weight, or sheets and miles", "half ounce")
            assert "✓ 1d" in stall.text()
            assert "CONTRADICTS" in stall.rows()[1]
            assert "charge marks (strong)" in stall.rows()[2]

    walk(walked())


def test_questions_stand_in_the_order_of_what_would_tell_most() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await say(stall, "1d red imperf on cover black mx leeds 12 mar 1842")
            await stall.press("f5", "tab", "tab")
            labels = [row[2:30].strip() for row in stall.rows()]
            assert labels.index("tied") < labels.index("cancel at the edge")
            question = "Does any cancel tie the stamp to the cover?"
            assert question in stall.text() and "1 tied   2 not tied" in stall.text()
            await stall.press("1", "enter")
            assert "tie (strong)" in stall.rows()[3]
            assert question not in stall.text()  # the next question is in hand

    walk(walked())


def test_keeping_the_finding_changes_no_description() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await open_kind(stall, "early cancel")
            assert stall.app.desk
            before = stall.item(number)
            await stall.press("f9")
            after = stall.item(number)
            names = stall.app.desk.names
            told = "speaks against belonging (cancel's period)"
            assert told not in long_form(after, names) + short_line(after, names)
            assert told in stall.text()
            assert before.cover and before.cover.finding in after.remarks  # own words are not lost
            assert after.cover and after.cover.town == before.cover.town
            assert stall.app.desk.ledger.row("items", number)["cover"]["finding"] == told  # type: ignore[index]
            assert "Taken back" in stall.app.desk.take_back()
            assert stall.item(number) == before

    walk(walked())


def test_kept_again_it_puts_words_that_claim_nothing_on_papers() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await open_kind(stall, "good")
            await stall.press("f9")
            assert stall.app.desk
            names, said = stall.app.desk.names, "cover looked at: nothing found against"
            assert said not in long_form(stall.item(number), names)
            await stall.press("f9")
            assert said in long_form(stall.item(number), names)

    walk(walked())


def test_a_cover_that_is_not_in_stock_is_not_kept() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await say(stall, "1d red on cover")
            await stall.press("f5", "f9")
            assert "not in stock" in stall.text()

    walk(walked())


def test_the_arrow_keys_choose_a_cover_in_stock() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await say(stall, "1d black cover")
            await stall.press("f5")
            assert "Cover: 1d black cover" in stall.rows()[0]  # the line, while nothing is chosen
            await stall.press("escape", "down")
            chosen = next(row for row in stall.rows() if re.match(r"▸ [A-Z]{1,3}-\d+", row))
            number = chosen.split()[1]
            assert stall.item(number).attachment in ("cover", "entire", "front", "piece")
            await stall.press("f5")
            assert f"Cover {number}:" in stall.rows()[0]

    walk(walked())


def test_answers_wait_while_the_line_is_unchanged() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await say(stall, "1d red imperf black mx 12 mar 1842")
            await stall.press("f5")
            await answer(stall, "tied", "1")
            await stall.press("escape", "f5")
            assert "tie (strong)" in stall.rows()[3]
            await stall.press("escape")
            await say(stall, "1d red imperf black mx york 12 mar 1842")
            await stall.press("f5")
            assert "tie (strong)" not in stall.rows()[3]
            await stall.press("escape")

    walk(walked())


def test_an_unfinished_case_survives_closing(tmp_path) -> None:  # type: ignore[no-untyped-def]
    from counter.desk.opening import open_desk
    from seed_demo.plant import plant

    plant(tmp_path)

    async def once(does: Callable[[Stall], Coroutine[Any, Any, None]]) -> None:
        app = CounterApp(lambda: open_desk(tmp_path, library=LIBRARY, clock=lambda: NOW))
        async with app.run_test(size=(80, 24)) as pilot:
            stall = Stall(app, pilot)
            await stall.wait_for("pieces")
            await say(stall, "1d red imperf black mx 12 mar 1842")
            await stall.press("f5")
            await does(stall)
            await stall.press("f10")
        assert app.desk
        app.desk.close()

    async def first(stall: Stall) -> None:
        await answer(stall, "tied", "1")

    async def second(stall: Stall) -> None:
        assert "tie (strong)" in stall.rows()[3]

    async def walked() -> None:
        await once(first)
        await once(second)

    walk(walked())


def test_a_brown_cross_is_told_with_the_test_that_settles_it() -> None:
    async def walked() -> None:
        async with open_stall((100, 40)) as stall:
            await say(stall, "1d black mx brown on cover 12 may 1840 tied")
            await stall.press("f5")
            page = " ".join(stall.text().split())
            assert "see the caution" in page and "sulphided" in page
            assert "To settle it: compare with the date stamp on the same cover" in page
            assert "do not treat it to find out" in page

    walk(walked())


#: A question, no answer to it, and an answer.
ANSWERS = (
    ("date", "32 may", "12 mar 1842"),
    ("cancel", "wibble", "numeral 46"),
    ("cancel's colour", "wibble", "blue"),
    ("franking", "many", "2 x 1d"),
    ("weight, or sheets and miles", "heavy", "20 g"),
    ("backstamps", "yesterday", "13 mar 1842"),
    ("plate", "wibble", "36"),
    ("tied", "9", "1"),
)


def test_a_wrong_answer_is_told_and_stays_typed() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.press("f5")
            entry = stall.app.screen.query_one("#form-answer")
            for label, wrong, right in ANSWERS:
                await answer(stall, label, wrong)
                assert "✗ " in "".join(stall.rows()[-4:]), (label, stall.text())
                assert entry.value == wrong  # type: ignore[attr-defined]
                entry.value = ""  # type: ignore[attr-defined]
                await answer(stall, label, right)
                fields = {each.label: each for each in stall.app.screen.query_one("Form").fields}  # type: ignore[attr-defined]
                assert fields[label].value, stall.text()

    walk(walked())


HOSTILE = ("[/]", "[red]x", "[@click=app.bell()]x[/]", "[", "a\\", "é́ 切手 🏷 \u202eabc", "\x1b[31m\x07")


def test_hostile_text_in_an_answer_is_only_text() -> None:
    async def walked() -> None:
        async with open_stall((120, 40)) as stall:
            await stall.press("f5")
            entry = stall.app.screen.query_one("#form-answer")
            for text in HOSTILE:
                for label in ("posted at", "sent to", "date"):
                    form = stall.app.screen.query_one("Form")
                    labels = [field.label for field in form.fields]  # type: ignore[attr-defined]
                    stall.app.screen.query_one("FormRows").go(labels.index(label))  # type: ignore[attr-defined]
                    entry.value = ""  # type: ignore[attr-defined]
                    entry.insert_text_at_cursor(text)  # type: ignore[attr-defined]
                    await stall.press("enter")
                    shown = stall.text()
                    assert "\x1b" not in shown and "\x07" not in shown and "\u202e" not in shown
                    assert text.split()[0] in shown or "\x1b" in text, shown

    walk(walked())


@pytest.mark.parametrize("size", [(80, 24), (119, 30), (120, 40), (160, 50), (200, 60)])
def test_it_stands_whole_at_every_size(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with open_stall(size) as stall:
            await open_kind(stall, "wrong rate")
            views = 1 if size[0] >= 120 else 4
            for _ in range(views):
                rows = stall.rows()
                assert "CAUTION" in rows[1] and "rate (moderate)" in rows[2], stall.text()
                assert "answer ▸ then Enter" in rows[-2], stall.text()
                assert "help" in rows[-1]
                if size[0] >= 120:
                    for words in ("8 February 1843", "●●○ moderate", "✓ 2d", "▸ "):
                        assert words in stall.text()
                await stall.press("tab")

    walk(walked())


def test_the_rate_of_the_cover_by_miles_and_sheets() -> None:
    """120 miles and one sheet cost 9d from 1812 to 4 December 1839 (the Act of 1812)."""

    async def walked() -> None:
        async with open_stall() as stall:
            await say(stall, "stampless letter 3 jun 1835")
            await stall.press("f5", "f6")
            assert "How many miles did it go?" in stall.text()
            await answer(stall, "weight, or sheets and miles", "1 sheet 120 miles")
            assert "✓ 9d" in stall.text()

    walk(walked())
