"""One person: details noted at once, what is held, all of it in a file, erased on request."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from textual.app import ComposeResult

from counter.desk.trade.people import (
    DETAILS,
    STANDINGS,
    erasure_words,
    known,
    note_details,
    until_words,
)
from counter.documents.person_page import person_page, record_lines
from counter.trade.cash_limit import cash_with
from counter.trade.personal_data import erase_person, held_about
from counter.tui.widgets.action import Action, Help, back, fetch, own_eyes_key, steps, take_back
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.values.errors import UserError
from counter.values.money import pounds

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class PersonScreen(FormScreen):
    """Erasing asks for its key twice and says first what must stay, until when and why."""

    NAME = "person"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "note it", "Note what was typed for the line in hand; - empties it.",
               "save complete", foot=1),
        *steps("line"),
        fetch(foot=5),
        Action("export", "f5", "export", "Everything held about the person, in a file.",
               "access request file privacy", foot=2),
        Action("page", "f6", "page", "The whole record as a page to print.", "print"),
        own_eyes_key("every deal with them"),
        Action("erase", "ctrl+x", "erase", "Forget the person as far as the law lets; asked twice.",
               "delete forget privacy", foot=3, takes_away=True),
        take_back(),
        back(),
    )
    # fmt: on
    ABOUT = Help(
        "one person",
        (
            "Details can follow later; each is noted at once. F5 writes everything held about the person "
            "to a file, for when they ask, F6 as a page to print; F8 shows every deal with them.",
            "Ctrl+X erases on request, in every old entry too. What tax law wants kept stays: name and "
            "address while a piece bought from them is unsold, then for the term the screen names with "
            "its reason. Ask an accountant about your own case.",
        ),
    )
    DEFAULT_CSS = "PersonScreen ScrollPage { height: 7; }"

    def __init__(self, desk: Desk, key: str) -> None:
        super().__init__()
        self.desk = desk
        self.key = key

    def body(self) -> ComposeResult:
        """What is held in a few lines, the details."""
        yield Heading(lambda: f"{self.key} {known(self.desk.trading, self.key).name}")
        yield ScrollPage(self._lines)
        yield Form(self.fields(), near=True)

    def _lines(self, width: int) -> list[Line]:
        trading = self.desk.trading
        held = held_about(trading.settings, self.key)
        sums = cash_with(self.desk.ledger, self.key, trading.today)
        counts = ", ".join(
            f"{len(held[name])} {name if len(held[name]) != 1 else name[:-1]}"
            for name in ("purchases", "sales", "quotes")
        )
        lines = prose(f"Held besides the details: {counts}.", width)
        cash = f"paid {pounds(sums.paid)}, had {pounds(sums.received)}"
        lines += prose(f"Cash in the last twelve months: {cash}.", width)
        for each in record_lines(held) if self.costs else ():
            lines += prose(each, width)
        until = held["kept_until"]
        if until:
            lines += prose(f"Name and address stay {until_words(until)}: {held['why']}.", width, "dim")
        else:
            lines += prose("Nothing keeps these details: they can go when asked for.", width, "dim")
        return lines

    def fields(self) -> tuple[Field, ...]:
        """The details."""
        who = known(self.desk.trading, self.key)
        return tuple(
            Field(name, label, str(getattr(who, name)), STANDINGS if name == "kind" else ())
            for name, label in DETAILS
        )

    def take(self, key: str, value: str) -> str:
        """Note it."""
        note_details(self.desk.trading, self.key, {key: value})
        return "Noted. Ctrl+T takes it back."

    def redraw(self) -> None:
        """What is held follows."""
        super().redraw()
        self.query_one(ScrollPage).redraw()
        self.query_one(Heading).refresh()

    def do_export(self) -> None:
        """Everything held about the person, in a file."""
        house = self.desk.trading.settings
        self.app.open_screen(
            "save_file",
            self.desk,
            f"what is held about {self.key}",
            f"person-{self.key}.json",
            lambda: json.dumps(held_about(house, self.key), ensure_ascii=False, indent=2),
            self.say,
        )

    def do_page(self) -> None:
        """The whole record as a page to print."""
        held = held_about(self.desk.trading.settings, self.key)
        until = until_words(held["kept_until"]) if held["kept_until"] else ""
        self.app.open_screen(
            "save_file",
            self.desk,
            f"what is held about {self.key}",
            f"person-{self.key}.pdf",
            lambda: person_page(held, until),
            self.say,
        )

    def do_erase(self) -> None:
        """Say what will stay and what goes, and ask."""
        until = held_about(self.desk.trading.settings, self.key)["kept_until"]
        stays = f"Name and address stay {until_words(until)}. " if until else ""
        told = f"{stays}The rest goes, in old entries too, for good: nothing brings it back."

        def answered(asked: Any) -> None:
            if asked.yes:
                self._erase()

        self.app.open_screen("confirm", f"Erase {self.key}?", told, then=answered)

    def _erase(self) -> None:
        try:
            done = erase_person(self.desk.trading.settings, self.key, self.desk.trading.today)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.redraw()
        self.say(" ".join(erasure_words(done)))

    def taken_back(self, told: str) -> None:
        """The person may have gone with the entry."""
        if not self.desk.ledger.people.holds(self.key):
            self.dismiss()
            return
        super().taken_back(told)
