"""What an issue is taken for stands on the first screen, in words, before the next look: at 80x24."""

from __future__ import annotations

import asyncio

import pytest

from counter.desk.identify.line_query import Asked
from tests.tui.conftest import LIBRARY, open_stall

#: Lines of a dealer (common practice) -> the lookalikes that must be named for them.
TAKEN_FOR = {
    "1d black imperf 4 margins": (
        "royal_reprint_plate_66",
        "modern_engraved_facsimile",
        "red_turned_black",
        "removed_cancel_or_pen",
        "painted_or_added_margins",
        "faked_cross_colour",
        "altered_or_forged_lettering",
        "made_up_cover",
        "forged_1d_ireland",
    ),
    "1d black vr": ("forged_vr_official",),
    "1d red-brown imperf blued alph I": ("trimmed_perforated_as_imperforate", "faked_b_blank"),
    "1d red archer perf 16": ("reperforated",),
    "1d red pl 77": ("faked_plate_77",),
    "1d rose red pl 225": ("faked_plate_225",),
    "½d rose pl 9": ("faked_plate_9_halfpenny", "sulphided_colour"),
    "1½d rose red OP-PC": ("faked_op_pc",),
    "2d blue imperf no lines": ("faded_or_bleached_shade", "painted_out_white_lines"),
    "1d rose red imperf 4 letters pl 116": ("cardiff_or_imprimatur_confusion",),
    "2½d rosy mauve anchor LH-FL": ("faked_lh_fl",),
    "1s green spray pl 5": ("forgery_1s_stock_exchange",),
    "£1 brown lilac anchor": ("forgery_anchor_10s_1l",),
}


class Bench:
    """A workspace of the reference alone."""

    library = LIBRARY


def test_every_lookalike_has_its_line() -> None:
    assert {name for names in TAKEN_FOR.values() for name in names} == set(LIBRARY.stamps.lookalikes)


def test_every_lookalike_is_named_on_the_first_screen() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            for line, names in TAKEN_FOR.items():
                await stall.press("escape", "escape")
                await stall.type(line)
                assert stall.rows()[2].startswith("  ! "), line
                upper = " ".join(" ".join(row[45:].split()) for row in stall.rows()[3:12])
                for name in names:
                    assert LIBRARY.stamps.lookalikes[name].name in upper, (line, name, upper)

    asyncio.run(walked())


def test_what_cannot_be_is_said_first_and_the_next_look_keeps_a_row() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("1d red pl 77")
            assert "plate 77 never put to press" in stall.rows()[2]
            await stall.wait_for("  next: ")
            assert any(row.startswith("  next: ") for row in stall.rows()[3:12])
            await stall.press("escape")
            await stall.type("1d red pl 77 zzyzx")
            assert "not understood: zzyzx" in stall.rows()[2]
            await stall.wait_for("  next: ")

    asyncio.run(walked())


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("1d black royal reprint", "said to be a reprint: the shares are of what it looks like"),
        ("2d blue proof", "said to be"),
        ("1d black forgery", "said to be"),
        ("1d black forgery?", "said to be perhaps"),
        ("1d black not a reprint", "taken for it"),
        ("1d red imperf dark", "a dark or dull look on a line-engraved stamp is more often sulphide"),
    ],
)
def test_what_it_is_said_to_be_comes_before_the_shares(line: str, said: str) -> None:
    assert Asked(Bench(), line).trap_line.startswith(said)  # type: ignore[arg-type]


@pytest.mark.parametrize("line", ["1d rose red pl 148", "2d blue pl 9", "6d lilac pl 5"])
def test_a_plate_that_nothing_is_altered_to_has_no_altered_plate(line: str) -> None:
    assert "altered" not in Asked(Bench(), line).trap_line  # type: ignore[arg-type]
