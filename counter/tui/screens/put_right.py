"""Putting right what was noted wrongly of a purchase or a sale: only what is answered changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.put_right import OWN, WAYS_TO_PAY, note_correction, rightable
from counter.tui.widgets.action import Action, Help, back, fetch, own_eyes_key, steps, take_back
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import NOTE, FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.values.date_words import day_of_words
from counter.values.errors import UserError

if TYPE_CHECKING:
    from counter.desk.desk import Desk

_HINTS = {
    "payment": f"One way ({WAYS_TO_PAY}), or each part: cash 20, card 70.",
    "date": "As 1.5.26 or 1 may 2026.",
    "reason": "Why it was wrong; it stands in the remarks with what was said before.",
}


class PutRightScreen(FormScreen):
    """A purchase or a sale, put right by an entry of its own; nothing is rubbed out."""

    NAME = "put_right"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "answer", "Take what was typed and go on; on the last line, note it.",
               "next", foot=1),
        Action("note", "f9", "note it", "Note the correction.", "save done", foot=2),
        *steps("question"),
        fetch(),
        own_eyes_key("what was paid, and what the correction moved", foot=3),
        take_back(foot=4),
        back(),
    )
    # fmt: on
    ABOUT = Help(
        "putting a deal right",
        (
            "Answer only what is wrong. The correction is an entry of its own with its reason; what was "
            "said before stays in the remarks and in the journal.",
            "Cost and VAT of a sale follow. What that moves in a return that was filed is said behind F8: "
            "ask HMRC how to correct it.",
        ),
    )
    DEFAULT_CSS = "PutRightScreen ScrollPage { height: 4; }"

    def __init__(self, desk: Desk, number: str) -> None:
        super().__init__()
        self.desk = desk
        self.number = number
        self.answers: dict[str, str] = {}
        self.told: tuple[str, ...] = ()

    def body(self) -> ComposeResult:
        """What a correction moved, then the questions."""
        yield Heading(f"Put {self.number} right")
        yield ScrollPage(self._lines)
        yield Form(self.fields(), near=True)

    def _lines(self, width: int) -> list[Line]:
        if self.told and not self.costs:
            count = len(self.told)
            return prose(f"{count} for your own eyes: F8 shows what it moved.", width, "care")
        lines: list[Line] = []
        for each in self.told or ("Nothing is put right yet.",):
            lines += prose(each, width)
        return lines

    def fields(self) -> tuple[Field, ...]:
        """What can be put right, with what it says now or what was answered."""
        fields = [
            Field(
                each.key,
                each.label,
                self.answers.get(each.key, ""),
                each.choices,
                f"{_now(each.now, each.key in OWN and not self.costs)} {_HINTS.get(each.key, '')}".strip(),
            )
            for each in rightable(self.desk.trading, self.number)
        ]
        why = Field("reason", "why", self.answers.get("reason", ""), (), _HINTS["reason"], needed=True)
        return (*fields, why, Field(NOTE, "note it", "Enter, or F9", (), "As an entry of its own."))

    def take(self, key: str, value: str) -> str:
        """Keep an answer that can be read; an empty one changes nothing."""
        if value and key == "date":
            value = day_of_words(value)
        if value:
            self.answers[key] = value
        else:
            self.answers.pop(key, None)
        return ""

    def do_note(self) -> None:
        """Note the correction."""
        wanted = {key: value for key, value in self.answers.items() if key != "reason"}
        reason = self.answers.get("reason", "")
        try:
            done = note_correction(self.desk.trading, self.number, wanted, reason)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.answers, self.told = {}, done.told
        self.redraw()
        self.say(f"{self.number} is put right. Ctrl+T takes it back.")

    def redraw(self) -> None:
        """What it says now."""
        super().redraw()
        self.query_one(ScrollPage).redraw()

    def do_take_back(self) -> None:
        """Reverse the last entry."""
        self.told = ()
        self.say_done(self.desk.take_back)
        ledger = self.desk.ledger
        if not ledger.purchases.holds(self.number) and not ledger.sales.holds(self.number):
            self.dismiss()
            return
        self.redraw()


def _now(said: str, covered: bool) -> str:
    if covered:
        return "What it says is for your own eyes: F8."
    return f"It says {said}." if said else "Not noted."
