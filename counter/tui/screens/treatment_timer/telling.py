"""How a running bath is told: what it is, how long still, what to do now."""

from __future__ import annotations

from counter.trade.treatment_clock import Countdown, clock_words
from counter.tui.widgets.text import Line

#: In its last seconds a stage is told in the colour of care.
CLOSE = 10
_HOUR = 3600


def what(now: Countdown) -> str:
    """The piece: its stock number, or the words it was treated under."""
    return now.bath.item or now.bath.of or now.bath.name


def is_resting(now: Countdown) -> bool:
    """Whether it only dries or lies under a weight: nothing works and its time is not up."""
    return now.stage.last and not now.stage.works and now.state == "running"


def left_words(now: Countdown) -> str:
    """The time in a few words; of more than an hour only the minutes, so that nothing flickers."""
    if now.state == "danger":
        return f"OVER by {clock_words(now.overdue)}"
    if now.state == "over":
        return f"time up {clock_words(now.overdue)} ago" if now.overdue < _HOUR else "time up"
    if now.remaining >= _HOUR:
        hours, rest = divmod(now.remaining, _HOUR)
        return f"{hours} h {rest // 60:02} min left"
    return f"{clock_words(now.remaining)} left"


def length_words(seconds: int) -> str:
    """How long a stage is: 0:20, 2:00, 24 h."""
    hours = seconds // _HOUR
    return f"{hours} h" if hours and not seconds % _HOUR else clock_words(seconds)


def ink_of(now: Countdown) -> str:
    """The ink of its figures; the words say it too."""
    if now.state == "danger":
        return "bad"
    near = now.remaining <= CLOSE and now.stage.works
    return "care" if now.state == "over" or near else "strong"


def order_words(now: Countdown, beat: bool) -> str:
    """What to do, in words; when time is up they change with every beat, so that they are seen."""
    if now.state == "danger":
        first = f"TAKE IT OUT AND RINSE NOW: over by {clock_words(now.overdue)}"
        second = f"STILL WORKING, RINSE NOW: over by {clock_words(now.overdue)}"
        return first if beat else second
    if now.state == "over":
        if now.stage.last:
            return "TIME IS UP" if beat else "TIME IS UP. Enter ends it"
        return "TIME IS UP: go on to the next" if beat else "TIME IS UP. Enter goes on"
    if now.look_in is not None and now.stage.works:
        return f"look at it in {now.look_in} s"
    return "nothing to do but wait"


def bar_line(running: tuple[Countdown, ...], beat: bool) -> tuple[Line, Line]:
    """The most pressing bath in one line: what it is (may be cut) and how it stands (never)."""
    now = running[0]
    more = f" +{len(running) - 1} more" if len(running) > 1 else ""
    stage = f"{now.stage.words}: "
    ink = ink_of(now)
    if now.state == "danger":
        sign = " ✗ " if beat else " ! "
        words = ", rinse now" if beat else ", RINSE NOW"
        right: Line = [(f" {left_words(now)}{words}", "bad"), (more, "bad"), (" Ctrl+R ", "accent")]
        return [(sign, "bad"), (f"bath {what(now)} ", "bad"), (stage, "bad")], right
    right = [(f" {left_words(now)}", ink), (more, "dim"), (" Ctrl+R ", "accent")]
    return [(" bath ", "accent"), (f"{what(now)} ", "strong"), (stage, "dim")], right
