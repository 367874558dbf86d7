"""Finds in stock: stamps that adjoin the one in hand, and matching pairs from one plate.

Letters alone prove nothing, so both stamps must have their plate noted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from counter.judge.letters.positions import neighbours
from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Issue
from counter.values.item import Item
from counter.values.letters import Format, lower_pair, spoken

_GONE = frozenset({"sold", "withdrawn"})
_WAYS = {"left": "to the left of", "right": "to the right of", "above": "above", "below": "below"}


@dataclass(frozen=True, slots=True)
class Find:
    """Another item of stock that belongs with the one in hand, and why in plain words."""

    number: str
    kind: Literal["adjoins", "matches"]
    words: str


def finds(item: Item, stock: Iterable[Item], stamps: Stamps) -> tuple[Find, ...]:
    """Every find for an item; adjoining stamps first, then matching pairs, by stock number."""
    issue = stamps.issues.get(item.issue)
    if not issue or not item.plate or not item.letters:
        return ()
    made: list[Find] = []
    for other in stock:
        if other.number == item.number or other.status in _GONE or other.plate != item.plate:
            continue
        if other.issue == item.issue:
            made.extend(_adjoining(item, other, issue))
        elif other.issue in stamps.issues and one_plate(
            issue, stamps.issues[other.issue], item.plate, stamps
        ):
            made.extend(_matching(item, other, stamps.issues[other.issue]))
    return tuple(sorted(made, key=lambda find: (find.kind, find.number)))


def _adjoining(item: Item, other: Item, issue: Issue) -> Iterator[Find]:
    sheet = Format(issue.characters.rows, issue.characters.columns)
    theirs = {lower_pair(each) for each in other.letters}
    for own in item.letters:
        for side, letters in neighbours(lower_pair(own), sheet).items():
            if letters in theirs and letters not in {lower_pair(each) for each in item.letters}:
                where = f"{spoken(letters)} stands {_WAYS[side]} {spoken(lower_pair(own))}"
                words = f"could adjoin: {where} on plate {item.plate}; compare margins or perforations"
                yield Find(other.number, "adjoins", words)
                return


def _matching(item: Item, other: Item, issue: Issue) -> Iterator[Find]:
    shared = {lower_pair(each) for each in item.letters} & {lower_pair(each) for each in other.letters}
    for letters in sorted(shared):
        words = f"matching pair: {spoken(letters)} of plate {item.plate} also as {issue.name}"
        yield Find(other.number, "matches", words)


def one_plate(first: Issue, second: Issue, number: str, stamps: Stamps) -> bool:
    """Whether a plate number means the same plate in two issues.

    Numbers began again more than once: value, die and count of letters must agree as well.
    """
    one, two = first.characters, second.characters
    return (
        one.stamps[0].value == two.stamps[0].value
        and one.letters == two.letters
        and (not one.dies or not two.dies or bool(set(one.dies) & set(two.dies)))
        and number in stamps.plate_numbers[first.id]
        and number in stamps.plate_numbers[second.id]
    )
