"""The list of treatments: the liquids that are asked about first, dry looks, what nothing bears last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counter.judge.treat.plan import TreatmentVerdict
from counter.reference.treatment_records import Treatment
from counter.reference.treatments import Treatments
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.reasons import verdict_spans
from counter.tui.widgets.text import Line, fit, two_ends

#: The groups in the order they are shown, and where each may be done.
GROUPS = (
    "Liquids: at home, with water to hand",
    "Dry looks, here at the table",
    "Dry, at home",
    "Never, whatever the stamp",
)
#: From so many columns the loudest reason stands between name and verdict, beside names so wide.
_ROOM_FOR_WHY, _NAME = 116, 44
_FIRST_DRY = ("do_nothing", "watermark_dry", "uv_longwave", "record", "storage")
#: What is asked for most; the stop rinse belongs under the bath it ends.
_FIRST_WET = (
    "soak_float",
    "soak_immersion",
    "peroxide_brush",
    "peroxide_immersion",
    "peroxide_rinse",
    "watermark_petroleum_spirit",
    "damp_blotter_lift",
)


@dataclass(frozen=True, slots=True)
class Judged:
    """A treatment with its verdict for the piece."""

    treatment: Treatment
    verdict: TreatmentVerdict


def group_of(treatment: Treatment) -> int:
    """The place in GROUPS: what is refused outright stands last."""
    if treatment.verdict_from == "default_verdict" and treatment.default_verdict == "never":
        return 3
    if treatment.at_fair:
        return 1
    return 0 if treatment.wet else 2


def in_order(treatments: Treatments) -> list[Treatment]:
    """Every treatment in the order of the list."""

    def place(each: Treatment) -> tuple[int, int]:
        group = group_of(each)
        first = _FIRST_WET if group == 0 else _FIRST_DRY
        return group, first.index(each.id) if each.id in first else len(first)

    return sorted(treatments.treatments.values(), key=place)


class TreatmentRows(LineList):
    """Headings and treatments; the cursor stands on treatments only."""

    def __init__(self) -> None:
        super().__init__(id="treatments")
        self.entries: list[Judged | str] = []

    def show(self, judged: Sequence[Judged], wanted: str = "") -> None:
        """Another list; the `wanted` treatment is chosen, or the same as before where it is there."""
        before = wanted or (self.chosen.treatment.id if self.chosen else "")
        self.entries = []
        group = -1
        for each in judged:
            if group_of(each.treatment) != group:
                group = group_of(each.treatment)
                self.entries.append(GROUPS[group])
            self.entries.append(each)
        at = [place for place, each in enumerate(self.entries) if _is(each, before)]
        self.top = 0
        self.cursor = at[0] if at else min(1, len(self.entries))
        self.go(self.cursor)

    @property
    def chosen(self) -> Judged | None:
        """The treatment in hand."""
        found = self.entries[self.cursor] if self.cursor < len(self.entries) else None
        return found if isinstance(found, Judged) else None

    def count(self) -> int:
        """Headings and treatments."""
        return len(self.entries)

    def empty(self) -> str:
        """Nothing is called that."""
        return "  No treatment is called that; clear the line to see them all."

    def go(self, index: int) -> None:
        """Past a heading in the direction of the move; the first heading stays in view."""
        index = min(max(index, 0), max(len(self.entries) - 1, 0))
        if self.entries and isinstance(self.entries[index], str):
            index += -1 if index < self.cursor and index > 0 else 1
        super().go(index)
        if self.cursor == 1:
            self.top = 0

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """Name, verdict, and what it could be when questions are answered; words never cut."""
        entry = self.entries[index]
        if isinstance(entry, str):
            columns = "now          could be     " + " " * 9 if entry != GROUPS[3] else ""
            return two_ends([(f"  {entry}", "head")], [(columns, "dim")], width)
        found = entry.verdict
        now, could = verdict_spans(found.verdict)[0], verdict_spans(found.could_be)[0]
        right: Line = [
            (fit(now[0], 13), now[1]),
            (fit(could[0] if found.could_be != found.verdict else "", 13), could[1]),
            (fit("disputed" if found.disputed else "", 9), "care"),
        ]
        name = entry.treatment.name
        if width >= _ROOM_FOR_WHY and found.reasons:
            why = (found.reasons[0].text.removeprefix(f"{name}: "), "dim")
            named = (f"{fit(name, _NAME - 1)} ", "strong" if chosen else "plain")
            left: Line = [mark(chosen), named, why]
            return two_ends(left, [("  ", "plain"), *right], width)
        return two_ends([mark(chosen), (name, "strong" if chosen else "plain")], right, width)


def _is(entry: Judged | str, treatment: str) -> bool:
    return isinstance(entry, Judged) and entry.treatment.id == treatment
