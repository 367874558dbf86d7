"""How far a long piece of work is, told while it goes on, and how it is stopped."""

from __future__ import annotations

from collections.abc import Callable

from counter.values.errors import UserError

Progress = Callable[[int, int], bool]
"""Called with what is done and what there is in all; False asks the work to stop."""


class Stopped(UserError):
    """The work stopped because it was asked to; nothing is left half-done."""


def go_on(done: int, total: int) -> bool:
    """Told of nothing, stops nothing."""
    return True


def mind(progress: Progress, done: int, total: int, work: str) -> None:
    """Tell how far the work is; raises Stopped when it is to stop."""
    if not progress(done, total):
        raise Stopped(f"Stopped as you asked: {work} did not happen.")
