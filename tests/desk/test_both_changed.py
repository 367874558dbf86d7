"""A piece sold on two laptops is said to be sold twice, until one of the sales has come back."""

from datetime import datetime
from pathlib import Path

from counter.desk.data.merge_conflicts import open_conflicts
from counter.store.backup import backup, restore
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.merge import merge

NOW = datetime.fromisoformat("2026-05-02T10:00:00+01:00")


def opened(folder: Path) -> Ledger:
    return Ledger.open(folder, clock=lambda: NOW)


def sold(folder: Path, pence: int, refund_of: str = "") -> str:
    ledger = opened(folder)
    number = ledger.next_number("sales")
    sale = {
        "id": number,
        "date": "2026-05-02",
        "lines": [{"item": "A1", "price_pence": pence + 500, "discount_pence": 500}],
        "discount_pence": 500,
        "total_pence": pence,
        **({"refund_of": refund_of} if refund_of else {}),
    }
    piece = {**(ledger.row("items", "A1") or {}), "status": "in stock" if refund_of else "sold"}
    ledger.note("sold", [Change("sales", number, sale), Change("items", "A1", piece)])
    ledger.close()
    return number


def test_a_piece_sold_on_both_is_told_with_its_sales(tmp_path: Path) -> None:
    mine, other = tmp_path / "mine", tmp_path / "other"
    ledger = opened(mine)
    ledger.note("stock noted", [Change("items", "A1", {"number": "A1", "asking": 21000})])
    ledger.close()
    backup(mine, tmp_path / "b.zip", now=NOW)
    restore(tmp_path / "b.zip", other, now=NOW)
    here, there = sold(mine, 21000), sold(other, 18000)

    ledger = opened(mine)
    merge(ledger, other)
    (both,) = open_conflicts(ledger)
    assert both.sold == (f"{here} of 2 May 2026, £210.00", f"{there} of 2 May 2026, £180.00")
    ledger.close()

    sold(mine, 18000, refund_of=there)
    ledger = opened(mine)
    (both,) = open_conflicts(ledger)
    assert both.sold == ()
    ledger.close()
