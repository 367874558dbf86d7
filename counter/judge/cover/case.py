"""A cover under examination: the facts, what is seen, and what several checks need of both."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from counter.judge.cover.cancels import CancelSeen
from counter.judge.cover.cover_facts import CoverSeen
from counter.judge.cover.question import RateQuestion
from counter.judge.cover.rates import rate_for
from counter.judge.cover.result import CheckResult
from counter.reference.postal import Postal
from counter.reference.postal_checks import CoverCheck

#: An adhesive at all: the earliest recorded use, and the first day it was valid.
FIRST_USE = "1840-05-02"
FIRST_VALID = "1840-05-06"


@dataclass(frozen=True)
class Case:
    """One cover, with the facts it is judged by."""

    postal: Postal
    seen: CoverSeen

    def check(self, name: str) -> CoverCheck:
        """The record of a check."""
        return self.postal.checks[name]

    def has(self, *marks: str) -> bool:
        """Whether any of these marks is on the cover."""
        return any(mark in self.seen.marks for mark in marks)

    @cached_property
    def cancel(self) -> CancelSeen:
        """The cancel with where it was struck."""
        seen = self.seen
        to = self.postal.place(seen.to_town)
        return CancelSeen(
            family=seen.cancel,
            type=seen.cancel_type,
            colour=seen.cancel_colour,
            number=seen.cancel_number,
            town=seen.town,
            region=seen.region,
            to_region="abroad" if seen.to_abroad else (to.region if to else ""),
        )

    @cached_property
    def question(self) -> RateQuestion | None:
        """What its journey cost, as far as known; None without a date."""
        seen = self.seen
        if seen.when is None:
            return None
        return RateQuestion(
            when=seen.when,
            ounces=seen.ounces,
            sheets=seen.sheets,
            miles=seen.miles,
            service="registered" if self.has("registered") else seen.service,
            to=seen.to_abroad,
            redirected=0,
            late_at="late" if self.has("late_fee") else "",
        )

    @cached_property
    def full_rate_paid(self) -> bool | None:
        """Whether the franking covers the rate of a known weight; None when that is not known."""
        if self.question is None or self.seen.paid is None:
            return None
        answer = rate_for(self.postal, self.question)
        if answer.pence is None or answer.unit != self.seen.paid.unit:
            return None
        return self.seen.paid.pence >= answer.pence


Decide = Callable[[Case], CheckResult]
