"""Plant the demo's tables in a new data folder, through the real ledger."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from counter.store.entry import Change
from counter.store.ledger import Ledger

HERE = Path(__file__).parent
LAPTOP = "WK"
_PLANTED = datetime(2026, 4, 26, 9, 0, tzinfo=UTC)  # the day after the demo's last fair


def plant(folder: Path) -> None:
    """Make a ledger in `folder` from the demo's tables. Raises UserError when it cannot be written."""
    ledger = Ledger.open(folder, clock=lambda: _PLANTED, laptop=LAPTOP)
    try:
        ledger.note_many(_notes())
    finally:
        ledger.close()


def rows(table: str) -> list[dict[str, Any]]:
    """The rows of one of the demo's tables: people, purchases, items, sales, quotes, settings."""
    with (HERE / f"{table}.jsonl").open(encoding="utf-8") as lines:
        return [json.loads(line) for line in lines]


def _notes() -> Iterator[tuple[str, list[Change]]]:
    """An entry for the business, the people, each lot bought with its pieces, each sale or quote."""
    items = {row["number"]: row for row in rows("items")}
    yield "business noted", [Change("settings", row["id"], row) for row in rows("settings")]
    yield "people noted", [Change("people", row["id"], row) for row in rows("people")]
    for row in rows("purchases"):
        pieces = [Change("items", number, _as_bought(items[number])) for number in row["items"]]
        yield "purchase noted", [Change("purchases", row["id"], row), *pieces]
    for row in rows("sales"):
        gone = [Change("items", line["item"], items[line["item"]]) for line in row["lines"]]
        yield "sale noted", [Change("sales", row["id"], row), *gone]
    for row in rows("quotes"):
        yield "quote noted", [Change("quotes", row["id"], row)]


def _as_bought(row: dict[str, Any]) -> dict[str, Any]:
    """A piece as it was when it came in: not yet sold or out on approval."""
    if row.get("status") in ("sold", "on approval"):
        return {field: value for field, value in row.items() if field != "status"}
    return row
