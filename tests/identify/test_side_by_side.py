"""Two side by side: what parts them, and the proof, against what the trade says of known pairs."""

from __future__ import annotations

import asyncio
import json

import pytest

from counter.cli.main import main
from counter.judge.identify import side_by_side
from counter.judge.observation import Reading
from counter.reference.library import Library
from tests.tui.conftest import open_stall

#: Pairs a dealer is asked about -> what parts them first, "" for nothing on the stamp (common practice).
PAIRS = {
    ("qv_1d_lilac_die1", "qv_1d_lilac_die2"): ("dots", "14", "16"),
    ("penny_red_imperf_alphabet_one", "penny_red_imperf_alphabet_two"): ("alphabet", "I", "II"),
    ("penny_black_1840", "vr_official_1840"): ("corners", "stars", "V and R"),
    ("penny_black_1840", "royal_reprint_plate_66"): ("watermark", "small crown", "large crown"),
    ("two_pence_1840_no_lines", "two_pence_1841_white_lines"): ("lines", "no", "white lines"),
    ("penny_red_imperf_alphabet_one", "penny_red_1841_black_plates"): ("", "", "plating"),
}


@pytest.mark.parametrize("pair", PAIRS)
def test_what_parts_two_is_what_the_trade_looks_at(pair: tuple[str, str]) -> None:
    found = side_by_side(*pair, Reading("", ()), Library().stamps)
    kind, left, right = PAIRS[pair]
    assert (found.first.kind if found.first else "") == kind
    assert left in found.proof_of_left
    assert right in found.proof_of_right, found.proof_of_right


@pytest.mark.parametrize("pair", PAIRS)
def test_turned_about_it_says_the_same(pair: tuple[str, str]) -> None:
    there = side_by_side(*pair, Reading("", ()), Library().stamps)
    back = side_by_side(pair[1], pair[0], Reading("", ()), Library().stamps)
    assert [(row.kind, row.parts) for row in there.rows] == [(row.kind, row.parts) for row in back.rows]
    assert (there.proof_of_left, there.proof_of_right) == (back.proof_of_right, back.proof_of_left)


def test_a_stamp_beside_itself_is_parted_by_nothing() -> None:
    found = side_by_side("penny_black_1840", "penny_black_1840", Reading("", ()), Library().stamps)
    assert found.first is None and not any(row.parts for row in found.rows)


def test_the_command_compares_two_ids_or_the_first_two_of_a_line(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["compare", "qv_1d_lilac_die1", "qv_1d_lilac_die2", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["first"] == "dots" and told["proof_of_left"].endswith("14")
    assert main(["compare", "1d", "red", "imperf", "--json"]) == 0
    two = json.loads(capsys.readouterr().out)
    assert main(["ask", "1d red imperf", "--json"]) == 0
    asked = json.loads(capsys.readouterr().out)["candidates"]
    assert [two["left"], two["right"]] == [each["id"] for each in asked[:2]]
    assert main(["compare", "hello"]) == 2
    assert "give two issue ids" in capsys.readouterr().err


def test_one_key_puts_two_candidates_side_by_side_at_80_by_24() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d red imperf")
            await stall.press("f4")
            await stall.wait_for("Look closer")
            await stall.press("f7")
            await stall.wait_for("look first: Compare the check letters")
            assert "Alphabet I," in stall.text() and "proof" in stall.text()
            await stall.press("f7")
            await stall.wait_for("What it could be, and why")

    asyncio.run(walked())
