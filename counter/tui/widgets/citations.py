"""Statements with their sources: each line says how sure it is and bears the number of its source."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from typing import Protocol

from counter.tui.widgets.text import Line, wrap

_LABEL = 15
_NARROW = 50
_FEW = 2
_NO_INKS: Mapping[str, str] = {}


class CitedStatement(Protocol):
    """What is said under which label, on what ground: a line of a card, for one."""

    @property
    def label(self) -> str: ...  # noqa: D102
    @property
    def text(self) -> str: ...  # noqa: D102
    @property
    def source(self) -> str: ...  # noqa: D102
    @property
    def confidence(self) -> str: ...  # noqa: D102


def cited(
    entries: Iterable[CitedStatement],
    source_words: Callable[[str], str],
    width: int,
    inks: Mapping[str, str] = _NO_INKS,
) -> list[Line]:
    """Entries line by line, each with the number of its source; then the sources.

    How sure most of them are is said once, at the head; an entry of another grade says so itself. A
    label is not repeated below itself; `inks` colours labels that are not dim. An entry without a
    source makes no claim of its own.
    """
    entries = tuple(entries)
    lines: list[Line] = []
    numbers: dict[str, int] = {}
    before, usual = "", _usual(entries)
    if usual:
        lines.append([(f" {usual}, where nothing else is said", "dim")])
    for entry in entries:
        told = ""
        if entry.source:
            cites = (entry.source, *getattr(entry, "also", ()))
            each = ", ".join(str(numbers.setdefault(one, len(numbers) + 1)) for one in cites)
            sure = sure_words(entry.confidence)
            told = " " + together(f"[{each}]" if sure == usual else f"{sure} [{each}]")
        label = "" if entry.label == before else entry.label
        lines += _entry(label, entry.text, told, width, inks.get(label, "dim"))
        before = entry.label
    if numbers:
        lines += [[], [(" sources", "head")]]
    for source, number in numbers.items():
        for place, part in enumerate(wrap(source_words(source), width - 6)):
            head = f" [{number}] " if place == 0 else "     "
            lines.append([(f"{head:<6}", "dim"), (part, "dim")])
    return lines


def _usual(entries: Iterable[CitedStatement]) -> str:
    """How sure most of the entries are, "" where they are too few for a heading."""
    grades = Counter(sure_words(entry.confidence) for entry in entries if entry.source)
    return max(grades, key=lambda grade: grades[grade]) if grades.total() > _FEW else ""


def _entry(label: str, text: str, told: str, width: int, ink: str) -> list[Line]:
    """One line of the card: its label, the words wrapped beside it, and how sure it is."""
    if width < _NARROW:
        return _flowing(label, text, told, width, ink)
    wrapped = wrap(text + told, max(width - _LABEL - 1, 10))
    lines: list[Line] = [[(" " * _LABEL, "plain"), (line, "plain")] for line in wrapped]
    lines[0][0] = (f" {label:<{_LABEL - 2}} ", ink)
    return _sure_dimmed(lines, told)


def _flowing(label: str, text: str, told: str, width: int, ink: str) -> list[Line]:
    """On a narrow card no room is lost to a column of labels."""
    head = f"{label}: " if label else ""
    wrapped = wrap(head + text + told, max(width - 3, 10))
    lines: list[Line] = [[("   ", "plain"), (line, "plain")] for line in wrapped]
    lines[0] = [(f" {head}", ink), (wrapped[0].removeprefix(head), "plain")]
    return _sure_dimmed(lines, told)


def _sure_dimmed(lines: list[Line], told: str) -> list[Line]:
    """The last words of the entry, how sure it is and its source, in the quieter ink."""
    words = lines[-1][1][0]
    if told and words.endswith(told.strip()):
        lines[-1][1] = (words.removesuffix(told.strip()), "plain")
        lines[-1].append((told.strip(), "dim"))
    return lines


_WORDS = {"high": "sure", "medium": "fairly sure", "low": "unsure", "memory": "from memory"}


def sure_words(confidence: str) -> str:
    """ "sure" for high, "fairly sure" for medium, "unsure" for low; other grades say themselves."""
    return _WORDS.get(confidence, confidence)


def together(words: str) -> str:
    """Words that stay on one line."""
    return words.strip().replace(" ", "\N{NO-BREAK SPACE}")
