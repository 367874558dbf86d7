"""The day in one look: the takings, the box, what is still to complete, cash near the limit."""

from __future__ import annotations

from dataclasses import dataclass

from counter.desk.dealing import Dealing
from counter.desk.house_lines import limit_words
from counter.desk.owing import Owing, owing_list
from counter.ledger.cash_limit import cash_near
from counter.ledger.day import Day, look_at_day
from counter.ledger.people import person
from counter.values.money import pounds


@dataclass(frozen=True, slots=True)
class DayRead:
    """A day, the purchases still to complete, and a sentence for each person near the cash limit."""

    day: Day
    owing: tuple[Owing, ...]
    cash: tuple[str, ...]


def read_day_close(dealing: Dealing, day: str) -> DayRead:
    """Everything the day's screen shows; sums in pence."""
    return DayRead(look_at_day(dealing.book, day), tuple(owing_list(dealing)), cash_words(dealing, day))


def cash_words(dealing: Dealing, day: str) -> tuple[str, ...]:
    """Running cash of twelve months per person, where it comes near what the house warns from."""
    limit = dealing.house.limit("high-value-dealer", day)
    most = f"; the law's limit is {limit_words(limit)}" if limit else ""
    said = []
    for near in cash_near(dealing.house, day):
        known = person(dealing.desk.ledger, near.person)
        sums = (("paid", near.cash.paid), ("had", near.cash.received))
        told = " and ".join(f"{way} {pounds(pence)}" for way, pence in sums if pence)
        who = known.name if known and known.name else near.person
        said.append(f"{who}: {told} in cash in twelve months{most}")
    return tuple(said)
