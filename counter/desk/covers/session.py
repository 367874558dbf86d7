"""A cover in hand: the case, the answers given so far, and the finding kept with the item of stock."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Any

from msgspec.structs import replace

from counter.desk.covers.answers import PLAIN, cover_answered
from counter.desk.covers.case import CoverCase, case_of_item, open_case
from counter.desk.covers.questions import CoverQuestion, cover_questions, rate_questions
from counter.desk.workspace import Workspace
from counter.judge.cover.finding import EARLIER_WORDS, LOOKED_AT, WORDS
from counter.store.records.check import put
from counter.values.errors import InputError, UserError
from counter.values.item import CoverFacts, Item

#: The unfinished case under `drafts`.
DRAFT = "cover"


class CoverNotes:
    """The cover that stands in a line (`text`), or is a line of stock (`number`), and its answers.

    Every answer judges the case anew. `draft` and `again` carry the answers over a closing.
    """

    def __init__(self, desk: Workspace, text: str, item: Item | None = None) -> None:
        self.desk = desk
        self.text = text
        self.item = item
        self.answers: dict[str, str] = {}
        self.begun = case_of_item(desk.library, item) if item else open_case(desk.library, text)

    @property
    def start(self) -> dict[str, str]:
        """What tells one cover from another: the line, or the number."""
        return {"text": "" if self.item else self.text, "number": self.item.number if self.item else ""}

    @cached_property
    def case(self) -> CoverCase:
        """The case with every answer given."""
        case = self.begun
        for key, typed in self.answers.items():
            case = cover_answered(case, key, typed)
        return case

    def questions(self) -> tuple[CoverQuestion, ...]:
        """The form, the most telling first."""
        return cover_questions(self.case, frozenset(key for key, said in self.answers.items() if said))

    def rate_questions(self) -> tuple[CoverQuestion, ...]:
        """The part of the form that the rate asks for."""
        return rate_questions(self.case)

    def check(self, key: str, typed: str) -> None:
        """Raises InputError when this is no answer to the question."""
        cover_answered(self.case, key, typed)

    def answer(self, key: str, typed: str) -> None:
        """Note an answer; "" takes it back, or empties what the line said. Raises InputError."""
        given = {name: said for name, said in self.answers.items() if name != key}
        if typed or key not in self.answers:
            cover_answered(self.case, key, typed)
            given[key] = typed
        self.answers = given
        self.__dict__.pop("case", None)

    def start_over(self) -> None:
        """Back to what the line or the stock says."""
        self.answers = {}
        self.__dict__.pop("case", None)

    def draft(self) -> tuple[str, dict[str, Any] | None]:
        """The case as an unfinished note: its name among the drafts, and its row if anything was
        answered."""
        return DRAFT, {**self.start, "answers": dict(self.answers)} if self.answers else None

    def again(self, row: Mapping[str, Any]) -> None:
        """Give the answers of a draft again; what no longer fits is left out."""
        known = {*PLAIN, *self.desk.library.postal.checks}
        for key, typed in dict(row.get("answers", {})).items():
            if key in known:
                try:
                    self.answer(key, typed)
                except InputError:
                    continue

    def keep(self) -> str:
        """Write the finding and what is known of the cover into the item; says what was kept.

        The finding is for the dealer's eyes: no description, label or paper shows it. Kept again
        unchanged, with nothing against it, it puts words that claim nothing among the cover's marks,
        which papers do show. Somebody's own words in its place move to the remarks. Raises UserError
        when the cover is no line of stock.
        """
        item = self.desk.item(self.item.number) if self.item else None
        if item is None:
            raise UserError(
                "This cover is not in stock, so there is nothing to keep the finding with: "
                "note it as bought first, then check it from the stock list."
            )
        now = _facts(item, self.case)
        kept = replace(item, cover=now, remarks=_remarks(item))
        clean = self.case.found.finding in ("consistent", "undecided")
        told = f"Kept with {item.number}: {now.finding}. No paper shows it"
        if kept == item and clean and LOOKED_AT not in now.marks:
            marks = ", ".join(filter(None, (now.marks, LOOKED_AT)))
            kept = replace(item, cover=replace(now, marks=marks))
            told = f"Now the papers of {item.number} say: {LOOKED_AT}"
        elif clean and LOOKED_AT not in now.marks:
            told = f"{told}; kept again, papers say “{LOOKED_AT}”"
        if kept != item:
            self.desk.ledger.note("cover finding kept", [put(kept)])
        self.item = kept
        return f"{told}."


def open_notes(
    desk: Workspace, text: str, item: Item | None, before: CoverNotes | None = None
) -> CoverNotes:
    """The notes on this cover, with the answers already given to it, in this sitting or the last."""
    notes = CoverNotes(desk, text, item)
    row = before.draft()[1] if before else desk.draft(DRAFT)
    if row and {name: row.get(name) for name in notes.start} == notes.start:
        notes.again(row)
    return notes


def finding_told(case: CoverCase) -> str:
    """The finding in true words with what speaks against: "speaks against belonging (rate)"."""
    checks = case.library.postal.checks
    weighty = [
        checks[each.id].label
        for each in case.found.decided()
        if each.speaks == "against"
        and each.strength != "weak"
        and checks[each.id].bears_on == "belonging"
    ]
    said = WORDS[case.found.finding]
    return f"{said} ({', '.join(weighty)})" if weighty else said


def _facts(item: Item, case: CoverCase) -> CoverFacts:
    """What is kept; where nothing was seen, what was noted before stays."""
    before, now = item.cover or CoverFacts(), case.facts()
    new = [mark for mark in now.marks.split(", ") if mark and mark not in before.marks]
    begun = {mark.replace("_", " ") for mark in case_of_item(case.library, item).seen.marks}
    marks = ", ".join(filter(None, (before.marks, *(mark for mark in new if mark not in begun))))
    return CoverFacts(
        date=now.date or before.date,
        town=now.town or before.town,
        to=now.to or before.to,
        tied=now.tied or before.tied,
        marks=marks,
        finding=finding_told(case),
    )


def _remarks(item: Item) -> str:
    """The remarks, with an earlier finding in somebody's own words."""
    old = item.cover.finding if item.cover else ""
    own = old and not old.startswith((*WORDS.values(), *EARLIER_WORDS))
    return "; ".join(filter(None, (item.remarks, f"noted earlier: {old}" if own else "")))
