"""A cover under examination: the facts, what is seen, and what several checks need of both."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from counter.judge.cover.cancels import CancelSeen
from counter.judge.cover.cover_facts import CancelMark, CoverSeen
from counter.judge.cover.fees import first_late_hour
from counter.judge.cover.question import RateQuestion, Service
from counter.judge.cover.rates import rate_for
from counter.judge.cover.result import CheckResult
from counter.reference.postal import Postal
from counter.reference.postal_checks import CoverCheck
from counter.values.dates import When

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
    def cancels(self) -> tuple[CancelSeen, ...]:
        """Every cancel with where it was struck; empty where none is noted, or there is none."""
        seen = self.seen
        first = CancelMark(seen.cancel, seen.cancel_type, seen.cancel_colour, seen.cancel_number)
        noted = (first, *seen.more_cancels) if seen.cancel else seen.more_cancels
        return tuple(self._placed(each) for each in noted if each.family != "none")

    def _placed(self, mark: CancelMark) -> CancelSeen:
        seen = self.seen
        to = self.postal.place(seen.to_town)
        named = "elsewhere" if seen.to_town else ""
        coded = seen.region == "abroad" and bool(mark.number) and mark.family != "maltese_cross"
        return CancelSeen(
            family=mark.family,
            type=mark.type or ("num_used_abroad" if coded else ""),
            colour=mark.colour,
            number=mark.number,
            town=seen.town,
            region=seen.region,
            to_region="abroad" if seen.to_abroad else (to.region if to else named),
        )

    @cached_property
    def question(self) -> RateQuestion | None:
        """What its journey cost, as far as known; None without a date, or from abroad."""
        seen = self.seen
        if seen.when is None or seen.region == "abroad":
            return None
        return RateQuestion(
            when=seen.when,
            ounces=seen.ounces,
            sheets=seen.sheets,
            miles=seen.miles,
            service=self._service(),
            to=seen.to_abroad,
            via=seen.via,
            scotland=seen.region == "scotland" or self._to_region == "scotland",
            redirected=0,
            late_at=self._late(seen.when) if self.has("late_fee") else "",
        )

    def _service(self) -> Service:
        """The service, or what a mark shows of it."""
        shown: tuple[Service, ...] = ("registered", "express")
        return next((mark for mark in shown if self.has(mark)), self.seen.service)

    @property
    def _to_region(self) -> str:
        place = self.postal.place(self.seen.to_town)
        return place.region if place else ""

    def _late(self, when: When) -> str:
        """The London late fee is held to its lowest; elsewhere it is not in the reference."""
        if self.seen.region not in ("", "london"):
            return ""
        return first_late_hour(self.postal, bool(self.seen.to_abroad), when.earliest)

    @property
    def charged(self) -> bool:
        """Whether a mark, a figure or a label says that something was to be collected."""
        return self.seen.asked_for is not None or self.has("unpaid_2", "unpaid", "more_to_pay")

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
