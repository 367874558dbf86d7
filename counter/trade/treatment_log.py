"""Baths that cannot be forgotten: every step is in the journal before the screen says so."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from msgspec.structs import replace

from counter.store.ledger import Ledger
from counter.store.records.bath import Bath, BathStage
from counter.store.records.check import put
from counter.trade.treatment_clock import (
    Anchor,
    Countdown,
    countdown,
    moment,
    seconds_run,
    stamp,
    taken_up,
)
from counter.values.errors import UserError
from counter.values.item import TreatmentDone

#: How often the seconds of a running stage are noted: while the liquid works, and otherwise.
_KEEP_WORKING, _KEEP_RESTING = 10, 600


@dataclass(frozen=True, slots=True)
class BathPlan:
    """What is about to be begun. `checks` must all be among `ticked`; `of` says in words what it is."""

    treatment: str
    name: str
    stages: tuple[BathStage, ...]
    of: str = ""
    item: str = ""
    product: str = ""
    strength: str = ""
    by: str = ""
    before: str = ""
    wet: bool = True
    checks: tuple[str, ...] = ()
    ticked: frozenset[str] = frozenset()


class Baths:
    """The baths of a ledger. `monotonic` gives seconds that never go back while the counter is open;
    the ledger's own clock gives the time of day; `wet` are the ids of the treatments that wet.
    """

    def __init__(self, ledger: Ledger, *, monotonic: Callable[[], float], wet: Collection[str]) -> None:
        self._ledger = ledger
        self._monotonic = monotonic
        self._wet = frozenset(wet)
        self._anchors: dict[tuple[str, int], Anchor] = {}
        self._doubtful: set[tuple[str, int]] = set()
        self._highest: dict[tuple[str, int], float] = {}

    def running(self) -> tuple[Countdown, ...]:
        """Every running bath, the most pressing first."""
        found = [self._countdown(bath) for bath in self._ledger.baths.running()]
        order = {"danger": 0, "over": 1, "running": 2}
        return tuple(sorted(found, key=lambda each: (order[each.state], -each.overdue, each.remaining)))

    def start(self, plan: BathPlan) -> Bath:
        """Begin a bath. Raises UserError for an unticked check or a second wet treatment the same day."""
        missing = [name for name in plan.checks if name not in plan.ticked]
        if missing:
            raise UserError(f"Not begun: {len(missing)} checks are not ticked ({', '.join(missing)}).")
        if not plan.stages:
            raise UserError("Not begun: a bath needs at least one timed stage.")
        now = self._ledger.clock()
        if plan.item:
            self._may_begin(plan, now)
        bath = Bath(
            id=self._ledger.next_number("baths"),
            item=plan.item,
            treatment=plan.treatment,
            started=stamp(now),
            name=plan.name,
            of=plan.of,
            seconds=plan.stages[0].seconds,
            product=plan.product,
            strength=plan.strength,
            by=plan.by,
            before=plan.before,
            wet=plan.wet,
            ticked=tuple(sorted(plan.ticked)),
            stages=plan.stages,
            noted=stamp(now),
        )
        self._note("bath started", bath)
        self._anchors[bath.id, 0] = Anchor(0.0, moment(bath.noted), self._monotonic())
        return bath

    def next_stage(self, bath_id: str) -> Bath:
        """Confirm that a stage is over ("rinsed" for one that works) and begin the next.

        Leaving the working stage puts the treatment on the item at once, so that no crash can hide
        it from a buyer. Raises UserError at the last stage.
        """
        bath = self._running(bath_id)
        if bath.stage + 1 >= len(bath.stages):
            raise UserError(f"{bath.now.words} is the last stage: say when it is done.")
        worked = bath.worked
        if bath.now.works:
            worked = (worked or 0) + int(self._seconds(bath))
        now = self._ledger.clock()
        moved = replace(bath, stage=bath.stage + 1, counted=0, noted=stamp(now), worked=worked)
        left = bath.now.works
        self._note("rinsed" if left else "bath step", moved, on_item=left)
        self._anchors[moved.id, moved.stage] = Anchor(0.0, moment(moved.noted), self._monotonic())
        return moved

    def done(self, bath_id: str, after: str = "") -> Bath:
        """Finish a bath at its last stage; `after` says how the item looks now. Raises UserError."""
        bath = self._running(bath_id)
        if not bath.now.last and bath.stage + 1 < len(bath.stages):
            raise UserError(f"Still to do: {bath.stages[bath.stage + 1].words.lower()}.")
        worked = bath.worked
        if bath.now.works:
            worked = (worked or 0) + int(self._seconds(bath))
        ended = self._end(bath, "done", after=after, worked=worked)
        self._note("bath done", ended, on_item=True, replaces=bath)
        return ended

    def abandon(self, bath_id: str, words: str = "", *, never_in: bool = False) -> Bath:
        """End a bath early. Raises UserError while the liquid still works, unless it was `never_in`."""
        bath = self._running(bath_id)
        if bath.now.works and not bath.now.last and not never_in:
            raise UserError("It is still in the liquid: take it out, rinse it, and confirm that first.")
        if never_in and bath.worked is not None:
            raise UserError("It has been in the liquid already; that stays on record.")
        ended = self._end(bath, "abandoned", words=words)
        self._note("bath abandoned", ended, on_item=not never_in, replaces=bath)
        return ended

    def keep_time(self) -> None:
        """Note the seconds counted so far, now and then; a screen calls this while baths run."""
        if self._ledger.read_only:
            return
        for bath in self._ledger.baths.running():
            seconds = int(self._seconds(bath))
            every = _KEEP_WORKING if bath.now.works else _KEEP_RESTING
            if seconds - bath.counted >= every:
                now = stamp(self._ledger.clock())
                self._note("bath counted", replace(bath, counted=seconds, noted=now))

    def _running(self, bath_id: str) -> Bath:
        bath = self._ledger.baths.of(bath_id)
        if bath.status != "running":
            raise UserError(f"Bath {bath_id} is {bath.status} already.")
        return bath

    def _end(self, bath: Bath, status: str, **more: Any) -> Bath:
        now = stamp(self._ledger.clock())
        counted = int(self._seconds(bath))
        return replace(bath, status=status, ended=now, noted=now, counted=counted, **more)

    def _seconds(self, bath: Bath) -> float:
        """Seconds in the present stage; never less than was said before."""
        key = (bath.id, bath.stage)
        wall, ticks = self._ledger.clock(), self._monotonic()
        if key not in self._anchors:
            self._anchors[key], back = taken_up(bath, wall, ticks)
            if back:
                self._doubtful.add(key)
        seconds = max(
            seconds_run(self._anchors[key], wall, ticks), self._highest.get(key, 0.0), bath.counted
        )
        self._highest[key] = seconds
        return seconds

    def _countdown(self, bath: Bath) -> Countdown:
        seconds = self._seconds(bath)
        return countdown(bath, seconds, doubtful=(bath.id, bath.stage) in self._doubtful)

    def _may_begin(self, plan: BathPlan, now: datetime) -> None:
        """Rule no_second_bath: nothing wet twice on one item on one day, nor two baths at once."""
        item = self._ledger.items.of(plan.item)
        if not plan.wet:
            return
        today = now.date().isoformat()
        wet = [
            done.treatment
            for done in item.treatments
            if done.date == today and done.treatment in self._wet
        ]
        for bath in self._ledger.baths.of_item(plan.item):
            if not bath.wet:
                continue
            never_in = bath.status == "abandoned" and bath.worked is None
            if bath.status == "running" or (bath.started[:10] == today and not never_in):
                wet.append(bath.treatment)
        if wet:
            raise UserError(
                f"{plan.item} has been wet today ({wet[-1]}): "
                "let it dry a day and judge it in daylight."
            )

    def _note(
        self, verb: str, bath: Bath, *, on_item: bool = False, replaces: Bath | None = None
    ) -> None:
        changes = [put(bath)]
        item = self._ledger.items.find(bath.item) if bath.wet and on_item else None
        if item is not None and bath.worked is not None:
            old = _record(replaces) if replaces else None
            kept = tuple(done for done in item.treatments if done != old)
            item = replace(item, treatments=(*kept, _record(bath)))
            changes.append(put(item))
        self._ledger.note(verb, changes)


def _record(bath: Bath) -> TreatmentDone:
    """What stays with the item: what was done, how strong, how long, before and after, by whom."""
    return TreatmentDone(
        date=bath.started[:10],
        treatment=bath.treatment,
        product=bath.product,
        strength=bath.strength,
        seconds=bath.worked,
        before=bath.before,
        after=bath.after or bath.words,
        by=bath.by,
    )
