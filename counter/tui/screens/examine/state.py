"""What the panes of this screen show beside the board: the looks, the count, the finds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.tui.board import BOUGHT, Board

if TYPE_CHECKING:
    from counter.desk.identify.gauge_input import Counted
    from counter.desk.identify.line_query import Asked
    from counter.desk.identify.related_stock import FoundLine
    from counter.judge.identify import NextLook
    from counter.judge.observation import Observation
    from counter.reference.stamps_issue import Issue
    from counter.values.item import Item

PAGES = ("look", "letters", "gauge", "finds")
#: So many answers are shown at a time: one digit each.
SHOWN = 9


class Looking:
    """The stamp in hand is the board's; `looks` and `found` are None while they are worked out."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self.page = "look"
        self.looks: tuple[NextLook, ...] | None = None
        self.taken: NextLook | None = None  # the look being answered
        self.first = 0  # the answer that digit 1 stands for
        self.wet = False
        self.beside = False  # two candidates stand in columns in place of the reasons
        self.both_sides = False
        self.counted: Counted | None = None
        self.count_told = ""  # why there is no gauge, in one sentence
        self.found: tuple[FoundLine, ...] | None = None
        self.typed = board.text
        self._lines: list[str] = []
        self._hand: tuple[Asked, str, Item] | None = None  # kept: every pane asks for it

    def turn(self, by: int) -> None:
        """Another page."""
        self.page = PAGES[(PAGES.index(self.page) + by) % len(PAGES)]

    def put_in(self, answer: Observation) -> bool:
        """Put words for an observation into the line; False when none fit it."""
        from counter.desk.identify.answer_to_line import line_with_answer

        if not self.board.desk:
            return False
        text = self._without(answer.kind)
        bought = BOUGHT.match(text)
        head, rest = (bought[0], text[bought.end() :]) if bought else ("", text)
        line = line_with_answer(rest, answer, self.board.desk.library, before=bool(bought))
        if line is None:
            return False
        self._lines.append(self.board.text)
        self._now(head + line)
        return True

    def _without(self, kind: str) -> str:
        """The line without what it says of a kind, so that what is put in is what counts."""
        asked, text = self.board.asked, self.board.text
        if not asked or asked.text != text:
            return text  # of a purchase only the pieces are read, and what stands first counts
        for seen in reversed(asked.reading.all(kind)):
            text = f"{text[: seen.start].rstrip()} {text[seen.end :].lstrip()}".strip()
        return text

    def unsay(self) -> bool:
        """Take back what was put in last; False when there is nothing."""
        if self._lines:
            self._now(self._lines.pop())
            return True
        return False

    def _now(self, text: str) -> None:
        self.board.type(text)
        self.looks = self.taken = self.found = None
        self.first = 0

    def in_hand(self) -> Item | None:
        """The stamp in hand, as the chosen candidate."""
        from counter.desk.identify.related_stock import stamp_in_hand

        asked, issue = self.board.asked, self.board.issue
        if asked and (self._hand is None or self._hand[:2] != (asked, issue)):
            self._hand = (asked, issue, stamp_in_hand(asked, issue))
        return self._hand[2] if asked and self._hand else None

    def issue(self) -> Issue | None:
        """The issue of the stamp in hand, when it is known or chosen."""
        item, desk = self.in_hand(), self.board.desk
        return desk.library.stamps.issues.get(item.issue) if item and desk else None
