"""Where the whole lines of a journal end, whatever a crash left behind them.

Behind the last line may stand room (newlines), a torn line, or both. A line torn over room has lost its
first page or its last, never its middle alone: it is a page long at most.
A last line that is damaged, but neither cut short nor before room, was closed over: verify tells it.
"""

from __future__ import annotations

from collections.abc import Callable

from counter.store.entry import unseal

Read = Callable[[int, int], bytes]
"""The bytes of the file from a first to before a last."""

_BLOCK = 1 << 20  # bytes read at once


def end_of_lines(read: Read, length: int) -> int:
    """The byte after the newline of the last whole line of a file of `length` bytes; 0 for none."""
    end = _before_newlines(read, length)
    start = _line_start(read, end)
    cut_short, over_room = end == length, end + 1 < length
    if cut_short or (over_room and unseal(read(start, end)) is None):
        end = _before_newlines(read, start)
    return end + 1 if end else 0


def _before_newlines(read: Read, end: int) -> int:
    """The byte after the last one before `end` that is no newline."""
    while end > 0:
        start = max(0, end - _BLOCK)
        kept = read(start, end).rstrip(b"\n")
        if kept:
            return start + len(kept)
        end = start
    return 0


def _line_start(read: Read, end: int) -> int:
    """The byte after the last newline before `end`."""
    while end > 0:
        start = max(0, end - _BLOCK)
        found = read(start, end).rfind(b"\n")
        if found >= 0:
            return start + found + 1
        end = start
    return 0
