"""A file is written beside under a name of its own: no stranger's is touched, and none is left."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from counter.store.files import Disk, write_beside
from counter.store.ledger import Ledger
from counter.store.verify import verify
from tests.ledger.stock import item, note_items

Opens = Callable[..., Ledger]


def test_a_strangers_file_and_link_stay_as_they_are(tmp_path: Path) -> None:
    (tmp_path / "keep.csv.new").write_text("his own")
    (tmp_path / "far").write_text("far")
    (tmp_path / "s.csv.new").symlink_to(tmp_path / "far")
    for name in ("keep.csv", "s.csv"):
        write_beside(tmp_path / name, [b"ours"], disk=Disk())
        assert (tmp_path / name).read_bytes() == b"ours"
    assert (tmp_path / "keep.csv.new").read_text() == "his own"
    assert (tmp_path / "far").read_text() == "far"


def test_a_renaming_that_fails_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*paths: object) -> None:
        raise PermissionError("no renaming here")

    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(PermissionError):
        write_beside(tmp_path / "a.csv", [b"ours"], disk=Disk())
    assert list(tmp_path.iterdir()) == []


def test_what_a_kill_left_beside_goes_at_the_next_opening(folder: Path, opened: Opens) -> None:
    folder.mkdir()
    (folder / "journal.0123456789ab.new").write_text("names")
    (folder / "mine.new").write_text("a stranger's")
    opened(folder)
    assert not (folder / "journal.0123456789ab.new").exists()
    assert (folder / "mine.new").exists()


def test_the_journal_is_let_go_before_another_takes_its_place(
    ledger: Ledger, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Windows refuses to replace an open file; here it is seen that none is open at that moment.
    note_items(ledger, "WK-1")
    swap = os.replace
    seen: list[int] = []

    def replace(old: Path, new: Path) -> None:
        seen.append(ledger.journal._handle)
        swap(old, new)

    monkeypatch.setattr(os, "replace", replace)
    ledger.journal.rewrite([ledger.journal.bytes_at(0, ledger.journal.size)])
    assert seen == [-1]
    note_items(ledger, "WK-2")


def test_a_number_is_given_once_even_behind_the_longest(
    ledger: Ledger, folder: Path, opened: Opens
) -> None:
    for digits in (9_999_999_999, 10**15 - 1):
        note_items(ledger, f"WK-{digits}")
        given = [ledger.next_number("items") for _ in range(3)]
        note_items(ledger, *given)
        assert len({f"WK-{digits}", *given}) == 4
    ledger.close()
    again = opened(folder)
    assert again.row("items", again.next_number("items")) is None


def test_a_snapshot_is_not_to_be_deleted_for_a_damaged_line(ledger: Ledger, folder: Path) -> None:
    ledger.note("noted", [item("WK-1", words="1d black")])
    note_items(ledger, "WK-2")
    ledger.snapshot()
    ledger.close()
    path = folder / "journal"
    path.write_bytes(path.read_bytes().replace(b"1d black", b"1d blach"))
    said = " ".join(each.words for each in verify(folder).findings)
    assert "do not delete it" in said
    assert "made anew" not in said
