"""Our own table of covers, sound, open and falling, with the findings that are right and why.

Rows made from a published item name its source (a source id of the reference or the page's short
name); the others are variations of a rule and say "common practice" or "memory".
"""

import tomllib
from functools import cache
from pathlib import Path

import pytest

from counter.desk.covers.case import open_case
from counter.judge.cover.finding import FINDINGS
from counter.reference.library import Library

LIBRARY = Library()
TABLE = Path(__file__).parent / "table"
KINDS = ("sound", "open", "falling")


@cache
def rows(kind: str) -> tuple[tuple[str, frozenset[str], str, str], ...]:
    """(what is typed, the findings that are right, why, source) of one file."""
    with (TABLE / f"{kind}.toml").open("rb") as file:
        found = tomllib.load(file)["covers"]
    return tuple(
        (typed, frozenset(right.split("|")), why, source) for typed, right, why, source in found
    )


@cache
def finding(typed: str) -> str:
    return open_case(LIBRARY, typed).found.finding


def misses(kind: str) -> list[str]:
    return [
        f"{typed} | {finding(typed)}, not {' or '.join(sorted(right))}: {why} [{source}]"
        for typed, right, why, source in rows(kind)
        if finding(typed) not in right
    ]


def test_the_table_is_large_and_says_why() -> None:
    every = [row for kind in KINDS for row in rows(kind)]
    assert len(every) >= 120
    assert sum(right == {"consistent"} for _, right, _, _ in every) >= 50
    assert len({typed for typed, _, _, _ in every}) == len(every)
    for typed, right, why, source in every:
        assert right and right <= set(FINDINGS), typed
        assert why and source, typed


def test_nineteen_of_twenty_are_right() -> None:
    wrong = [miss for kind in KINDS for miss in misses(kind)]
    total = sum(len(rows(kind)) for kind in KINDS)
    assert len(wrong) <= total * 0.05, "\n".join(wrong)


@pytest.mark.parametrize("kind", ["open", "falling"])
def test_no_cover_that_ought_to_fall_is_consistent(kind: str) -> None:
    passed = [
        f"{typed}: {why}"
        for typed, right, why, _ in rows(kind)
        if "consistent" not in right and finding(typed) == "consistent"
    ]
    assert not passed, "\n".join(passed)


def test_no_sound_cover_contradicts() -> None:
    condemned = [typed for typed, _, _, _ in rows("sound") if finding(typed) == "contradicts"]
    assert not condemned, "\n".join(condemned)
