"""A line of stock on a narrow screen: the issue's name gives way before the faults do."""

from __future__ import annotations

from dataclasses import dataclass

from counter.describe.description import lowering
from counter.describe.names import Names, name_of
from counter.values.item import Item

Spans = tuple[tuple[int, int], ...]

#: What a dealer writes when there is little room.
SHORTER = (
    ("large crown", "lg cr"),
    ("small crown", "sm cr"),
    (" perf ", " p"),
    ("white paper", "white"),
    ("transitional shades", "transitional"),
    ("letters in four corners", "4 letters"),
    ("coloured letters", "col letters"),
    ("spray of rose", "spray"),
    ("Maltese cross watermark", "cross wmk"),
    ("watermark", "wmk"),
    ("from the black plates", "black plates"),
)


#: The same for what follows the heading: gum, and the place of a fault.
_SHORTER_LOOKS = (
    ("uncancelled, ", ""),
    ("original gum", "o.g."),
    ("without gum", "no gum"),
    (" corner)", ")"),
)


@dataclass(frozen=True, slots=True)
class Words:
    """A line of words, the spans of it that were asked for, where its heading ends.

    What lowers the price stands from `low` to `vital` (both 0: nothing does).
    """

    text: str
    matched: Spans
    heading: int
    low: int
    vital: int

    def put(self, start: int, end: int, other: str) -> Words:
        """The line with one stretch put otherwise; what was asked for within it is marked no more."""
        by = len(other) - (end - start)

        def moved(at: int) -> int:
            return at + by if at >= end else at

        kept = tuple(
            (moved(left), moved(right)) for left, right in self.matched if right <= start or left >= end
        )
        text = self.text[:start] + other + self.text[end:]
        return Words(text, kept, *map(moved, (self.heading, self.low, self.vital)))

    def over(self, room: int) -> int:
        """How many cells the faults stand beyond `room`, a sign for what is cut behind them kept."""
        return 0 if len(self.text) <= room else max(self.vital - (room - 1), 0)


def narrowed(words: str, matched: Spans, item: Item, names: Names, room: int) -> tuple[str, Spans]:
    """The words of a stock line so that its faults and treatments stand within `room` cells.

    First the issue's name is said shorter, then it is cut, then margins and cancel are; what only
    tells a story stands last and is left to be cut by the screen.
    """
    heading = words.find(", ") if ", " in words else len(words)
    lowers = lowering(item)
    low = words.find(lowers, heading) if lowers else -1
    line = Words(words, matched, heading, low, low + len(lowers)) if low >= 0 else None
    line = line or Words(words, matched, heading, 0, 0)
    line = _shorter(line, room)
    if line.over(room):
        line = _cut_name(line, item, names, room)
    if line.over(room):
        line = _cut_looks(line, room)
    if line.over(room):
        line = _cut_heading(line, room)
    return line.text, line.matched


def _shorter(line: Words, room: int) -> Words:
    for long, short in SHORTER:
        found = line.text.find(long, 0, line.heading)
        if len(line.text) > room and found >= 0:
            line = line.put(found, found + len(long), short)
    for long, short in _SHORTER_LOOKS:
        found = line.text.find(long, line.heading)
        while line.over(room) and found >= 0:
            line = line.put(found, found + len(long), short)
            found = line.text.find(long, line.heading)
    return line


def _cut_name(line: Words, item: Item, names: Names, room: int) -> Words:
    """The issue's own name, all but its value and colour, cut by as much as is wanted."""
    tail = name_of(item.issue, names).tail
    for long, short in SHORTER:
        tail = tail if tail in line.text else tail.replace(long, short)
    start = line.text.find(tail, 0, line.heading) if tail else -1
    if start < 0:
        return line
    kept = max(len(tail) - line.over(room) - 1, 0)
    return line.put(start, start + len(tail), f"{tail[:kept].rstrip()}…")


def _cut_looks(line: Words, room: int) -> Words:
    """What stands between the heading and the faults."""
    start, end = line.heading + 2, line.low
    if start >= end:
        return line
    kept = max(end - start - line.over(room) - 3, 0)
    return line.put(start, end, f"{line.text[start : start + kept].rstrip(' ,')}…, ")


def _cut_heading(line: Words, room: int) -> Words:
    """What is left of the heading, all but the value: of a set the subject stands where a colour does."""
    start = line.text.find(" ", 0, line.heading) + 1
    kept = max(line.heading - start - line.over(room) - 1, 0)
    words = line.text[start : start + kept].rstrip(" …")
    return line.put(start, line.heading, f"{words}…") if start else line
