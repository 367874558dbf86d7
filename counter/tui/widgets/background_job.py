"""Work beside the screen: done in a thread, its end told on the screen's own, stale ends left out."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from textual.dom import DOMNode
from textual.worker import get_current_worker

from counter.tui.crash import write_log
from counter.values.errors import UserError

Result = TypeVar("Result")


def in_background(
    node: DOMNode,
    name: str,
    work: Callable[[], Result],
    *,
    then: Callable[[Result], None],
    failed: Callable[[str], None],
    still: Callable[[], bool] = lambda: True,
) -> None:
    """Do `work` in a thread, then `then(result)`, or `failed(sentence)` when it raised.

    A later job of the same name and node puts an earlier one aside, whose end is told to nobody; nor
    is the end of one that is wanted no more (`still`). A UserError fails with its own sentence, a
    fault of the program's own with the place of its log.
    """

    def end(hear: Callable[[], None]) -> None:
        if still():
            hear()

    def run() -> None:
        worker = get_current_worker()
        try:
            result = work()
        except UserError as trouble:
            sentence = str(trouble)
        except Exception as fault:  # told and logged: a fault of ours must not take the stall down
            sentence = f"It stopped on a fault of the counter's own; see {write_log(fault, None)}."
        else:
            if not worker.is_cancelled:
                node.call_later(end, lambda: then(result))
            return
        if not worker.is_cancelled:
            node.call_later(end, lambda: failed(sentence))

    node.run_worker(run, thread=True, name=name, group=name, exclusive=True, exit_on_error=False)
