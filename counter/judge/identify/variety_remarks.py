"""Errors and varieties that a line names, or that its plate and letters are the place of."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.judgement import Reason
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_varieties import Variety


def variety_remarks(reading: Reading, first: str, stamps: Stamps) -> Iterator[Reason]:
    """What each is, where to look and what is faked; `first` is the issue that stands first."""
    named = [stamps.varieties[each.value] for each in reading.all("variety")]
    found = {each.id: each for each in (*named, *_placed(reading, first, stamps))}
    for each in found.values():
        yield Reason(each.id, variety_words(each, stamps), each.source, each.confidence)


def _placed(reading: Reading, first: str, stamps: Stamps) -> Iterator[Variety]:
    """The varieties whose very place, plate and letters, is on the line."""
    plate, letters = reading.first("plate"), reading.first("letters")
    if plate and letters:
        for each in stamps.varieties_of(first, plate, letters):
            if each.plate and each.letters:
                yield each


def variety_words(each: Variety, stamps: Stamps) -> str:
    """One variety in a sentence or two."""
    fakes = "".join(
        f" Faked: {stamps.lookalikes[name].what}: {'; '.join(stamps.lookalikes[name].tell)}."
        for name in each.fakes
    )
    return f"{each.name}: {each.what}. Look: {each.look}.{fakes}"
