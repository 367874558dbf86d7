"""Open the app on a real terminal, or say in one sentence why not."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

from counter.values.errors import UserError

if TYPE_CHECKING:
    from counter.desk.desk import Desk


def start(opener: Callable[[], Desk]) -> int:
    """Run the app over the desk that `opener` opens, until it is left; returns the exit code."""
    if not sys.stdout.isatty() or os.environ.get("TERM") == "dumb":
        raise UserError(
            "The counter needs a terminal to draw on; for plain answers try: counter --help."
        )
    os.environ.setdefault("TEXTUAL_ANIMATIONS", "none")
    os.environ.setdefault("ESCDELAY", "40")  # ms: quicker than a hand, slower than a key's sequence
    gc.disable()  # until the stock is read (app.py): reading makes little garbage
    gc.set_threshold(10_000)  # and seldom afterwards: most of what the screens make dies by itself
    from counter.tui.app import CounterApp
    from counter.tui.textual_private import mend_driver

    mend_driver()

    def open_for_good() -> Desk:
        desk = opener()
        gc.freeze()  # the rows live as long as the program: no later collection need walk them
        return desk

    app = CounterApp(open_for_good, theme=os.environ.get("COUNTER_THEME", ""))
    try:
        app.run()
    finally:
        if app.desk is not None:
            app.desk.close()
    return app.return_code or 0
