"""The cover check as a person meets it: a typed line, answers on a form, the finding, the chart."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from counter.desk.covers.stamps_seen import franked_of
from counter.judge.cover.check import CoverFinding, check_cover
from counter.judge.cover.cover_facts import CoverSeen
from counter.judge.cover.finding import WORDS
from counter.judge.cover.from_reading import cover_seen, postage_or_none, remark_words
from counter.judge.cover.stamp_dates import stamp_dates
from counter.judge.cover.timeline import Timeline, timeline
from counter.judge.observation import Reading
from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.values.item import CoverFacts, Item
from counter.values.typed import words_of


@dataclass(frozen=True)
class CoverCase:
    """A cover under examination: `seen` is all that is known; `reading` the line it began with."""

    library: Library
    reading: Reading
    seen: CoverSeen

    @cached_property
    def found(self) -> CoverFinding:
        """The finding with every check, what to ask next, and cautions."""
        return check_cover(self.library.postal, self.seen)

    @cached_property
    def chart(self) -> Timeline | None:
        """What the chart draws; None when nothing has a date."""
        return timeline(self.library.postal, self.seen)

    @property
    def unread(self) -> tuple[str, ...]:
        """What of the line was not understood, neither as an observation nor as a remark."""
        remarks = set(remark_words(self.reading.text, self.library.postal))
        return tuple(
            each.text for each in self.reading.unread if not set(words_of(each.text)) <= remarks
        )

    def answered(self, **fields: Any) -> CoverCase:
        """The case with fields of CoverSeen answered on the form; raises TypeError on others."""
        return replace(self, seen=replace(self.seen, **fields))

    def looked(self, check: str, value: str) -> CoverCase:
        """The case with one check answered by a person who looked; "" takes the answer back."""
        answers = {name: said for name, said in self.seen.answers.items() if name != check}
        return self.answered(answers={**answers, check: value} if value else answers)

    def facts(self) -> CoverFacts:
        """What is kept with an item on this cover."""
        seen = self.seen
        return CoverFacts(
            date=seen.when.text if seen.when else "",
            town=seen.town,
            to=seen.to_abroad or seen.to_town,
            tied=seen.tied,
            marks=", ".join(mark.replace("_", " ") for mark in seen.marks),
            finding=WORDS[self.found.finding],
        )


def open_case(library: Library, text: str) -> CoverCase:
    """A case from a line as a dealer types it; what was not understood stays in `reading.unread`."""
    reading = read_line(text, library.vocabulary)
    franked, due = franked_of(library, reading)
    return CoverCase(library, reading, cover_seen(reading, library.postal, franked, due))


def case_of_item(library: Library, item: Item) -> CoverCase:
    """A case from an item of stock and what is noted of its cover."""
    kept = item.cover or CoverFacts()
    words = " ".join(filter(None, (kept.marks, item.words, f"date {kept.date}" if kept.date else "")))
    case = open_case(library, words)
    place = library.postal.place(kept.town)
    to = library.postal.place(kept.to)
    known = item.issue in library.stamps.issues
    value = item.denomination or (library.stamps.issues[item.issue].denomination if known else "")
    dates = (stamp_dates(library.stamps, item.issue, item.plate, value=value),) if known else ()
    abroad = to is not None and to.region == "abroad"
    return case.answered(
        stampless=case.seen.stampless and not (known or value),
        stamps=dates,
        value=postage_or_none(value),
        count=max(len(item.letters), 1),
        beside=(),
        more_cancels=(),
        cancel=item.cancel,
        cancel_colour=item.cancel_colour,
        cancel_number=item.cancel_number,
        town=kept.town,
        region=place.region if place else "",
        to_town="" if abroad else kept.to,
        to_abroad=kept.to if abroad else "",
        tied=kept.tied if kept.tied in ("tied", "not_tied") else "",
        letters=item.letters,
        multiple=item.multiple,
        plates=(item.plate,) if item.plate else (),
        faults=tuple(fault.term for fault in item.faults),
        attachment=item.attachment,
        certificate=item.certificate is not None,
    )
