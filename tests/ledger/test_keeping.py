"""Verify, backup, restore, erase, taking back."""

from __future__ import annotations

import os
import zipfile
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from counter.store.backup import backup, restore
from counter.store.entry import Change
from counter.store.erase import WHOLE, erase
from counter.store.history import history, last_to_put_back, last_to_undo, undo
from counter.store.ledger import Ledger
from counter.store.merge import merge
from counter.store.verify import verify
from counter.values.errors import UserError
from tests.ledger.stock import item, note_items, person, purchase, sale

Opens = Callable[..., Ledger]
NOW = datetime(2026, 5, 1, 10)


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


# Verify


def test_verify_reads_everything_and_changes_nothing(ledger: Ledger, folder: Path) -> None:
    note_items(ledger, "WK-1", "WK-2")
    ledger.snapshot()
    note_items(ledger, "WK-3")
    before = contents(folder)
    report = verify(folder)
    assert (report.entries, report.laptops, report.rows) == (3, ("WK",), {"items": 3})
    assert report.sound
    assert not report.findings
    assert contents(folder) == before


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (item("WK-9", purchase="WK-P7"), "Stock item WK-9 names WK-P7, which is not in purchases."),
        (purchase("WK-P1", items=["WK-8"]), "Purchase WK-P1 names WK-8, which is not in items."),
        (purchase("WK-P1", seller="WK-N4"), "Purchase WK-P1 names WK-N4, which is not in people."),
        (sale("WK-S1", "WK-8"), "Sale WK-S1 names WK-8, which is not in items."),
        (sale("WK-S1", "WK-1", refund_of="WK-S0"), "Sale WK-S1 names WK-S0, which is not in sales."),
    ],
)
def test_a_broken_cross_reference_is_a_fault(
    ledger: Ledger, folder: Path, change: Change, said: str
) -> None:
    note_items(ledger, "WK-1")
    ledger.note("noted", [change])
    faults = [each.words for each in verify(folder).findings if each.weight == "fault"]
    assert faults == [said]


def test_what_the_dealer_should_look_at_is_no_fault(ledger: Ledger, folder: Path) -> None:
    ledger.note("noted", [item("WK-1"), item("WK-2", status="sold"), sale("WK-S1", "WK-1")])
    report = verify(folder)
    assert report.sound
    assert [(each.weight, each.words) for each in report.findings] == [
        ("to do", "Stock item WK-1 was sold but still stands in stock."),
        ("to do", "Stock item WK-2 is marked sold but is in no sale."),
    ]


def test_a_refunded_sale_counts_as_none(ledger: Ledger, folder: Path) -> None:
    ledger.note(
        "noted",
        [
            item("WK-1"),
            sale("WK-S1", "WK-1"),
            sale("WK-S2", "WK-1", refund_of="WK-S1", status="returned"),
        ],
    )
    assert not verify(folder).findings


def test_a_snapshot_that_says_something_else_is_a_fault(
    ledger: Ledger, folder: Path, opened: Opens
) -> None:
    note_items(ledger, "WK-1")
    ledger.state.rows["items"]["WK-1"]["asking"] = 1
    ledger.snapshot()
    faults = [each.words for each in verify(folder).findings]
    assert faults == ["The snapshot does not say what the journal says; delete it, it is made anew."]


@pytest.mark.skipif(os.name != "posix", reason="POSIX permissions")
def test_files_others_can_read_are_told(ledger: Ledger, folder: Path) -> None:
    (folder / "journal").chmod(0o644)
    assert any("can be read by other users" in each.words for each in verify(folder).findings)


def test_nothing_to_verify_is_said(tmp_path: Path) -> None:
    with pytest.raises(UserError, match="is not there: reading the journal did not happen"):
        verify(tmp_path / "nowhere")


# Backup and restore


def test_a_backup_comes_back_entry_for_entry(
    ledger: Ledger, folder: Path, tmp_path: Path, opened: Opens
) -> None:
    note_items(ledger, "WK-1", "WK-2")
    done = backup(folder, tmp_path / "b.zip", now=NOW)
    assert done.entries == 2
    note_items(ledger, "WK-3")
    back = restore(tmp_path / "b.zip", tmp_path / "new", now=NOW)
    assert back.aside is None
    again = opened(tmp_path / "new")
    assert [row["number"] for row in again.rows("items")] == ["WK-1", "WK-2"]
    assert again.laptop != "WK"
    assert [entry.id for entry in again.entries()] == [entry.id for entry in ledger.entries()][:2]
    assert (tmp_path / "b.zip").stat().st_mode & 0o077 == 0


def test_the_old_laptop_goes_on_when_it_is_gone(ledger: Ledger, tmp_path: Path, opened: Opens) -> None:
    note_items(ledger, "WK-1")
    backup(ledger.folder, tmp_path / "b.zip", now=NOW)
    restore(tmp_path / "b.zip", tmp_path / "new", now=NOW, same_laptop=True)
    assert opened(tmp_path / "new").next_number("items") == "WK-2"


