"""How sure a fact is stands in the fields for it and in no value: a paper, an export, a listing repeat
values. The house's own rule; no published source."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest

from counter.judge.identify import card_of
from counter.reference.library import Library
from counter.reference.loader import read_folder

#: The fields that say how sure a fact is and where it is from.
SURE = re.compile(r"(?:\w+_)?(?:source|confidence|certainty)$")


def values(where: str, value: Any, key: str = "") -> Iterator[tuple[str, str]]:
    """Every text of a table but those of the fields that say how sure it is."""
    if isinstance(value, str):
        if not SURE.match(key):
            yield where, value
    elif isinstance(value, dict):
        for name, each in value.items():
            yield from values(f"{where}.{name}", each, name)
    elif isinstance(value, list):
        for number, each in enumerate(value):
            yield from values(f"{where}[{number}]", each, key)


@pytest.fixture(scope="module")
def library() -> Library:
    return Library()


@pytest.mark.parametrize("subject", ["stamps", "treatments", "postal", "money"])
def test_no_value_of_the_reference_says_it_is_remembered(subject: str) -> None:
    told = [
        f"{where}: {text}"
        for where, text in values(subject, read_folder(subject))
        if re.search(r"\bmemory\b", text, re.IGNORECASE)
    ]
    assert not told, told[:5]


def test_no_line_of_a_card_says_so_and_no_label_comes_twice_for_a_date(library: Library) -> None:
    for name in library.stamps.issues:
        lines = card_of(name, library.stamps)
        assert not [line.text for line in lines if re.search(r"\bmemory\b", line.text)], name
        assert sum(line.label == "dates" for line in lines) == 1
        assert not [line for line in lines if line.label == "another source"]


def test_a_second_source_of_a_date_stands_in_the_same_line(library: Library) -> None:
    """The 2d blue: 6 May 1840 by one source, 8 May by another (both named in the reference)."""
    (dates,) = [
        line for line in card_of("two_pence_1840_no_lines", library.stamps) if line.label == "dates"
    ]
    assert "6 May 1840" in dates.text and "8 May 1840" in dates.text and dates.also


def test_notes_are_notes_and_dates_are_dates(library: Library) -> None:
    iso = re.compile(r"\d{4}(-\d\d(-\d\d)?)?")
    for days in library.stamps.first_days.values():
        for day in days:
            assert iso.fullmatch(day.issued) and all(iso.fullmatch(each.date) for each in day.others)
