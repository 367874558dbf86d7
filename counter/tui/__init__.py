"""The screens; `make_app` is for whatever drives them without a terminal."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counter.tui.app import CounterApp


def make_app() -> CounterApp:
    """The app over the data of COUNTER_DATA; without that over a fresh demo."""
    from counter.desk.opening import open_desk
    from counter.reference.library import Library
    from counter.tui.app import CounterApp

    named = os.environ.get("COUNTER_DATA")
    folder = Path(named) if named else None
    return CounterApp(lambda: open_desk(folder, demo=folder is None, library=Library()))
