"""Open the desk over your own data folder, or over a throw-away copy of the demo."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from time import monotonic

from counter.describe.names import issue_names
from counter.desk.data_dir import local_time, own_folder
from counter.desk.desk import Desk
from counter.reference.library import Library
from counter.store.ledger import Ledger

Clock = Callable[[], datetime]
Ticks = Callable[[], float]


def open_desk(
    folder: Path | None,
    *,
    demo: bool = False,
    library: Library,
    clock: Clock = local_time,
    ticks: Ticks = monotonic,
) -> Desk:
    """The desk over `folder` (None: your own place), or over a fresh demo. Raises UserError."""
    if demo:
        return _open_demo(library, clock, ticks)
    ledger = Ledger.open(folder or own_folder(), clock=clock)
    return Desk(library, ledger, issue_names(library.stamps), clock=clock, ticks=ticks)


def _open_demo(library: Library, clock: Clock, ticks: Ticks) -> Desk:
    from seed_demo.plant import plant

    folder = Path(tempfile.mkdtemp(prefix="counter-demo-"))
    try:
        plant(folder)
        ledger = Ledger.open(folder, clock=clock)
    except BaseException:
        shutil.rmtree(folder, ignore_errors=True)
        raise
    return Desk(
        library,
        ledger,
        issue_names(library.stamps),
        clock=clock,
        ticks=ticks,
        demo=True,
        farewell=lambda: shutil.rmtree(folder, ignore_errors=True),
    )