def test_a_backup_works_while_a_window_writes_and_takes_only_whole_lines(
    ledger: Ledger, folder: Path, tmp_path: Path
) -> None:
    note_items(ledger, "WK-1")
    with (folder / "journal").open("ab") as file:
        file.write(b"half a line")
    backup(folder, tmp_path / "b.zip", now=NOW)
    restore(tmp_path / "b.zip", tmp_path / "new", now=NOW)
    assert not (tmp_path / "new" / "journal").read_bytes().endswith(b"half a line")
    assert verify(tmp_path / "new").sound


def test_the_present_data_is_set_aside_never_lost(ledger: Ledger, folder: Path, tmp_path: Path) -> None:
    note_items(ledger, "WK-1")
    backup(folder, tmp_path / "b.zip", now=NOW)
    with pytest.raises(UserError, match="is not empty"):
        restore(tmp_path / "b.zip", folder, now=NOW)
    with pytest.raises(UserError, match=r"is writing in .* close that window first"):
        restore(tmp_path / "b.zip", folder, now=NOW, set_aside=True)
    note_items(ledger, "WK-2")
    ledger.close()
    before = contents(folder)
    back = restore(tmp_path / "b.zip", folder, now=NOW, set_aside=True)
    assert back.aside is not None
    assert contents(back.aside) == before
    assert verify(folder).rows == {"items": 1}


def test_a_backup_never_replaces_a_file(ledger: Ledger, tmp_path: Path) -> None:
    (tmp_path / "b.zip").write_text("precious")
    with pytest.raises(UserError, match="is there already"):
        backup(ledger.folder, tmp_path / "b.zip", now=NOW)
    assert (tmp_path / "b.zip").read_text() == "precious"


def test_the_folder_at_fault_is_named(ledger: Ledger, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("kept")
    (tmp_path / "empty").mkdir()
    for name, what in [
        ("file", "is a file, not a folder"),
        ("empty", "holds no data of the counter"),
        ("nowhere", "is not there"),
    ]:
        with pytest.raises(UserError, match=f"{name} {what}: the backup did not happen"):
            backup(tmp_path / name, tmp_path / "b.zip", now=NOW)
    backup(ledger.folder, tmp_path / "b.zip", now=NOW)
    with pytest.raises(UserError, match="the restore did not happen"):
        restore(tmp_path / "b.zip", tmp_path / ("n" * 300), now=NOW)


def test_a_damaged_or_foreign_backup_changes_nothing(ledger: Ledger, tmp_path: Path) -> None:
    note_items(ledger, *(f"WK-{n}" for n in range(1, 30)))
    backup(ledger.folder, tmp_path / "b.zip", now=NOW)
    whole = (tmp_path / "b.zip").read_bytes()
    bad = tmp_path / "bad.zip"
    cuts = [whole[:cut] for cut in range(0, len(whole), 37)]
    flips = [whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :] for at in range(60, 400, 11)]
    with zipfile.ZipFile(tmp_path / "other.zip", "w") as other:
        other.writestr("../../journal", "x")
    for raw in [*cuts, *flips, b"text", (tmp_path / "other.zip").read_bytes()]:
        bad.write_bytes(raw)
        try:
            restore(bad, tmp_path / "new", now=NOW)
        except UserError:
            assert not (tmp_path / "new").exists()
        else:  # a flipped byte in a name or a date of the ZIP harms nothing of ours
            assert verify(tmp_path / "new").rows == {"items": 29}
            for path in (tmp_path / "new").iterdir():
                path.unlink()
            (tmp_path / "new").rmdir()


# Erasing


def test_an_erased_person_is_nowhere_in_the_files(ledger: Ledger, folder: Path, opened: Opens) -> None:
    ledger.note("met", [person("WK-N1", address="Harrow"), purchase("WK-P1", seller="WK-N1")])
    ledger.note("moved", [person("WK-N1", address="Pinner")])
    ledger.note("other", [person("WK-N2", name="Bert Quill")])
    ledger.snapshot()
    ledger.snapshot()
    done = erase(ledger, [("people", "WK-N1", ("name", "address"))], "details erased")
    assert done.lines == 2
    for name, raw in contents(folder).items():
        assert b"Pennington" not in raw, name
        assert b"Pinner" not in raw, name
        assert b"Harrow" not in raw, name
    assert ledger.row("people", "WK-N1") == {"id": "WK-N1", "erased": "2026-05-01"}
    assert ledger.row("people", "WK-N2")["name"] == "Bert Quill"  # type: ignore[index]
    ledger.note("goes on", [item("WK-1")])
    ledger.close()
    report = verify(folder)
    assert report.sound
    assert report.entries == 5
    assert opened(folder).row("people", "WK-N1") == {"id": "WK-N1", "erased": "2026-05-01"}


