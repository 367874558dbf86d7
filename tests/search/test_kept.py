"""The index kept in a file: taken up again, brought up to date, passed over when unfit."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from counter.describe.names import IssueName, Names
from counter.search import index_file
from counter.search.index import StockIndex
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.values.item import Item
from counter.values.record import write_row

PIECES = [
    Item(f"WK-{n}", "penny_black_1840", letters=("KC",), plate=str(n), asking=n * 100)
    for n in range(1, 10)
]


@pytest.fixture(autouse=True)
def small_stock_is_worth_keeping(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(index_file, "_WORTH_KEEPING", 1)


@pytest.fixture
def ledger(tmp_path: Path) -> Ledger:
    made = Ledger.open(tmp_path, clock=lambda: datetime(2026, 3, 1, 9, tzinfo=UTC), laptop="WK")
    note(
        made,
        *(Item(f"WK-{n}", "penny_black_1840", letters=("KC",), plate=str(n)) for n in range(1, 10)),
    )
    return made


def note(ledger: Ledger, *items: Item) -> None:
    ledger.note("stock noted", [Change("items", item.number, write_row(item)) for item in items])


def filled(ledger: Ledger, names: Names) -> StockIndex:
    index = StockIndex(names)
    for _ in index_file.fill(index, ledger):
        pass
    return index


def kept_now(ledger: Ledger, names: Names) -> Path:
    assert index_file.keep(filled(ledger, names), ledger)
    return ledger.folder / index_file.NAME


def came_from_the_file(ledger: Ledger, names: Names) -> bool:
    index = filled(ledger, names)
    assert len(index) == len(ledger.rows("items"))
    return index.changes < index_file._WORTH_RENEWING


def test_a_kept_index_answers_as_one_built_from_the_rows(ledger: Ledger, names: Names) -> None:
    kept_now(ledger, names)
    index, anew = filled(ledger, names), StockIndex(names)
    for _ in anew.put_many(
        Item(f"WK-{n}", "penny_black_1840", letters=("KC",), plate=str(n)) for n in range(1, 10)
    ):
        pass
    for text in ("1d blk kc pl 4", "wk-", "victoria", "blakc", "sold", "under 5"):
        assert index.find(text) == anew.find(text)
    assert came_from_the_file(ledger, names)


def test_what_was_noted_since_is_taken_in_from_the_journal(ledger: Ledger, names: Names) -> None:
    kept_now(ledger, names)
    note(ledger, Item("WK-3", "two_pence_1841_white_lines"), Item("WK-77", "penny_red_four_letters"))
    ledger.note("taken out", [Change("items", "WK-4", None)])
    index = filled(ledger, names)
    assert index.line("WK-3").startswith("2d blue")
    assert "WK-77" in index
    assert "WK-4" not in index
    assert [hit.number for hit in index.find("pl 3 ")] == []


def test_it_is_readable_by_the_owner_alone(ledger: Ledger, names: Names) -> None:
    assert kept_now(ledger, names).stat().st_mode & 0o077 == 0


def test_a_damaged_file_is_passed_over_at_every_byte(ledger: Ledger, names: Names) -> None:
    path = kept_now(ledger, names)
    whole = path.read_bytes()
    for at in range(0, len(whole), max(1, len(whole) // 60)):
        path.write_bytes(whole[:at] + bytes((whole[at] ^ 0x55,)) + whole[at + 1 :])
        assert not came_from_the_file(ledger, names)
        path.write_bytes(whole[:at])
        assert not came_from_the_file(ledger, names)


def test_a_file_of_another_journal_or_reference_is_passed_over(
    ledger: Ledger, names: Names, tmp_path: Path
) -> None:
    path = kept_now(ledger, names)
    other = {**names, "penny_black_1840": IssueName("1d", "black", "first issue")}
    assert not came_from_the_file(ledger, other)
    assert filled(ledger, other).line("WK-1").startswith("1d black first issue")
    elsewhere = Ledger.open(
        tmp_path / "other", clock=lambda: datetime(2026, 3, 2, tzinfo=UTC), laptop="VB"
    )
    note(elsewhere, *(Item(f"VB-{n}", "penny_black_1840") for n in range(60)))
    (elsewhere.folder / index_file.NAME).write_bytes(path.read_bytes())
    assert not came_from_the_file(elsewhere, names)


def test_a_small_stock_a_half_filled_index_or_a_reading_window_writes_nothing(
    ledger: Ledger, names: Names, monkeypatch: pytest.MonkeyPatch
) -> None:
    index = filled(ledger, names)
    monkeypatch.setattr(index_file, "_WORTH_KEEPING", 1000)
    assert not index_file.keep(index, ledger)
    monkeypatch.setattr(index_file, "_WORTH_KEEPING", 1)
    half = StockIndex(names)
    next(index_file.fill(half, ledger, chunk=2))
    assert not index_file.keep(half, ledger)
    ledger.read_only = True
    assert not index_file.keep(index, ledger)
    assert not (ledger.folder / index_file.NAME).exists()


def test_a_full_disk_costs_only_quickness(
    ledger: Ledger, names: Names, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(index_file, "write_beside", full)
    assert not index_file.keep(filled(ledger, names), ledger)
