"""Why the chosen candidate: for, against, not looked at, how explained, what it is told from."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify import Candidate, CardLine
from counter.judge.judgement import Reason
from counter.tui.screens.examine.beside import beside_page
from counter.tui.screens.examine.state import Looking
from counter.tui.widgets.citations import cited
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.reasons import reason_side
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line

_INKS = {"✓ for": "good", "✗ against": "bad", "! beware": "care", "? not seen": "unknown"}


class Reasons(ScrollPage):
    """The reasons, each with its confidence and source; what speaks against stands first."""

    def __init__(self, looking: Looking) -> None:
        super().__init__(self._page, id="reasons")
        self.looking = looking

    def _page(self, width: int) -> list[Line]:
        if self.looking.beside:
            return beside_page(self.looking, width)
        board = self.looking.board
        if board.chosen_issue >= len(board.candidates):
            words = "Take a look, or type what you see at the counter."
            return prose(words, width, "dim")
        candidate = board.candidates[board.chosen_issue]
        remarks = board.asked.identification.remarks if board.asked else ()
        return cited(statements(candidate, remarks), board.source_words, width, _INKS)


def statements(candidate: Candidate, remarks: tuple[Reason, ...]) -> Iterator[CardLine]:
    """The candidate's reasons as labelled statements, what matters most first."""
    for reason in candidate.against:
        yield _line(reason_side("against")[0], reason)
    for reason in remarks:
        yield _line("! beware", reason)
    for reason in candidate.explanations:
        yield _line("perhaps", reason)
    for reason in candidate.speaks_for:
        yield _line(reason_side("for")[0], reason)
    if candidate.not_looked_at:
        yield CardLine("? not seen", ", ".join(candidate.not_looked_at), "", "")
    for reason in candidate.told_from:
        yield _line("told", reason)


def _line(label: str, reason: Reason) -> CardLine:
    strength = f" ({reason.strength})" if reason.strength != "none" else ""
    return CardLine(label, reason.text + strength, reason.source, reason.confidence)