def test_an_erasure_travels_with_a_merge(ledger: Ledger, opened: Opens, tmp_path: Path) -> None:
    ledger.note("met", [person("WK-N1")])
    other = opened(tmp_path / "other", laptop="VB")
    merge(other, ledger.folder)
    other.note("elsewhere", [person("WK-N1", phone="0181")])
    erase(ledger, [("people", "WK-N1", ("name", "phone"))])
    merge(other, ledger.folder)
    assert b"Pennington" not in (tmp_path / "other" / "journal").read_bytes()
    merge(ledger, other.folder)
    assert b"Pennington" not in (ledger.folder / "journal").read_bytes()
    assert verify(ledger.folder).sound
    assert verify(other.folder).sound


def test_an_erased_draft_goes_whole(ledger: Ledger, folder: Path) -> None:
    ledger.note("draft", [Change("drafts", "ask", {"words": "Pennington"})])
    erase(ledger, [("drafts", "ask", WHOLE)])
    assert ledger.row("drafts", "ask") is None
    assert b"Pennington" not in (folder / "journal").read_bytes()


def test_erasing_nothing_is_said(ledger: Ledger) -> None:
    with pytest.raises(UserError, match="nothing of that kind"):
        erase(ledger, [("people", "WK-N9", ("name",))])


def test_a_reading_window_follows_an_erasure(ledger: Ledger, folder: Path, opened: Opens) -> None:
    ledger.note("met", [person("WK-N1")])
    second = opened(folder)
    erase(ledger, [("people", "WK-N1", ("name",))])
    second.refresh()
    assert second.row("people", "WK-N1") == {"id": "WK-N1", "erased": "2026-05-01"}


# Taking back


def test_the_last_entry_is_taken_back_by_one_more_entry(ledger: Ledger) -> None:
    first = ledger.note("noted", [item("WK-1", asking=100), item("WK-2")])
    second = ledger.note("changed", [item("WK-1", asking=200), Change("items", "WK-2", None)])
    assert last_to_undo(ledger) == second
    back = undo(ledger, second.id)
    assert back.reverses == second.id
    assert {row["number"]: row.get("asking") for row in ledger.rows("items")} == {
        "WK-1": 100,
        "WK-2": None,
    }
    assert last_to_undo(ledger) == first
    undo(ledger, first.id)
    assert ledger.rows("items") == []
    assert last_to_undo(ledger) is None
    assert len(list(ledger.entries())) == 4


def test_what_was_taken_back_is_put_back_in_turn(ledger: Ledger, folder: Path, opened: Opens) -> None:
    """As in any editor: the last taken back comes first, and what is noted meanwhile ends it."""
    first = ledger.note("noted", [item("WK-1", asking=100)])
    second = ledger.note("changed", [item("WK-1", asking=200)])
    assert last_to_put_back(ledger) is None
    undo(ledger, second.id)
    gone = undo(ledger, first.id)
    assert last_to_put_back(ledger) == gone and last_to_undo(ledger) is None
    put = undo(ledger, gone.id)
    assert put.verb == "put back: noted" and ledger.row("items", "WK-1")["asking"] == 100  # type: ignore[index]
    assert last_to_undo(ledger) == first
    ledger.snapshot()
    ledger.close()
    again = opened(folder)
    other = last_to_put_back(again)
    assert other and other.reverses == second.id
    undo(again, other.id)
    assert again.row("items", "WK-1")["asking"] == 200  # type: ignore[index]
    assert last_to_put_back(again) is None and last_to_undo(again) == second
    undo(again, second.id)  # and once more: what was put back can be taken back
    again.note("noted", [item("WK-2")])
    assert last_to_put_back(again) is None
    assert verify(folder).sound


def test_an_older_entry_is_found_again_after_reopening(
    ledger: Ledger, folder: Path, opened: Opens
) -> None:
    ledger.note("noted", [item("WK-1", asking=100)])
    entry = ledger.note("changed", [item("WK-1", asking=200)])
    ledger.note("draft", [Change("drafts", "ask", {"words": "1d"})])
    ledger.snapshot()
    ledger.close()
    again = opened(folder)
    assert last_to_undo(again) == entry
    undo(again, entry.id)
    assert again.row("items", "WK-1")["asking"] == 100  # type: ignore[index]
    assert verify(folder).sound


def test_what_was_changed_since_is_not_taken_back(ledger: Ledger) -> None:
    entry = ledger.note("noted", [item("WK-1", asking=100)])
    ledger.note("changed", [item("WK-1", asking=200)])
    with pytest.raises(UserError, match="WK-1 in items was changed since"):
        undo(ledger, entry.id)
    with pytest.raises(UserError, match="no entry nonsense"):
        undo(ledger, "nonsense")


def test_the_history_of_a_piece(ledger: Ledger) -> None:
    ledger.note("noted", [item("WK-1", asking=100)])
    ledger.note("other", [item("WK-2")])
    ledger.note("repriced", [item("WK-1", asking=200)])
    told = [(entry.verb, row and row["asking"]) for entry, row in history(ledger, "items", "WK-1")]
    assert told == [("noted", 100), ("repriced", 200)]
