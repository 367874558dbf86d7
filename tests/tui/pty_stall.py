"""The counter on a real pseudo-terminal over the demo; at the end it says what came of the keys.

python -m tests.tui.pty_stall RESULT.json
"""

from __future__ import annotations

import json
import sys
from datetime import datetime
from pathlib import Path

from counter.desk.opening import open_desk
from counter.reference.library import Library
from counter.tui import app
from counter.tui.app import CounterApp
from counter.tui.textual_private import mend_driver

NOW = datetime.fromisoformat("2026-05-02T10:00:00+01:00")


class Told(CounterApp):
    """The app, which writes down the quote, the line and the last entries before it closes."""

    CSS_PATH = str(Path(app.__file__).with_name("app.tcss"))

    def exit(self, *args: object, **words: object) -> None:
        desk = self.desk
        if desk is None:
            super().exit(*args, **words)  # type: ignore[arg-type]
            return
        purchases = desk.ledger.rows("purchases")
        result = {
            "quote": [(line.number, line.price) for line in self.board.quote.lines],
            "total": self.board.quote.total,
            "line": self.board.text,
            "sale": dict(self.board.sale),
            "purchases": len(purchases),
            "last": {key: purchases[-1].get(key) for key in ("total_pence", "words")},
        }
        Path(sys.argv[1]).write_text(json.dumps(result), encoding="utf-8")
        super().exit(*args, **words)  # type: ignore[arg-type]


if __name__ == "__main__":
    mend_driver()
    Told(lambda: open_desk(None, demo=True, library=Library(), clock=lambda: NOW)).run()
