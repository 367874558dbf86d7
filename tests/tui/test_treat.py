"""May I treat it, on the screen: dry looks first, questions by digits, the bottle on its bar."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from counter.reference.library import Library
from counter.tui.screens.peroxide.bar import bar_lines
from counter.tui.widgets.form import Form
from counter.tui.widgets.text_entry import TextEntry
from counter.values.strength_words import read_label
from tests.tui.bath_stall import Clocks, open_own, stocked
from tests.tui.conftest import Stall, open_stall

TREATMENTS = Library().treatments
VERDICTS = ("✓ tolerates", "! with care", "? unknown", "✗ never")
HOSTILE = ("[/]", "[red]x", "[@click=app.bell()]x[/]", "[", "a\\", "é́ 切手 🏷 \u202eabc", "\x1b[31m\x07")


def walk(coroutine):
    return asyncio.run(coroutine)


@asynccontextmanager
async def at_home(
    size: tuple[int, int] = (80, 24), typed: str = "", theme: str = "night"
) -> AsyncIterator[Stall]:
    """The treatments for a typed line, over a small stock of one's own."""
    with TemporaryDirectory() as folder:
        number = stocked(Path(folder))
        async with open_own(Path(folder), Clocks(), size, theme) as stall:
            stall.number = number  # type: ignore[attr-defined]
            await stall.wait_for(number)
            await stall.type(typed)
            await stall.press("f6")
            yield stall


async def put(stall: Stall, where: str, text: str) -> None:
    """Text in a field at once, as a paste brings it."""
    entry = stall.app.screen.query_one(where, TextEntry)
    entry.value = ""
    entry.insert_text_at_cursor(text)
    await stall.pilot.pause()


def flat(stall: Stall) -> str:
    """The screen as running words."""
    return " ".join(stall.text().split())


async def shown(stall: Stall, treatment: str) -> str:
    """The row of a treatment, found by typing its name."""
    await put(stall, "#wanted", treatment)
    return next(row for row in stall.rows()[2:] if treatment in row)


