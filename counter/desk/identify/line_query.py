"""One typed line, answered: read, identified, its ink's tolerance, the stock that matches."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from typing import TYPE_CHECKING

from counter.desk.treatments.case import Treatable, treatable_of_reading
from counter.desk.workspace import Workspace
from counter.judge.identify import (
    Candidate,
    CardLine,
    Details,
    Identification,
    NextLook,
    Support,
    card_of,
    commemorative_lines,
    commemoratives_for,
    details_of,
    identify,
    next_looks,
    rests_on,
    traps_of,
)
from counter.judge.observation import Reading
from counter.judge.reading import read_line
from counter.judge.treat.observed import subject_of_reading
from counter.judge.treat.strip import StripCell, tolerance_strip
from counter.values.errors import InputError

if TYPE_CHECKING:
    from counter.reference.postal_numerals import Numeral
    from counter.reference.stamps_records import Commemorative, Lookalike

#: Faults that make a stamp another thing than it seems.
_NOT_ITSELF = ("forgery", "reperforated")
#: Remarks to beware of though nothing is wrong: a dark look is sulphide before it is a shade.
_BEWARE = ("sulphided_colour", "standing", "proof")
#: A first candidate below this share is no answer yet, and what passes for it nobody's trap.
_LEADS = 0.3
#: How many stock lines a screen is given: more than anybody reads, few enough to be instant.
MOST_LINES = 60


@dataclass(frozen=True, slots=True)
class StockLine:
    """A stock line as a customer may see it: no cost. `matched` are character spans of `words`."""

    number: str
    words: str
    matched: tuple[tuple[int, int], ...]
    price: int | None  # pence
    kept: str
    status: str


class Asked:
    """The answers to one line; each is worked out when it is first looked at, and kept."""

    def __init__(self, workspace: Workspace, text: str) -> None:
        self.workspace = workspace
        self.text = text

    @cached_property
    def reading(self) -> Reading:
        """What was read of the line and what was not."""
        return read_line(self.text, self.workspace.library.vocabulary)

    @cached_property
    def identification(self) -> Identification:
        """What it could be, with reasons."""
        return identify(self.reading, self.workspace.library.stamps)

    @cached_property
    def supports(self) -> tuple[Support, ...]:
        """What the first candidate rests on."""
        first = self.candidates[:1]
        stamps = self.workspace.library.stamps
        return rests_on(first[0], self.reading, stamps) if first else ()

    @property
    def candidates(self) -> tuple[Candidate, ...]:
        """The candidates, best first; none when nothing of a stamp was seen."""
        return self.identification.candidates

    @cached_property
    def told(self) -> tuple[Candidate, ...]:
        """The candidates told by themselves; all that is fainter is gathered."""
        return self.identification.told()

    @cached_property
    def commemoratives(self) -> tuple[Commemorative, ...]:
        """The commemorative sets the line may mean, by subject, year and denomination."""
        return commemoratives_for(self.reading, self.workspace.library.stamps)

    def commemorative_lines(self) -> tuple[CardLine, ...]:
        """Those sets, a line each, as they stand above a card."""
        return tuple(commemorative_lines(self.commemoratives, self.reading.first("denomination")))

    def next_looks(self, *, wet: bool = False) -> tuple[NextLook, ...]:
        """What to look at next, the most telling for its seconds first; dry looks unless `wet`."""
        return next_looks(self.reading, self.workspace.library.stamps, wet=wet)

    @cached_property
    def traps(self) -> tuple[Lookalike, ...]:
        """What is taken for the first candidate or made into it, the plate's own first."""
        return traps_of(self.identification, self.reading, self.workspace.library.stamps)

    @cached_property
    def trap_line(self) -> str:
        """What to beware of, in one line: what it is said to be, what cannot be, what is taken for it."""
        said = (*self.reading.every("nature"), *self.reading.every("fault"))
        for each in said:
            if each.said != "is not" and (each.kind == "nature" or each.value in _NOT_ITSELF):
                return f"said to be {each.told}: the shares are of what it looks like"
        for reason in self.identification.remarks:
            if reason.speaks == "against" or reason.code in _BEWARE:
                return reason.text
        named = ", ".join((*(each.name for each in self.traps), *self._passed_off()))
        return f"taken for it: {named}" if named else ""

    @cached_property
    def offices(self) -> tuple[Numeral, ...]:
        """The offices abroad whose number the line gives in a cancel, sourced ones first."""
        from counter.reference.postal_numerals import is_code_abroad

        codes = [each.value for each in self.reading.every("cancel_number") if each.said != "is not"]
        return tuple(
            office
            for code in dict.fromkeys(codes)
            if is_code_abroad(code)
            for office in self.workspace.library.postal.numerals.offices(code, "abroad")
        )

    @property
    def office_line(self) -> str:
        """Those offices in one line with their days; a name that is only remembered says so."""
        told: list[str] = []
        for each in self.offices:
            days = "-".join(day[:4] for day in (each.first, each.last) if day)
            more = ", ".join(part for part in (days, "" if each.sourced else "remembered") if part)
            told.append(f"{each.number} {each.office}{f' ({more})' if more else ''}")
        return " or ".join(told)

    def _passed_off(self) -> tuple[str, ...]:
        """What is no postage stamp, or was made one, and passes for the first candidate, in words."""
        first = self.candidates[0] if self.candidates else None
        if first is None or first.share < _LEADS:
            return ()
        issue = self.workspace.library.stamps.weighed(first.issue_id)
        return tuple(each.words for each in issue.confused_with if each.words)

    def cautions(self) -> list[str]:
        """What the dealer should be told before money changes hands, a sentence each."""
        told = [reason.text for reason in self.identification.remarks]
        for first in self.candidates[:1]:
            told += [reason.text for reason in first.explanations]
        return list(dict.fromkeys(told))

    def details(self, each: Candidate) -> Details:
        """Band, gum, country, set and first days of a candidate's stamp."""
        stamps = self.workspace.library.stamps
        return details_of(each.issue_id, each.denomination, each.colour, self.reading, stamps)

    def card(self, issue: str) -> tuple[CardLine, ...]:
        """The card of an issue."""
        return card_of(issue, self.workspace.library.stamps)

    def strip(self, issue: str) -> tuple[StripCell, ...]:
        """What the stamp of the line bears of water, peroxide and spirit, judged as the treatments are.

        A stamp that is more likely none of the issues is not judged by one of them: unknown.
        """
        library = self.workspace.library
        if self.identification.none_of_these > 0.5:
            issue = ""
        try:
            found = treatable_of_reading(
                self.reading, lambda: self.identification, library, self.workspace.item
            )
        except InputError:  # a stock number that is not ours: the words beside it are judged
            found = Treatable(self.text, subject_of_reading(self.reading, library.treatments))
        return tolerance_strip(
            found.subject,
            issue,
            library.stamps,
            library.treatments,
            today=self.workspace.today(),
            earlier=found.item.treatments if found.item else (),
        )

    def stock(self, limit: int = MOST_LINES) -> list[StockLine]:
        """The stock that matches, best first; for an empty line the latest noted."""
        if not self.text.strip():
            return self._latest(limit)
        found = self.workspace.index.find(self.text, limit)
        return [line for hit in found if (line := self._line(hit.number, hit.line, hit.spans))]

    def _latest(self, limit: int) -> list[StockLine]:
        numbers = islice(self.workspace.ledger.items.latest(), limit)
        known = (number for number in numbers if number in self.workspace.index)
        return [
            line for each in known if (line := self._line(each, self.workspace.index.line(each), ()))
        ]

    def _line(self, number: str, words: str, matched: tuple[tuple[int, int], ...]) -> StockLine | None:
        item = self.workspace.ledger.items.find(number)
        if item is None:
            return None
        return StockLine(number, words, matched, item.open_price, item.kept, item.status)
