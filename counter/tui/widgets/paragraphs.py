"""Paragraphs for pages: wrapped, with a hanging head, and numbered sources at the end."""

from __future__ import annotations

from collections.abc import Mapping

from rich.cells import cell_len

from counter.reference.sources import Source
from counter.tui.widgets.citations import sure_words, together
from counter.tui.widgets.text import Line, Span, visible, wrap


def prose(
    text: str, width: int, ink: str = "plain", *, head: Span | None = None, tail: str = ""
) -> list[Line]:
    """A paragraph two cells in; `head` stands before its first line, `tail` follows dimly."""
    lead = head or ("  ", "plain")
    indent = cell_len(visible(lead[0]))
    parts = wrap(f"{text} {tail}".strip(), max(width - indent - 1, 10))
    lines: list[Line] = [[(" " * indent, "plain"), (part, ink)] for part in parts]
    lines[0][0] = lead
    if tail and parts[-1].endswith(tail):
        lines[-1][1] = (parts[-1].removesuffix(tail), ink)
        lines[-1].append((tail, "dim"))
    return lines


class Cited:
    """Numbers the sources of a page in the order they are named, and lists them at its end."""

    def __init__(self, sources: Mapping[str, Source]) -> None:
        self._sources = sources
        self._numbers: dict[str, int] = {}

    def mark(self, source: str, confidence: str = "") -> str:
        """How sure it is and the number of its source: "sure [2]"; unsourced words stand as such."""
        if source not in self._sources:
            sure = "" if confidence == source else sure_words(confidence)
            return together(f"{sure} [{source}]")
        number = self._numbers.setdefault(source, len(self._numbers) + 1)
        return together(f"{sure_words(confidence)} [{number}]")

    def lines(self, width: int) -> list[Line]:
        """The list of sources; nothing when none was named."""
        if not self._numbers:
            return []
        lines: list[Line] = [[], [("  Sources", "head")]]
        for name, number in self._numbers.items():
            found = self._sources[name]
            words = ", ".join(part for part in (found.title, found.publisher, found.year) if part)
            lines += prose(words, width, "dim", head=(f"  [{number}] ".ljust(7), "dim"))
        return lines
