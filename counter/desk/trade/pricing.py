"""What prices are judged by at this desk: facts, house schedule, and the reader of kept words."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache

from counter.judge.observation import Reading
from counter.judge.price.offer import Wanted
from counter.judge.price.schedule import Schedule
from counter.judge.price.things import Market
from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.values.errors import InputError
from counter.values.money import read_amount, read_pence


@lru_cache(maxsize=2)
def reader_of(library: Library) -> Callable[[str], Reading]:
    """The reader of the words kept with a piece; the same words are read once."""

    @lru_cache(maxsize=8192)
    def read(words: str) -> Reading:
        return read_line(words, library.vocabulary)

    return read


def market_of(library: Library, schedule: Schedule, half_life: int) -> Market:
    """Everything but the sales that a price rests on."""
    first = {
        issue.id: day
        for issue in library.stamps.issues.values()
        if len(day := issue.date_valid_from or issue.date_first_issued) == 10
    }

    def region(name: str) -> str:
        place = library.postal.place(name)
        return place.region if place else ""

    return Market(library.market, schedule, reader_of(library), half_life, first, region)


def read_wanted(text: str) -> Wanted:
    """A wanted profit as typed: pounds, or a part of the selling price ("20%"). Raises InputError."""
    words = text.strip()
    if not words.endswith("%"):
        return read_pence(words, "the profit")
    share = Fraction(read_amount(words[:-1], 2, "a percentage"), 10000)
    if share >= 1:
        raise InputError(f"{words} of the price cannot be profit; write less than 100 %.")
    return share
