"""Words for the end of a bath, then it is noted with the piece."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.trade.treatment_clock import Countdown, clock_words
from counter.tui.screens.treatment_timer.telling import left_words, what
from counter.tui.screens.treatments.deference import Deference
from counter.tui.widgets.action import Action, Help, back
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.values.errors import UserError

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class TreatmentDoneScreen(BaseScreen):
    """Done, or abandoned with a reason; `outcome` says what was noted once it was."""

    NAME = "treatment_done"
    # fmt: off
    ACTIONS = (
        Action("note", "enter", "note it", "Note the end.", "done save", foot=1),
        back("Back to the bath; it goes on."),
    )
    # fmt: on
    ABOUT = Help(
        "the end of a bath",
        (
            "Say in a few words how the piece looks now, or why the bath was abandoned, and press Enter.",
            "What was done (product, strength, seconds, before and after, by whom) is noted with the line "
            "of stock and stands in its description: a buyer needs to know. Nothing wet is done to it "
            "again on the same day; judge it dry, in daylight.",
        ),
    )

    def __init__(self, desk: Desk, now: Countdown, *, abandon: bool) -> None:
        super().__init__()
        self.desk = desk
        self.now = now
        self.abandon = abandon
        self.outcome = ""

    def body(self) -> ComposeResult:
        """What is ended, the words to type, what will be noted."""
        yield Heading(
            f"{'Abandon' if self.abandon else 'Done'}: {what(self.now)}, {self.now.bath.name}"
        )
        sign = "why" if self.abandon else "how it looks now"
        yield PromptedEntry(sign, "in a few words", entry="words")
        yield ScrollPage(self._lines)
        yield Deference()

    def on_mount(self) -> None:
        """Ready to type."""
        self.query_one("#words", TextEntry).focus()

    @property
    def _still_in(self) -> bool:
        stage = self.now.stage
        return stage.works and not stage.last

    def _lines(self, width: int) -> list[Line]:
        bath = self.now.bath
        lines: list[Line] = [[]]
        if self.abandon and self._still_in:
            lines += prose(
                "Only if it never went into the liquid. If it did: Esc, take it out, rinse it and "
                "press Enter there; after that it can be abandoned.",
                width,
                "bad",
                head=("  ! ", "bad"),
            )
            return lines
        lines.append([("  Noted with the piece", "head")])
        worked = self.now.elapsed if bath.worked is None and bath.now.works else bath.worked
        told = (
            ("product", bath.product),
            ("strength", bath.strength),
            ("time", "" if worked is None else clock_words(worked)),
            ("before", bath.before),
            ("by", bath.by),
        )
        for label, words in told:
            lines += prose(words or "not said", width, head=(f"  {label:<10}", "dim"))
        if not bath.item:
            words = "It is not a line of stock: the bath stands in the journal, with no piece."
            lines += [[], *prose(words, width, "dim")]
        if self.now.state == "running" and not self.abandon:
            left = f"{left_words(self.now).capitalize()}: end it only when it is dry."
            lines += [[], *prose(left, width, "care", head=("  ! ", "care"))]
        return lines

    def do_note(self) -> None:
        """Note it; the words stay when that fails."""
        words = self.query_one("#words", TextEntry).value.strip()
        baths, bath = self.desk.baths, self.now.bath
        try:
            if not self.abandon:
                baths.done(bath.id, words)
                self.outcome = f"Done and noted: {what(self.now)}."
            elif not words:
                self.say("Say why it is abandoned, then Enter.", wrong=True)
                return
            else:
                baths.abandon(bath.id, words, never_in=self._still_in)
                self.outcome = f"Abandoned: {what(self.now)}."
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.dismiss()
