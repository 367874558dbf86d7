"""What prices are judged by at this desk: facts, house schedule, and the reader of kept words."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from counter.judge.observation import Reading
from counter.judge.price.schedule import Schedule
from counter.judge.price.things import Market
from counter.judge.reading import read_line
from counter.reference.library import Library


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
