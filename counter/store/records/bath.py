"""A bath: a timed treatment begun, counted stage by stage, and what came of it."""

from __future__ import annotations

from typing import Annotated

from counter.values.record import Count, Moment, Name, OptionalName, Record, Words, one_of


class BathStage(Record, frozen=True):
    """One timed stage, kept with the bath so that it can be taken up again as it was planned.

    A stage that `works` goes on working when its time is up, until it is confirmed to be over.
    """

    words: Words
    seconds: Count
    works: bool = False
    last: bool = False
    look_every: Count | None = None


class Bath(Record, frozen=True):
    """A timed treatment. Times are ISO with their offset; seconds are whole; strength is as written.

    `stage` is the place in `stages`; `counted` are the seconds counted in it when `noted` was the
    time; `worked` are the seconds the working stage lasted, once it is over.
    """

    id: Name
    item: OptionalName
    treatment: Name
    started: Moment
    name: Words = ""
    of: Words = ""
    seconds: Count | None = None
    product: Words = ""
    strength: Words = ""
    by: Words = ""
    before: Words = ""
    wet: bool = True
    ticked: tuple[Words, ...] = ()
    stages: tuple[BathStage, ...] = ()
    stage: Count = 0
    counted: Count = 0
    noted: Moment = ""
    worked: Count | None = None
    status: Annotated[str, one_of("running", "done", "abandoned")] = "running"
    ended: Moment = ""
    after: Words = ""
    words: Words = ""

    @property
    def now(self) -> BathStage:
        """The stage it is in."""
        return self.stages[self.stage]

    @property
    def running(self) -> bool:
        """Whether its time runs."""
        return bool(self.stages) and self.status == "running"
