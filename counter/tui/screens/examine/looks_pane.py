"""What to look at next: a look a digit, then its answers a digit each."""

from __future__ import annotations

from textual import events
from textual.message import Message

from counter.judge.identify import NextLook
from counter.tui.screens.examine.state import SHOWN, Looking
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, fit, two_ends, wrap
from counter.values.visible import share_words

_LEAST_COLUMN = 24


class Looks(LineWidget):
    """The looks proposed, or the answers of the look taken; what a digit stands for can be clicked."""

    class Pressed(Message):
        """A look or an answer was clicked: the same as its digit."""

        def __init__(self, digit: int) -> None:
            super().__init__()
            self.digit = digit

    def __init__(self, looking: Looking) -> None:
        super().__init__(id="looks")
        self.looking = looking

    def show(self) -> None:
        """Drawn again, as tall as what is shown."""
        self.styles.height = len(self._lines(self.size.width or self.app.size.width))
        self.refresh()

    def line_at(self, y: int, width: int) -> Line:
        """One line of whichever is shown."""
        lines = self._lines(width)
        return lines[y][0] if y < len(lines) else []

    def _lines(self, width: int) -> list[tuple[Line, tuple[int, ...]]]:
        """Each line with the digits it stands for, from left to right."""
        looking = self.looking
        if looking.taken:
            return self._answers(looking.taken, width)
        if looking.looks is None:
            return [([("  Working out what to look at …", "dim")], ())]
        if not looking.looks:
            return [([("  " + words, "dim")], ()) for words in wrap(self._nothing(), width - 4)]
        lines: list[tuple[Line, tuple[int, ...]]] = []
        for digit, look in enumerate(looking.looks, 1):
            told: Line = [(f"  {_tells(look.bits)} {look.seconds:3.0f} s  ", "dim")]
            told.append(("wets", "care") if look.wets else ("dry ", "good"))
            words = wrap(look.words, width - 30)
            lines.append(
                (two_ends([(f" {digit} ", "accent"), (words[0], "plain")], told, width), (digit,))
            )
            lines += [([("   " + more, "plain")], (digit,)) for more in words[1:]]
        return lines

    def _nothing(self) -> str:
        more = "" if self.looking.wet else " F6 proposes looks that wet it too."
        together = self.looking.board.asked
        if together and len(together.identification.together) == 1:
            return "Nothing more needs looking at: what was seen settles it." + more
        return "No look would tell more." + more

    def _answers(self, look: NextLook, width: int) -> list[tuple[Line, tuple[int, ...]]]:
        first = self.looking.first
        shown = look.answers[first : first + SHOWN]
        more: Line = [("0 ", "accent"), ("other answers  ", "dim")] if len(look.answers) > SHOWN else []
        head = two_ends(
            [(f" {_asked(look)}", "strong")], [*more, ("Esc ", "accent"), ("not seen ", "dim")], width
        )
        lines: list[tuple[Line, tuple[int, ...]]] = [(head, (0,))]
        across, cells = self._grid(shown_words := [each.words for each in shown], width)
        for start in range(0, len(shown_words), across):
            line: Line = []
            part = shown[start : start + across]
            for digit, answer in enumerate(part, start + 1):
                line += [(f" {digit} ", "accent"), (fit(answer.words, cells - 9), "plain")]
                line.append((f"{share_words(answer.chance):>5} ", "dim"))
            lines.append((line, tuple(range(start + 1, start + 1 + len(part)))))
        return lines

    def _grid(self, words: list[str], width: int) -> tuple[int, int]:
        """How many answers beside each other, and the cells of each."""
        cells = max([_LEAST_COLUMN, *(len(each) + 9 for each in words)])
        across = max(width // cells, 1)
        return across, min(cells, width)

    def on_click(self, event: events.Click) -> None:
        """A click on a look or an answer is its digit."""
        width = self.size.width
        lines = self._lines(width)
        digits = lines[event.y][1] if event.y < len(lines) else ()
        if not digits:
            return
        cell = 0
        if self.looking.taken and digits != (0,):
            first = self.looking.first
            shown = self.looking.taken.answers[first : first + SHOWN]
            cell = event.x // self._grid([each.words for each in shown], width)[1]
        if cell < len(digits):
            self.post_message(self.Pressed(digits[cell]))


def _asked(look: NextLook) -> str:
    """The look without its answers, which stand below."""
    return look.words.split(": ", 1)[0] + (", with fluid" if look.wets else "") + ":"


def _tells(bits: float) -> str:
    """What a look tells, in a word (the command line gives the bits)."""
    return "tells much" if bits >= 1 else "tells some" if bits >= 0.3 else "tells little"
