"""A multiple with one bad stamp, both ways: as it is, and with that stamp taken off.

A strip or pair that is loose or on piece can be parted; a block or a cover is not. Each part is
priced for itself, from its own size or by the schedule's factor, and the parts are added up.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from msgspec.structs import replace as changed

from counter.judge.price.comparables import Evidence
from counter.judge.price.suggest import suggest
from counter.judge.price.suggestion import Suggestion
from counter.judge.price.things import Market, Thing
from counter.values.money import pounds

_WHOLE = ("cover", "entire", "front")


@dataclass(frozen=True, slots=True)
class MultiplePart:
    """One part after the bad stamp is off: its letters, its size, and what it might fetch."""

    letters: tuple[str, ...]
    multiple: str
    made: Suggestion

    @property
    def words(self) -> str:
        """single QH; strip of 3 QE to QG."""
        run = self.letters[0] if len(self.letters) == 1 else f"{self.letters[0]} to {self.letters[-1]}"
        return f"{self.multiple.replace('_', ' of ')} {run}"


@dataclass(frozen=True, slots=True)
class BothWays:
    """A multiple as it is (`whole`, pence) and parted (`parts`); None where nothing is suggested."""

    worst: str
    whole: int | None
    parts: tuple[MultiplePart, ...]

    @property
    def parted(self) -> int | None:
        """What the parts come to together; None while one of them is not priced."""
        prices = [part.made.price for part in self.parts]
        return sum(price for price in prices if price) if all(prices) else None

    @property
    def words(self) -> str:
        """Both ways in one sentence each."""
        whole = "nothing can be suggested" if self.whole is None else f"about {pounds(self.whole)}"
        said = f"As it is: {whole}. With {self.worst} taken off: "
        each = [
            f"{part.words} {'not priced' if part.made.price is None else pounds(part.made.price)}"
            for part in self.parts
        ]
        total = "" if self.parted is None else f", together {pounds(self.parted)}"
        return f"{said}{', '.join(each)}{total}."


def both_ways(
    subject: Thing, made: Suggestion, evidence: Sequence[Evidence], market: Market, today: str
) -> BothWays | None:
    """Both ways; None where no one stamp is worse than the others, or the piece is not parted."""
    item = subject.item
    sized = item.multiple == "pair" or item.multiple.startswith("strip_")
    if not sized or item.attachment in _WHOLE or len(item.letters) != subject.wear.stamps:
        return None
    worth = [_worth(subject, place, market) for place in range(subject.wear.stamps)]
    lowest = min(worth)
    if lowest == max(worth):
        return None
    at = worth.index(lowest)
    parts = tuple(
        MultiplePart(part.item.letters, part.item.multiple, suggest(part, evidence, market, today))
        for part in _parts(subject, at)
    )
    return BothWays(item.letters[at], made.price, parts)


def _worth(subject: Thing, place: int, market: Market) -> Fraction:
    return market.schedule.condition(_part(subject, place, place + 1).wear).factor


def _parts(subject: Thing, at: int) -> Iterator[Thing]:
    """The run before the bad stamp, the run after it, and the stamp itself."""
    if at:
        yield _part(subject, 0, at)
    if at + 1 < subject.wear.stamps:
        yield _part(subject, at + 1, subject.wear.stamps)
    yield _part(subject, at, at + 1)


def _part(subject: Thing, first: int, last: int) -> Thing:
    """The stamps from first to before last as a piece of their own."""
    count, item = last - first, subject.item
    letters, margins = item.letters[first:last], subject.margins[first:last]
    multiple = {1: "single", 2: "pair"}.get(count, f"strip_{count}")
    flaws = tuple(
        replace(each, stamp=each.stamp if count > 1 else "")
        for each in subject.wear.flaws
        if each.stamp in ("", *letters)
    )
    wear = replace(subject.wear, margins=margins, flaws=flaws, stamps=count)
    part = changed(item, letters=letters, margins=margins, multiple=multiple)
    return replace(subject, item=part, wear=wear, margins=margins)
