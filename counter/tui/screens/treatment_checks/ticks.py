"""A list of checks with boxes, each whole however long it is."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events

from counter.reference.treatment_guides import Check
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import mark
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.text import Line


class Ticks(LineWidget):
    """The checks, which are ticked, and the one in hand."""

    def __init__(self, checks: Sequence[Check]) -> None:
        super().__init__(id="ticks")
        self.checks = checks
        self.ticked: set[str] = set()
        self.cursor = 0
        self.top = 0

    @property
    def missing(self) -> list[int]:
        """The places of checks not ticked yet."""
        return [at for at, each in enumerate(self.checks) if each.id not in self.ticked]

    def move(self, by: int) -> None:
        """Another check in hand."""
        self.go(self.cursor + by)

    def go(self, index: int) -> None:
        """That check in hand, all of it in view."""
        if not self.checks:
            return
        self.cursor = min(max(index, 0), len(self.checks) - 1)
        owners = [at for at, _ in self._lines(self.size.width)]
        first = owners.index(self.cursor)
        last = len(owners) - 1 - owners[::-1].index(self.cursor)
        self.top = min(max(self.top, last - max(self.size.height, 1) + 1), first)
        self.refresh()

    def tick(self, index: int) -> None:
        """Tick it, or take the tick back; a tick goes on to the next one still open."""
        if index >= len(self.checks):
            return
        self.cursor = index
        self.ticked ^= {self.checks[index].id}
        if self.checks[index].id in self.ticked and self.missing:
            later = [at for at in self.missing if at > index]
            self.go((later or self.missing)[0])
        self.refresh()

    def _lines(self, width: int) -> list[tuple[int, Line]]:
        made: list[tuple[int, Line]] = []
        for at, check in enumerate(self.checks):
            done = check.id in self.ticked
            box = "[✓]" if done else "[ ]"
            number = (at + 1) % 10 if at < 10 else " "
            ink = "dim" if done else ("strong" if at == self.cursor else "plain")
            head = (f"{number} {box} ", "good" if done else "accent")
            for place, line in enumerate(prose(check.words, width - 2, ink, head=head)):
                first = mark(at == self.cursor) if place == 0 else ("  ", "plain")
                made.append((at, [first, *line]))
        return made

    def line_at(self, y: int, width: int) -> Line:
        """A line of a check."""
        lines = self._lines(width)
        if not lines:
            return [("  Nothing to tick.", "dim")] if y == 0 else []
        return lines[self.top + y][1] if self.top + y < len(lines) else []

    def on_click(self, event: events.Click) -> None:
        """A click ticks."""
        lines = self._lines(self.size.width)
        if self.top + event.y < len(lines):
            self.tick(lines[self.top + event.y][0])
