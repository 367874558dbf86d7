"""The crash log: what failed and where in the program, and nothing that anybody typed or owns."""

from __future__ import annotations

import tempfile
import traceback
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from counter import __version__


def write_log(error: BaseException, folder: Path | None) -> Path:
    """Write where a fault came from to a file only the owner can read; returns where it is."""
    now = datetime.now()
    text = f"counter {__version__}, {now.isoformat(timespec='seconds')}\n\n{''.join(_lines(error))}"
    for place in (folder, Path(tempfile.gettempdir())):
        if place is None:
            continue
        try:
            path = place / f"crash-{now:%Y%m%d-%H%M%S}.txt"
            path.touch(mode=0o600)
            path.write_text(text, encoding="utf-8")
            return path
        except OSError:
            continue
    return Path("(no log could be written)")


def _lines(error: BaseException) -> Iterator[str]:
    """The kinds of the faults and the lines of the program, without any message or variable.

    A message may quote what was typed: "invalid literal for int(): ...".
    """
    cause = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    if cause is not None:
        yield from _lines(cause)
        yield "\nthen\n\n"
    yield from traceback.format_tb(error.__traceback__)
    yield f"{type(error).__module__}.{type(error).__name__}\n"
