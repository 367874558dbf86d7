"""What a newer program wrote: fields are kept, entries and journals of a newer form are only read."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from counter.reference.money import read_money_facts
from counter.store.entry import Change, Entry, entry_to_data, line_to_entry, seal
from counter.store.journal import HEAD
from counter.store.ledger import Ledger
from counter.store.merge import merge
from counter.store.records.check import put
from counter.store.verify import verify
from counter.trade.people import complete_person
from counter.trade.personal_data import erase_person
from counter.trade.settings import Settings
from counter.values.errors import UserError
from counter.values.item import Fault, Item
from counter.values.record import read_record, write_row


def now() -> datetime:
    return datetime(2026, 5, 1, 12)


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    opened = Ledger.open(tmp_path / "own", clock=now, laptop="WK")
    yield opened
    opened.close()


def entry(seq: int, *changes: Change, **more: Any) -> bytes:
    made = Entry(f"WK.{seq}.x", "WK", seq, "2026-05-01T10:00:00", "noted", changes)
    return seal(entry_to_data(made) | more)


NEWER = {
    "number": "WK-1",
    "faults": [{"term": "thin", "where": "", "depth_mm": 0.1}],
    "asking": 4500,
    "scan": {"dpi": 600},
}


def test_a_field_of_a_newer_program_is_kept_through_a_rewrite(ledger: Ledger) -> None:
    ledger.note("by a newer one", [Change("items", "WK-1", NEWER)])
    item = ledger.items.of("WK-1")
    assert item.asking == 4500 and item.faults[0].term == "thin"
    changed = replace(item, asking=5000, faults=(*item.faults, Fault("crease")))
    ledger.note("by this one", [put(changed)])
    assert ledger.row("items", "WK-1") == {
        "number": "WK-1",
        "faults": [{"term": "thin", "where": "", "depth_mm": 0.1}, {"term": "crease", "where": ""}],
        "asking": 5000,
        "scan": {"dpi": 600},
    }
    assert verify(ledger.folder).sound


def test_two_rows_that_differ_in_a_newer_field_are_not_the_same() -> None:
    plain = read_record(Item, {"number": "WK-1"})
    assert read_record(Item, {"number": "WK-1", "scan": 1}) != plain == Item("WK-1")
    assert write_row(plain) == {"number": "WK-1"}


def test_erasing_a_person_takes_a_newer_field_too(ledger: Ledger) -> None:
    row = {"id": "WK-N1", "name": "Ada Pennington", "handle": "@ada"}
    bought = {
        "id": "WK-P1",
        "date": "2001-05-01",
        "total_pence": 5,
        "seller": "WK-N1",
        "voice": "ada.ogg",
    }
    ledger.note("noted", [Change("people", "WK-N1", row), Change("purchases", "WK-P1", bought)])
    complete_person(ledger, "WK-N1", phone="01")
    done = erase_person(Settings(ledger, read_money_facts()), "WK-N1", "2026-05-01")
    assert {"handle", "name", "phone"} <= set(done.gone)
    left = (ledger.folder / "journal").read_bytes()
    assert b"@ada" not in left and b"Pennington" not in left and b"ada.ogg" not in left


def test_an_entry_keeps_what_a_newer_program_says_besides(tmp_path: Path, ledger: Ledger) -> None:
    theirs = tmp_path / "theirs"
    theirs.mkdir()
    line = entry(1, Change("items", "VB-1", {"number": "VB-1"}), mood="bright")
    (theirs / "journal").write_bytes(HEAD + line.replace(b"WK", b"WK"))
    merge(ledger, theirs)
    found = line_to_entry(line)
    assert found is not None and found.later == {"mood": "bright"}
    assert line in (ledger.folder / "journal").read_bytes()


@pytest.mark.parametrize(
    ("head", "more"),
    [
        (seal({"journal": 2}), {}),
        (seal({"journal": 10, "form": "b"}), {}),
        (HEAD, {"kind": "photograph"}),
    ],
)
def test_a_newer_form_is_only_read(head: bytes, more: dict[str, str], tmp_path: Path) -> None:
    folder = tmp_path / "own"
    folder.mkdir()
    first, second = (
        entry(n, Change("items", f"WK-{n}", {"number": f"WK-{n}"}), **(more if n == 2 else {}))
        for n in (1, 2)
    )
    raw = head + first + second + b"an entry that was never finished"
    if head != HEAD:
        (folder / "journal").write_bytes(raw)
    else:
        (folder / "journal").write_bytes(raw := head + first + second)
    ledger = Ledger.open(folder, clock=now)
    assert ledger.read_only and "newer counter" in ledger.why_read_only
    assert ledger.items.holds("WK-1") and ledger.items.holds("WK-2") == (not more)
    with pytest.raises(UserError, match=r"newer counter.*Nothing was noted"):
        ledger.note("noted", [Change("items", "WK-9", {"number": "WK-9"})])
    ledger.close()
    assert (folder / "journal").read_bytes() == raw
    assert any("newer counter" in each.words for each in verify(folder).findings)
    other = Ledger.open(tmp_path / "other", clock=now, laptop="VB")
    with pytest.raises(UserError, match="newer counter"):
        merge(other, folder)
    assert not other.rows("items")
    other.close()


def test_a_value_out_of_its_limits_does_not_hide_the_row(tmp_path: Path) -> None:
    """A newer program may know a state that this one does not: the piece is still there to be seen."""
    folder = tmp_path / "own"
    folder.mkdir()
    row = {"number": "WK-1", "status": "lent", "faults": [{"term": "thin"}]}
    (folder / "journal").write_bytes(HEAD + entry(1, Change("items", "WK-1", row)))
    ledger = Ledger.open(folder, clock=now)
    item = ledger.items.of("WK-1")
    assert (item.status, item.faults) == ("lent", (Fault("thin"),))
    ledger.close()
    assert any("status must be one of" in each.words for each in verify(folder).findings)
