"""What an answer rests on, against the identifier asked again without it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from counter.judge.identify import identify, rests_on
from counter.judge.reading import read_line
from counter.reference.library import Library

LIBRARY = Library()

#: Common practice: the one thing a dealer would look at again before naming the stamp.
DECIDES = {
    "2d blue pl 9": "plate 9",
    "1d red-brown imperf 1841 alph II": "1841",
    "4d vermilion pl 8": "plate 8",
    "10s ultramarine anchor blued": "blued paper",
}


def supports(line: str):
    reading = read_line(line, LIBRARY.vocabulary)
    found = identify(reading, LIBRARY.stamps)
    return reading, found, rests_on(found.candidates[0], reading, LIBRARY.stamps)


@pytest.mark.parametrize("line", DECIDES)
def test_what_decides_is_named(line: str) -> None:
    _, _, told = supports(line)
    assert told[0].words == DECIDES[line] and len(told) <= 2


@pytest.mark.parametrize(
    "line", [*DECIDES, "1d red imp blued KC sm crown mx", "machin 3p blue 2 bands"]
)
def test_it_is_what_the_identifier_says_without_those_words(line: str) -> None:
    reading, found, told = supports(line)
    assert told
    for each in told:
        kept = tuple(seen for seen in reading.observations if seen.words != each.words)
        assert len(kept) < len(reading.observations)
        again = identify(replace(reading, observations=kept), LIBRARY.stamps)
        assert again.candidates[0].issue_id == each.issue_id
        assert again.candidates[0].share == pytest.approx(each.share)
        assert again.shares[found.candidates[0].issue_id] <= found.candidates[0].share - 0.1


@pytest.mark.parametrize("line", ["1d red", "2d", "KC"])
def test_nothing_decides_where_nothing_is_decided(line: str) -> None:
    assert supports(line)[2] == ()
