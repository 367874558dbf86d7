"""How long a bath has run: monotonic while the counter is open, by the wall clock across restarts.

Whichever clock has gone further counts, and what was counted once is never taken back: a clock set
back, or a laptop that slept, cannot make a bath look shorter than it was.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from counter.store.records.bath import Bath, BathStage

State = Literal["running", "over", "danger"]
_SLACK = 2.0  # seconds a clock may go back by being set right, before it is worth a word


@dataclass(frozen=True, slots=True)
class Anchor:
    """A moment at which both clocks and the seconds counted were known together."""

    counted: float
    wall: datetime
    monotonic: float


@dataclass(frozen=True, slots=True)
class Countdown:
    """What a screen shows of a running bath. Seconds are whole.

    `state`: running; over (time is up, the next stage waits); danger (time is up and the liquid is
    still working: rinse now). `doubtful`: the clock was set back while the counter was closed, so
    `elapsed` is only the least it can be.
    """

    bath: Bath
    stage: BathStage
    elapsed: int
    remaining: int
    overdue: int
    state: State
    look_in: int | None = None
    doubtful: bool = False

    @property
    def progress(self) -> float:
        """From 0 to 1."""
        return min(1.0, self.elapsed / self.stage.seconds) if self.stage.seconds else 1.0

    @property
    def words(self) -> str:
        """One line that says what to do."""
        clock = clock_words(self.overdue if self.state != "running" else self.remaining)
        if self.state == "danger":
            doubt = "; the clock was set back, so it is longer than that" if self.doubtful else ""
            return f"Out and rinse now: {clock} over{doubt}"
        if self.state == "over":
            return f"{self.stage.words}: time is up, {clock} ago"
        return f"{self.stage.words}: {clock}"


def moment(text: str) -> datetime:
    """A noted time; one without an offset is local."""
    when = datetime.fromisoformat(text)
    return when if when.tzinfo else when.astimezone()


def stamp(when: datetime) -> str:
    """A time as it is noted: to the millisecond, with its offset."""
    aware = when if when.tzinfo else when.astimezone()
    return aware.isoformat(timespec="milliseconds")


def taken_up(bath: Bath, wall: datetime, monotonic: float) -> tuple[Anchor, bool]:
    """The anchor of a bath found in the journal, and whether the clock was set back meanwhile."""
    wall = wall if wall.tzinfo else wall.astimezone()
    gap = (wall - moment(bath.noted or bath.started)).total_seconds()
    return Anchor(bath.counted + max(0.0, gap), wall, monotonic), gap < -_SLACK


def seconds_run(anchor: Anchor, wall: datetime, monotonic: float) -> float:
    """Seconds since the stage began, by the clock that has gone further since the anchor."""
    wall = wall if wall.tzinfo else wall.astimezone()
    by_wall = (wall - anchor.wall).total_seconds()
    return anchor.counted + max(0.0, by_wall, monotonic - anchor.monotonic)


def countdown(bath: Bath, seconds: float, *, doubtful: bool = False) -> Countdown:
    """The countdown of a bath whose stage has run so long. Time in doubt counts as up."""
    stage = bath.now
    elapsed = int(seconds)
    up = elapsed >= stage.seconds or (doubtful and stage.works)
    look = stage.look_every
    return Countdown(
        bath=bath,
        stage=stage,
        elapsed=elapsed,
        remaining=0 if up else stage.seconds - elapsed,
        overdue=max(0, elapsed - stage.seconds) if up else 0,
        state=("danger" if stage.works and not stage.last else "over") if up else "running",
        look_in=None if up or not look else look - elapsed % look,
        doubtful=doubtful,
    )


def clock_words(seconds: int) -> str:
    """Seconds as a clock: 0:30, 12:05, 2:00:00."""
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"
