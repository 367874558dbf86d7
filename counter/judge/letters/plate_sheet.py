"""A plate as a sheet: the pieces of stock on their places, what is held, doubled and missing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from counter.judge.letters.positions import neighbours
from counter.reference.stamps_issue import Issue
from counter.values.item import Item
from counter.values.letters import Format, letters_at, lower_pair, place, spoken

_WAYS = {"right": "to the right of", "below": "below"}
_GONE = frozenset({"sold", "withdrawn"})


@dataclass(frozen=True, slots=True)
class OnceJoined:
    """Two pieces whose places adjoin: they may once have been one multiple. Letters and plate alone prove
    no join; `words` says what to compare."""

    numbers: tuple[str, str]
    letters: tuple[str, str]
    words: str


@dataclass(frozen=True, slots=True)
class PlateSheet:
    """One plate of an issue with what is held of it. `held` gives the stock numbers of each place by its
    letters (lower pair); `outside` are pieces whose letters the sheet does not have."""

    issue: str
    plate: str
    sheet: Format
    held: dict[str, tuple[str, ...]]
    outside: tuple[str, ...]
    joined: tuple[OnceJoined, ...]

    @property
    def doubled(self) -> tuple[str, ...]:
        """The places of which more than one piece is held, in the order of the sheet."""
        return tuple(each for each, numbers in self.held.items() if len(numbers) > 1)

    @property
    def missing(self) -> tuple[str, ...]:
        """The places of which no piece is held, in the order of the sheet."""
        return tuple(each for each in _places(self.sheet) if each not in self.held)

    def drawn(self) -> list[str]:
        """The sheet as lines of text: ■ held, a figure where doubled, · missing."""
        columns = range(1, self.sheet.columns + 1)
        lines = ["  " + " ".join(letters_at(1, column)[1] for column in columns)]
        for row in range(1, self.sheet.rows + 1):
            signs = (self._sign(letters_at(row, column)) for column in columns)
            lines.append(f"{letters_at(row, 1)[0]} {' '.join(signs)}")
        return lines

    def _sign(self, letters: str) -> str:
        count = len(self.held.get(letters, ()))
        return ("·", "■")[count] if count < 2 else str(min(count, 9))


def plate_sheet(issue: Issue, plate: str, stock: Iterable[Item]) -> PlateSheet:
    """The pieces in stock of one plate of an issue, on its sheet; sold and withdrawn ones are gone.

    A sheet not on record is taken as 20 rows of 12.
    """
    told = issue.characters
    sheet = Format(told.rows or 20, told.columns or 12)
    held: dict[str, list[str]] = {}
    outside: list[str] = []
    for item in stock:
        if item.issue != issue.id or item.plate != plate or item.status in _GONE:
            continue
        for letters in map(lower_pair, item.letters):
            if place(letters, sheet) is None:
                outside.append(item.number)
            else:
                held.setdefault(letters, []).append(item.number)
    in_order = {each: tuple(held[each]) for each in _places(sheet) if each in held}
    joined = tuple(_joined(in_order, sheet))
    return PlateSheet(issue.id, plate, sheet, in_order, tuple(outside), joined)


def _places(sheet: Format) -> Iterator[str]:
    for row in range(1, sheet.rows + 1):
        for column in range(1, sheet.columns + 1):
            yield letters_at(row, column)


def _joined(held: dict[str, tuple[str, ...]], sheet: Format) -> Iterator[OnceJoined]:
    for letters, numbers in held.items():
        for side, other in neighbours(letters, sheet).items():
            if side not in ("right", "below") or other not in held:
                continue
            for mine in numbers:
                for theirs in held[other]:
                    if mine != theirs:
                        where = f"{spoken(other)} stands {_WAYS[side]} {spoken(letters)}"
                        words = f"{where}: compare margins and strikes"
                        yield OnceJoined((mine, theirs), (letters, other), words)
