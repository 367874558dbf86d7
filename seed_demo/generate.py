"""Write the demo's tables again: `python -m seed_demo.generate [SEED]`. The same seed, the same files.

kinds.toml says what is stocked and sold, specials.toml holds pieces written out by hand; everything
else (people, towns, prices, days) is invented here.
"""

from __future__ import annotations

import json
import sys
import tomllib
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

from msgspec.structs import replace

from counter.judge.price.schedule import Schedule
from counter.reference.library import Library
from counter.values.item import Item
from counter.values.record import write_row
from seed_demo.people import people
from seed_demo.pieces import Kind, from_table, piece
from seed_demo.prices import TEARS, asking
from seed_demo.trade import FIRST_DAY, LAPTOP, Piece, fair_days, on_approval, purchases, quotes, sales

HERE = Path(__file__).parent
SEED = 1840
_PEOPLE = 28
#: Nobody trades so: the number of nothing but noughts cannot be given out.
_BUSINESS = {
    "id": "business",
    "name": "Thimblegate Stamps (an invented dealer)",
    "address": "1 Nowhere Steps, Tarrowby",
    "vat_number": "GB 000 0000 00",
    "registered_from": "2019-04-01",
    "terms": "Returnable within 14 days if not as described.",
}
_BOXES = {
    "penny_black": ("black album p. {}", 20),
    "penny_red_four": ("plates box {}", 225),
    "penny_red": ("red stockbook {}", 9),
    "two_pence": ("blue album p. {}", 14),
    "qv_": ("Victoria box {}", 8),
    "g5_sea": ("safe, folder {}", 4),
}


def generate(seed: int = SEED) -> dict[str, list[dict[str, Any]]]:
    """The rows of every table of the demo, by table name."""
    rng = Random(seed)
    library = Library()
    schedule = Schedule(library.money.schedule, TEARS)
    pieces = _by_hand()
    for row in tomllib.loads((HERE / "kinds.toml").read_text(encoding="utf-8"))["kind"]:
        kind = Kind(**row)
        for count in range(kind.stock + kind.sold):
            item = piece(rng, library.stamps, kind)
            price = asking(rng, item, kind.price, schedule)
            pieces.append(_dated(rng, replace(item, asking=price), count >= kind.stock))
    folk = people(rng, LAPTOP, _PEOPLE, FIRST_DAY.isoformat())
    rng.shuffle(pieces)  # so that a lot is a mixed lot
    bought = purchases(rng, pieces, folk)
    _shelve(rng, pieces)
    sold = sales(rng, pieces, folk)
    offered = on_approval(pieces, folk, len(sold))
    for each in pieces:
        if each.sold:
            each.item = replace(each.item, status="sold")
    items = sorted((each.item for each in pieces), key=lambda item: int(item.number.split("-")[1]))
    rows = [write_row(item) for item in items]
    return {
        "people": folk,
        "purchases": bought,
        "items": rows,
        "sales": sold + offered,
        "quotes": quotes(pieces, folk),
        "settings": [_BUSINESS],
    }


def _by_hand() -> list[Piece]:
    rows = tomllib.loads((HERE / "specials.toml").read_text(encoding="utf-8"))["item"]
    days = fair_days()[-12:]
    return [
        Piece(
            replace(from_table(row), asking=row["ask"] * 100),
            days[number % len(days)],
            cost=row["cost"] * 100,
        )
        for number, row in enumerate(rows)
    ]


def _dated(rng: Random, item: Item, sold: bool) -> Piece:
    """Bought on a fair day; a sold piece is sold at a later one."""
    days = fair_days()
    if not sold:
        return Piece(item, rng.choice(days[4:]))
    first = rng.randrange(len(days) - 3)
    later: date = rng.choice(days[first + 1 :]) + timedelta(days=rng.choice((0, 0, 3)))
    return Piece(item, days[first], later)


def _shelve(rng: Random, pieces: list[Piece]) -> None:
    """Say where each piece is kept, and set a few aside."""
    for each in pieces:
        item = each.item
        if not item.kept:
            box, last = next(
                (box for start, box in _BOXES.items() if item.issue.startswith(start)), ("box {}", 12)
            )
            item = replace(item, kept=box.format(item.plate or rng.randint(1, last)))
        if item.attachment and "cover" not in item.kept and "safe" not in item.kept:
            item = replace(item, kept=f"cover box {rng.choice('ABCD')} {rng.randint(1, 9)}")
        if not each.sold and each.cost is None and rng.random() < 0.02:
            item = replace(item, status="reserved")
        each.item = item


def write(tables: dict[str, list[dict[str, Any]]], folder: Path = HERE) -> None:
    """One file a table, one row a line."""
    for name, rows in tables.items():
        lines = (json.dumps(row, ensure_ascii=False, separators=(", ", ": ")) for row in rows)
        (folder / f"{name}.jsonl").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write(generate(int(sys.argv[1]) if len(sys.argv) > 1 else SEED))
