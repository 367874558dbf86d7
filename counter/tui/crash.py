"""The crash log: what failed and where in the program, without the values of any variable."""

from __future__ import annotations

import tempfile
import traceback
from datetime import datetime
from pathlib import Path

from counter import __version__


def write_log(error: BaseException, folder: Path | None) -> Path:
    """Write the trace of a fault to a file only the owner can read; returns where it is."""
    lines = traceback.format_exception(error)
    stamp = datetime.now().strftime("%Y%m%d-%H%M%S")
    text = f"counter {__version__}, {datetime.now().isoformat(timespec='seconds')}\n\n{''.join(lines)}"
    for place in (folder, Path(tempfile.gettempdir())):
        if place is None:
            continue
        try:
            path = place / f"crash-{stamp}.txt"
            path.touch(mode=0o600)
            path.write_text(text, encoding="utf-8")
            return path
        except OSError:
            continue
    return Path("(no log could be written)")
