"""The questions of a treatment as a form: what would change the verdict, the bottle, the record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from counter.judge.treat.plan import Ask, TreatmentVerdict
from counter.reference.treatment_records import Treatment
from counter.tui.widgets.form import Field

#: Questions about the bottle and the run; they are typed, not chosen.
BOTTLE = ("strength", "product", "seconds")
RECORD = ("before", "by")


@dataclass
class Questions:
    """Keeps questions in the order they first came up, so that none moves while it is answered."""

    treatment: Treatment
    timed: bool
    seen: dict[str, Ask] = field(default_factory=dict)

    def fields(
        self, verdict: TreatmentVerdict, answers: Mapping[str, str], typed: Mapping[str, str]
    ) -> tuple[Field, ...]:
        """The form now: open questions, answered ones, the bottle, words for the record."""
        now = {ask.key: ask for ask in verdict.asks if ask.key not in BOTTLE}
        self.seen.update(now)
        asked = [
            _asked(ask, answers.get(key, ""), still=key in now)
            for key, ask in self.seen.items()
            if key in now or key in answers
        ]
        return (*asked, *self._bottle(typed, verdict), *self._record(typed))

    def _bottle(self, typed: Mapping[str, str], verdict: TreatmentVerdict) -> list[Field]:
        made = []
        if self.treatment.kind == "peroxide":
            hint = "As on the bottle: 3 % w/v, 10 vol, 20 vol, or old bottle. Both readings are judged."
            made.append(
                Field("strength", "Strength on the label", typed.get("strength", ""), (), hint, True)
            )
        if self.treatment.kind in ("peroxide", "spirit"):
            hint = "The name as it stands on the bottle: benzine is not benzene."
            made.append(Field("product", "Name on the bottle", typed.get("product", ""), (), hint))
        if self.timed:
            usual, most = verdict.seconds
            said = [f"{usual} s is usual" if usual else "", f"{most} s the most" if most else ""]
            hint = ", ".join(part for part in said if part) or "30, 90 s or 10 min"
            made.append(Field("seconds", "How long", typed.get("seconds", ""), (), hint))
        return made

    def _record(self, typed: Mapping[str, str]) -> list[Field]:
        if not (self.timed and self.treatment.wet):
            return []
        before = Field(
            "before", "How it looks now", typed.get("before", ""), (), "For the record, in a few words."
        )
        by = Field("by", "Done by", typed.get("by", ""), (), "Whose hand: a name or initials.")
        return [before, by]


def _asked(ask: Ask, value: str, *, still: bool) -> Field:
    """A question whose answers show the verdict each leads to, while it still matters."""
    choices = tuple(
        (answer, f"{words}: {then}" if still else words) for answer, words, then in ask.choices
    )
    return Field(ask.key, ask.words, value, choices, ask.words, needed=still and not value)
