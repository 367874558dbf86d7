"""The card of the chosen candidate: each line with how sure it is and the number of its source."""

from __future__ import annotations

from counter.tui.counter.board import Board
from counter.tui.kit.drawn import wrap
from counter.tui.kit.page import Page
from counter.tui.text import Line

#: Shown in the card's place while the line is empty: the shorthand by examples.
EXAMPLES = (
    ("1d blk imp KC sm crown", "issue and letters"),
    ("2d blu no lines", "what the frame shows"),
    ("1d red pl 148", "a plate number"),
    ("3d rose emblems", "a watermark's name"),
    ("9d green 1884", "a year"),
    ("mx red tied cover", "cancel and cover"),
    ("blk kc under 200", "stock below a price"),
    ("bt 2d blue pl 3 KC £45", "note a purchase"),
)
_LABEL = 14
_NARROW = 50


class CardPane(Page):
    """What the reference says of the chosen candidate; examples while nothing is typed."""

    def __init__(self, board: Board) -> None:
        super().__init__(self._made_lines, id="card")
        self.board = board
        self._kept: tuple[tuple[str, int], list[Line]] = (("", 0), [])  # most keys change no card

    def _made_lines(self, width: int) -> list[Line]:
        if not self.board.text.strip():
            return [self._example(words, meaning) for words, meaning in EXAMPLES]
        key = (self.board.issue, width)
        if key != self._kept[0]:
            self._kept = (key, self._card_lines(width))
        return self._kept[1]

    def _card_lines(self, width: int) -> list[Line]:
        lines: list[Line] = []
        numbers: dict[str, int] = {}
        before = ""
        for entry in self.board.card():
            number = numbers.setdefault(entry.source, len(numbers) + 1)
            label = "" if entry.label == before else entry.label
            lines += _entry(label, entry.text, f" {entry.confidence} [{number}]", width)
            before = entry.label
        if lines:
            lines += self._sources(numbers, width)
        return lines

    def _example(self, words: str, meaning: str) -> Line:
        return [(f" {words:<23} ", "accent"), (meaning, "dim")]

    def _sources(self, numbers: dict[str, int], width: int) -> list[Line]:
        lines: list[Line] = [[], [(" sources", "head")]]
        for source, number in numbers.items():
            words = self.board.source_words(source)
            for place, part in enumerate(wrap(words, width - 6)):
                head = f" [{number}] " if place == 0 else "     "
                lines.append([(f"{head:<6}", "dim"), (part, "dim")])
        return lines


def _entry(label: str, text: str, told: str, width: int) -> list[Line]:
    """One line of the card: its label, the words wrapped beside it, and how sure it is."""
    if width < _NARROW:
        return _flowing(label, text, told, width)
    wrapped = wrap(text + told, max(width - _LABEL - 1, 10))
    lines: list[Line] = [[(" " * _LABEL, "plain"), (line, "plain")] for line in wrapped]
    lines[0][0] = (f" {label:<{_LABEL - 1}}", "dim")
    return _sure_dimmed(lines, told)


def _flowing(label: str, text: str, told: str, width: int) -> list[Line]:
    """On a narrow card no room is lost to a column of labels."""
    head = f"{label}: " if label else ""
    wrapped = wrap(head + text + told, max(width - 3, 10))
    lines: list[Line] = [[("   ", "plain"), (line, "plain")] for line in wrapped]
    lines[0] = [(f" {head}", "dim"), (wrapped[0].removeprefix(head), "plain")]
    return _sure_dimmed(lines, told)


def _sure_dimmed(lines: list[Line], told: str) -> list[Line]:
    """The last words of the entry, how sure it is and its source, in the quieter ink."""
    words = lines[-1][1][0]
    if words.endswith(told.strip()):
        lines[-1][1] = (words.removesuffix(told.strip()), "plain")
        lines[-1].append((told.strip(), "dim"))
    return lines
