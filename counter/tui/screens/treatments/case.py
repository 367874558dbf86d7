"""What is being judged and what was answered about it: one case for all treatments."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from counter.describe.names import name_of
from counter.desk.treatments.case import (
    Treatable,
    answered,
    treatable_of_item,
    treatable_of_text,
    verdict_of,
)
from counter.judge.treat.plan import Plan, TreatmentVerdict

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.reference.treatments import Treatments


@dataclass
class TreatmentCase:
    """A piece with the answers given so far; an answer given for one treatment counts for all.

    `noted` are words for the record of a treatment: "before" (how it looks) and "by" (whom).
    """

    desk: Desk
    base: Treatable
    heading: str
    answers: dict[str, str] = field(default_factory=dict)
    noted: dict[str, str] = field(default_factory=dict)

    @property
    def treatments(self) -> Treatments:
        """The treatment reference."""
        return self.desk.library.treatments

    def treatable(self) -> Treatable:
        """The piece as answered, with what has been done to it by now."""
        conditions = self.treatments.conditions
        confirmed = [key for key, value in self.answers.items() if key in conditions and value == "yes"]
        answers = {key: value for key, value in self.answers.items() if key not in conditions}
        subject = answered(self.base.subject, answers, confirmed, self.treatments)
        item = self.desk.item(self.base.item.number) if self.base.item else None
        return replace(self.base, subject=subject, item=item)

    def verdict(self, plan: Plan) -> TreatmentVerdict:
        """The verdict on a treatment as planned."""
        return verdict_of(self.treatable(), plan, self.desk.library, self.desk.today())


def case_of_line(desk: Desk, text: str, issue: str = "") -> TreatmentCase:
    """The stamp of a typed line, or the stock number in it; `issue` is the one chosen by hand.

    Raises InputError for a stock number that is not in the stock.
    """
    found = treatable_of_text(text, desk.library, desk.item)
    if found.item:
        return _of_item(desk, found)
    heading = f"{_named(desk, found, issue)}, from the line typed" if text.strip() else "nothing named"
    answers = {"issue": issue} if issue and found.subject.issues else {}
    return _with_hand(TreatmentCase(desk, found, heading, answers))


def case_of_stock(desk: Desk, number: str) -> TreatmentCase | None:
    """A line of stock; None when the number is not (or no longer) in it."""
    item = desk.item(number)
    return _of_item(desk, treatable_of_item(item, desk.library)) if item else None


def _of_item(desk: Desk, found: Treatable) -> TreatmentCase:
    from counter.describe.description import short_line

    words = short_line(found.item, desk.names) if found.item else found.words
    number = found.item.number if found.item else ""
    heading = words if words.startswith(number) else f"{number} {words}"
    return _with_hand(TreatmentCase(desk, found, heading))


def _with_hand(case: TreatmentCase) -> TreatmentCase:
    """Whoever did the last treatment is likely to do the next."""
    baths = case.desk.ledger.baths.records()
    last = baths[-1].by if baths else ""
    if last:
        case.noted["by"] = last
    return case


def _named(desk: Desk, found: Treatable, issue: str) -> str:
    issues = (issue,) if issue else found.subject.issues
    names = [_short_name(desk, each) for each in issues]
    if not names:
        return "not identified"
    return names[0] if len(names) == 1 else f"{names[0]} or {len(names) - 1} more"


def _short_name(desk: Desk, issue: str) -> str:
    """As a stock line says it: 1d red-brown imperf alph I."""
    name = name_of(issue, desk.names)
    return " ".join(part for part in (name.denomination, name.colour, name.tail) if part)
