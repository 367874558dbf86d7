"""What a dealer types of modern stamps, and what must come of it: the table beside this file.

The days of the sets are those of the reference, each with its source there; the rest is common practice.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from counter.judge.identify import commemoratives_for, identify, next_looks
from counter.judge.reading import read_line
from counter.reference.library import Library

CASES = tomllib.loads((Path(__file__).parent / "modern_cases.toml").read_text(encoding="utf-8"))["case"]
#: Lines that are not yet answered as they should be; a case that is mended is taken out of here.
OPEN = {"m075"}
#: Shares this near to the first are an honest tie.
TIE = 0.02


def wrong(case: dict[str, Any], library: Library) -> str:
    """What is wrong with the answer to a case, "" when nothing is."""
    reading = read_line(case["typed"], library.vocabulary)
    found = identify(reading, library.stamps)
    names = [each.issue_id for each in found.candidates]
    if case.get("none"):
        told = " ".join(reason.text for reason in found.remarks).casefold()
        if found.none_of_these < 0.5 or names:
            return f"puts forward {names[:1]}"
        return "" if re.search(case["says"], told) else f"does not say {case['says']}: {told[:80]}"
    if "set" in case:
        days = [each.date for each in commemoratives_for(reading, library.stamps)]
        own = bool(names) and library.stamps.issues[names[0]].date_first_issued == case["set"]
        return (
            "" if own and case["set"] in days and len(days) <= 2 else f"first {names[:1]}, sets {days}"
        )
    first = found.candidates[0].share if names else 1.0
    tied = {each.issue_id for each in found.candidates if each.share >= first - TIE}
    want = set(case["accept"])
    return "" if want & tied and len(tied) <= len(want) + 2 else f"first {sorted(tied)}"


def test_there_are_more_than_a_hundred_and_the_ids_are_single() -> None:
    assert len(CASES) >= 100 and len({case["id"] for case in CASES}) == len(CASES)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["typed"])
def test_a_modern_line_is_answered(case: dict[str, Any], library: Library) -> None:
    fault = wrong(case, library)
    if fault and case["id"] in OPEN:
        pytest.xfail("a pale colour's exact name does not yet outweigh its family")
    assert not fault, case["typed"]


def test_nothing_is_looked_at_next_on_what_is_no_postage_stamp(library: Library) -> None:
    for case in CASES:
        if case.get("none"):
            assert not next_looks(read_line(case["typed"], library.vocabulary), library.stamps)
