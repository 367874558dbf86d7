"""A bath: a timed treatment begun, counted stage by stage, and what came of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from counter.store.records import rules
from counter.store.records.shape import Shape, many, ruled


@dataclass(frozen=True, slots=True)
class BathStage:
    """One timed stage, kept with the bath so that it can be taken up again as it was planned.

    A stage that `works` goes on working when its time is up, until it is confirmed to be over.
    """

    words: str = ruled(rules.words)
    seconds: int = ruled(rules.count)
    works: bool = ruled(rules.flag, False)
    last: bool = ruled(rules.flag, False)
    look_every: int | None = ruled(rules.or_none(rules.count), None)


@dataclass(frozen=True, slots=True)
class Bath:
    """A timed treatment. Times are ISO with their offset; seconds are whole; strength is as written.

    `stage` is the place in `stages`; `counted` are the seconds counted in it when `noted` was the
    time; `worked` are the seconds the working stage lasted, once it is over.
    """

    id: str = ruled(rules.name)
    item: str = ruled(rules.optional_name)
    treatment: str = ruled(rules.name)
    started: str = ruled(rules.moment)
    name: str = ruled(rules.words, "")
    of: str = ruled(rules.words, "")
    seconds: int | None = ruled(rules.or_none(rules.count), None)
    product: str = ruled(rules.words, "")
    strength: str = ruled(rules.words, "")
    by: str = ruled(rules.words, "")
    before: str = ruled(rules.words, "")
    wet: bool = ruled(rules.flag, True)
    ticked: tuple[str, ...] = ruled(rules.each(rules.words), ())
    stages: tuple[BathStage, ...] = many(BathStage)
    stage: int = ruled(rules.count, 0)
    counted: int = ruled(rules.count, 0)
    noted: str = ruled(rules.moment, "")
    worked: int | None = ruled(rules.or_none(rules.count), None)
    status: str = ruled(rules.one_of("running", "done", "abandoned"), "running")
    ended: str = ruled(rules.moment, "")
    after: str = ruled(rules.words, "")
    words: str = ruled(rules.words, "")

    @property
    def now(self) -> BathStage:
        """The stage it is in."""
        return self.stages[self.stage]


BATH: Shape[Bath] = Shape(Bath, "bath")


def is_running(row: Mapping[str, Any]) -> bool:
    """Whether a bath's row is of one that runs (a row leaves out what stands at its default)."""
    return bool(row.get("stages")) and row.get("status", "running") == "running"