async def answer_all(stall: Stall, choice: str = "1") -> None:
    """The first (harmless) choice of every question with choices."""
    for _ in range(12):
        field = stall.app.screen.query_one(Form).chosen
        if field is None or not field.choices:
            return
        await stall.press(choice, "enter")


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
def test_liquids_stand_first_and_every_verdict_is_whole(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with at_home(size, typed="1d blk imp mx red") as stall:
            assert "May I treat it? 1d black" in stall.rows()[0]
            assert "Liquids: at home, with water to hand" in stall.rows()[2]
            assert "Float off paper" in stall.rows()[3] and "Full soak" in stall.rows()[4]
            assert "Stop rinse" in stall.rows()[7]  # under the baths it ends
            seen: set[str] = set()
            for _ in range(6):
                rows = stall.app.screen.query_one("#treatments")
                for entry in rows.entries[rows.top : rows.top + rows.size.height]:  # type: ignore[attr-defined]
                    if not isinstance(entry, str):
                        seen.add(entry.treatment.id)
                        name = entry.treatment.name[:30]
                        row = next(each for each in stall.rows()[2:] if each[2:].startswith(name))
                        assert any(words in row for words in VERDICTS), row
                await stall.press("pagedown")
            assert seen == set(TREATMENTS.treatments)  # every one of them was shown
            assert "conservator come first" in stall.text()

    walk(walked())


def test_liquids_carry_where_they_are_done() -> None:
    async def walked() -> None:
        async with at_home((160, 50), typed="1d blk imp mx red") as stall:
            places = [
                stall.text().index(words)
                for words in (
                    "with water to hand",
                    "here at the table",
                    "Dry, at home",
                    "Never, whatever",
                )
            ]
            assert places == sorted(places)

    walk(walked())


def test_which_piece_is_meant() -> None:
    async def walked() -> None:
        async with at_home() as stall:
            number = stall.number  # type: ignore[attr-defined]
            assert f"it? {number[:3]}" in stall.rows()[0]  # an empty line: the chosen line of stock
            await stall.press("escape")
            await stall.type("1d black imp")
            await stall.press("f6")
            assert "1d black" in stall.rows()[0] and "from the line typed" in stall.rows()[0]
            await stall.press("f5")
            assert f"it? {number[:3]}" in stall.rows()[0]  # the chosen line of stock
            await stall.press("escape", "escape")
            await stall.type(f"{number} photographed")
            await stall.press("f6")
            assert f"it? {number} " in stall.rows()[0]
            await stall.press("escape", "escape")
            await stall.type(f"{number}99")
            await stall.press("f6")
            assert "There is no stock number" in stall.text() and "ask ▸" in stall.text()

    walk(walked())


def test_fugitive_green_is_never_wet_whatever_is_answered() -> None:
    """The 1883-84 greens and lilacs are printed in fugitive ink: common practice."""

    async def walked() -> None:
        async with at_home(typed="9d green 1884 used") as stall:
            for name in ("Float off paper", "Full soak", "Brush dilute peroxide"):
                row = await shown(stall, name)
                assert "✗ never" in row and "with care" not in row
            await stall.press("enter", "f7")
            assert "not guided" in flat(stall)

    walk(walked())


def test_answers_change_the_verdict_and_the_bottle_decides() -> None:
    async def walked() -> None:
        async with at_home(typed="1d blk imp mx red") as stall:
            assert "disputed" in await shown(stall, "Brush dilute peroxide")
            await stall.press("enter")
            assert "✗ never, disputed" in stall.rows()[1] and "could be with care" in stall.text()
            await answer_all(stall)
            await stall.type("three parts")
            await stall.press("enter")
            assert "cannot be read; write it like 3 % w/v" in flat(stall)
            entry = stall.app.screen.query_one("#form-answer")
            assert entry.value == "three parts"  # type: ignore[attr-defined]
            entry.value = "3 % w/v"  # type: ignore[attr-defined]
            await stall.press("enter")
            assert "! with care, disputed" in stall.rows()[1]
            assert "the other side" in flat(stall)
            await stall.press("up")
            for label, codes in (("20 vol", "H319"), ("30 vol", "H318"), ("old bottle", "H318")):
                await stall.type(label)
                await stall.press("enter")
                assert "✗ never" in stall.rows()[1]
                page = stall.app.screen.query_one("#reasons")
                words = " ".join(part for line in page.lines(78) for part, _ in line)  # type: ignore[attr-defined]
                assert codes in words and "never_mix" not in words and "Never mix" in words
                await stall.press("up")

    walk(walked())


def test_ten_minutes_at_three_per_cent_is_never() -> None:
    async def walked() -> None:
        async with at_home(typed="1d blk imp mx red") as stall:
            await shown(stall, "Brush dilute peroxide")
            await stall.press("enter")
            await answer_all(stall)
            await stall.type("3 % w/v")
            await stall.press("enter", "down")
            await stall.type("10 min")
            await stall.press("enter")
            assert "✗ never" in stall.rows()[1] and "600 s, the most allowed 60" in flat(stall)

    walk(walked())


NAMES = (
    ("benzene", "Benzene is not benzine"),
    ("benzol", "Benzene is not benzine"),
    ("71-43-2", "Benzene is not benzine"),
    ("benzane", "is as near to benzene"),
    ("carbon tet", "poisons liver"),
    ("bleach", "must never meet peroxide"),
)


def test_names_that_kill_are_caught() -> None:
    async def walked() -> None:
        async with at_home(typed="1d blk") as stall:
            for typed, said in NAMES:
                await put(stall, "#wanted", typed)
                assert said in flat(stall), typed
                assert any(row.startswith(" ✗") for row in stall.rows()[-6:])  # told as wrong
            await put(stall, "#wanted", "benzine")
            assert "Read the bottle: benzine with an i" in flat(stall)

    walk(walked())


def test_the_name_on_the_bottle_goes_with_the_treatment() -> None:
    async def walked() -> None:
        async with at_home(typed="1d rose red pl 148 used loose") as stall:
            await put(stall, "#wanted", "benzene")
            await shown(stall, "Petroleum spirit")
            await stall.press("enter")
            form = stall.app.screen.query_one(Form)
            while form.chosen and form.chosen.key != "product":
                await stall.press("down")
            await stall.type("benzene")
            await stall.press("enter")
            assert "✗ never" in stall.rows()[1] and "proven cancer poison" in flat(stall)

    walk(walked())


DILUTIONS = (
    # WHO hand-rub formula: 417 mL of 3 % made up to 10 L gives 0.125 % (0.1251)
    ("417 mL of 3 % w/v to 0.1251 % w/v", "= 10000.0 mL of 0.13 % w/v"),
    ("50 mL of 9 % to 3 %", "take 50.0 mL + add 100.0 mL of water"),
    ("120 mL of 6 % w/v to 3 % w/v", "take 120.0 mL + add 120.0 mL of water"),
    ("50 mL of 3 % to 9 %", "Water only weakens"),
    ("9 % to 3 %", "Say how much there is"),
    ("50 mL of old bottle to 3 %", "cannot be diluted"),
)


def test_weakening_a_bottle() -> None:
    async def walked() -> None:
        async with at_home() as stall:
            await stall.press("f6")
            for typed, words in DILUTIONS:
                await put(stall, "#label", typed)
                await stall.press("enter")
                for _ in range(1_000):  # the measures are loaded beside the screen
                    if words in flat(stall):
                        break
                    await stall.pilot.pause(0.02)
                assert words in flat(stall), typed

    walk(walked())


def test_a_label_in_every_measure() -> None:
    """10 volume is 3.04 % w/v with the gas at 0 °C (British Pharmacopoeia: about 3 %, 10 volumes)."""

    async def walked() -> None:
        async with at_home() as stall:
            await stall.press("f6")
            await stall.type("10 vol")
            assert "3.04" in stall.text() and "2.83" in stall.text()  # both ways to reckon a volume
            assert "decides" in stall.text() and "0.89" in stall.text()
            await stall.press("escape")
            assert "May I treat it?" in stall.rows()[0]

    walk(walked())


@pytest.mark.parametrize("width", [60, 80, 160])
@pytest.mark.parametrize(
    ("label", "band"),  # CLP Annex VI: specific limits of hydrogen peroxide solution, by weight
    [
        ("4.99 % w/w", "░"),
        ("5 % w/w", "▒"),
        ("7.99 % w/w", "▒"),
        ("8 % w/w", "▓"),
        ("34.9 % w/w", "▓"),
        ("35 % w/w", "█"),
        ("99 % w/w", "█"),
    ],
)
def test_the_bottle_stands_over_its_own_band(label: str, band: str, width: int) -> None:
    lines = bar_lines(read_label(label).readings(TREATMENTS.scale), TREATMENTS, width)
    hand, bar = ("".join(text for text, _ in line) for line in lines[:2])
    assert bar[hand.index("▼")] == band
    assert all(len("".join(text for text, _ in line)) <= width for line in lines)


def test_the_cap_stands_before_the_first_band_ends() -> None:
    lines = bar_lines((), TREATMENTS, 80)
    bar = "".join(text for text, _ in lines[1])
    marks = "".join(text for text, _ in lines[4])
    assert bar[marks.index("▴")] == "░" and bar[marks.rindex("▴")] == "▓"  # 3.5 % w/v; 12 % w/w
    assert "not known" in lines[0][0][0]


def test_hostile_text_in_every_field() -> None:
    async def walked() -> None:
        async with at_home(typed="1d blk imp mx red") as stall:

            def clean() -> bool:
                return not set("\x1b\x07\u202e") & set(stall.text())

            for text in HOSTILE:
                await put(stall, "#wanted", text)
                assert clean()
            await shown(stall, "Brush dilute peroxide")
            await stall.press("enter")
            fields = stall.app.screen.query_one(Form).fields
            for at in range(len(fields)):
                await put(stall, "#form-answer", HOSTILE[at % len(HOSTILE)])
                await stall.press("enter")
                assert clean()
                await stall.press("down")
            await stall.press("f6")
            for text in HOSTILE:
                await put(stall, "#label", text)
                await stall.press("enter")
                assert clean() and "How strong is it?" in stall.rows()[0]

    walk(walked())


@pytest.mark.parametrize("theme", ["day", "sixteen"])
def test_words_carry_the_meaning_without_colour(theme: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")

    async def walked() -> None:
        async with at_home((80, 24), theme=theme, typed="1d blk imp mx red") as stall:
            assert "✓ tolerates" in stall.text()
            assert "✗ never" in await shown(stall, "Full soak")

    walk(walked())


def test_a_dry_look_offers_no_bath_and_no_answer() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d red imp KC")
            await stall.press("f6")
            await stall.wait_for("Liquids")
            await stall.type("watermark dry")
            await stall.press("enter")
            await stall.wait_for("How it is done")
            foot = stall.rows()[-1]
            assert "F7 the bath" not in foot and "Enter answer" not in foot and "F6 strength" in foot

    asyncio.run(walked())
