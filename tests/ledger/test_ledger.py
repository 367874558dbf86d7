"""The ledger's promises: noted means on disk, tables are TinyDB's, numbers never come twice."""

from __future__ import annotations

import stat
from datetime import datetime
from pathlib import Path

import pytest
from tinydb import Query, TinyDB
from tinydb.storages import MemoryStorage

from counter.store.entry import Change, line_to_entry
from counter.store.ledger import Ledger
from counter.values.errors import UserError
from tests.ledger.stock import item, note_items


def test_a_note_is_in_the_journal_when_it_returns(ledger: Ledger, folder: Path) -> None:
    entry = ledger.note("purchase noted", [item("WK-1", asking=4500)])
    last = (folder / "journal").read_bytes().rstrip(b"\n").splitlines()[-1]
    assert line_to_entry(last) == entry
    assert (entry.laptop, entry.seq, entry.at) == ("WK", 1, "2026-05-01T10:00:00")


def test_rows_are_found_by_key_by_query_and_all_together(ledger: Ledger) -> None:
    ledger.note("two", [item("WK-1", asking=4500), item("WK-2", asking=900, plate="11")])
    assert ledger.row("items", "WK-2") == {"number": "WK-2", "asking": 900, "plate": "11"}
    assert ledger.row("items", "WK-9") is None
    assert [row["number"] for row in ledger.rows("items")] == ["WK-1", "WK-2"]
    found = ledger.table("items").search(Query().asking < 1000)
    assert [row["number"] for row in found] == ["WK-2"]
    assert ledger.table("items").get(doc_id="WK-1") == {"number": "WK-1", "asking": 4500}


def test_the_table_answers_as_a_plain_tinydb_does(ledger: Ledger) -> None:
    """Oracle: TinyDB itself, with its own memory storage, given the same calls."""
    plain = TinyDB(storage=MemoryStorage).table("items")
    ours = ledger.table("items")
    for table in (plain, ours):
        table.insert_multiple(
            {"number": f"A{n}", "asking": n * 100, "plate": str(n % 3)} for n in range(9)
        )
        table.update({"kept": "red album"}, Query().plate == "1")
        table.update(lambda row: row.update(asking=row["asking"] + 1), Query().asking >= 500)
        table.remove(Query().number == "A4")
        table.upsert({"number": "A2", "gum": "none"}, Query().number == "A2")
    queries = [
        Query().asking > 300,
        Query().plate.one_of(["1", "2"]),
        Query().gum.exists(),
        Query().noop(),
    ]
    for query in queries:
        assert ours.search(query) == plain.search(query)
        assert ours.count(query) == plain.count(query)
    assert [dict(row) for row in ours.all()] == [dict(row) for row in plain.all()]
    assert len(ours) == len(plain) == 8


def test_what_is_written_through_a_table_is_noted_too(ledger: Ledger, opened, folder: Path) -> None:
    key = ledger.table("items").insert({"plate": "11"})
    ledger.table("items").update({"asking": 4500}, Query().plate == "11")
    ledger.close()
    assert opened(folder).row("items", key) == {"number": "WK-1", "plate": "11", "asking": 4500}


def test_a_table_cannot_be_dropped_whole(ledger: Ledger) -> None:
    note_items(ledger, "WK-1")
    with pytest.raises(UserError, match="cannot be dropped"):
        ledger._tables.drop_tables()
    assert ledger.row("items", "WK-1")


def test_changing_a_row_one_was_given_changes_nothing(ledger: Ledger) -> None:
    row = {"number": "WK-1", "letters": ["KC"]}
    ledger.note("noted", [Change("items", "WK-1", row)])
    row["letters"].append("XX")
    ledger.row("items", "WK-1")["letters"].append("YY")  # type: ignore[index]
    assert ledger.row("items", "WK-1") == {"number": "WK-1", "letters": ["KC"]}


def test_all_changes_of_an_entry_happen_or_none(ledger: Ledger, folder: Path) -> None:
    before = (folder / "journal").read_bytes()
    with pytest.raises(UserError, match="asking must be a whole number of pence"):
        ledger.note("two", [item("WK-1"), item("WK-2", asking=4.5)])
    assert ledger.rows("items") == []
    assert (folder / "journal").read_bytes() == before


def test_many_notes_are_many_entries(ledger: Ledger) -> None:
    entries = ledger.note_many([(f"noted {n}", [item(f"WK-{n}")]) for n in range(1, 6)])
    assert [entry.seq for entry in entries] == [1, 2, 3, 4, 5]
    assert len({entry.id for entry in entries}) == 5


def test_a_bad_one_of_many_notes_none(ledger: Ledger) -> None:
    with pytest.raises(UserError):
        ledger.note_many([("good", [item("WK-1")]), ("bad", [item("WK-2", status="gone")])])
    assert ledger.rows("items") == []


def test_reopening_gives_the_same_rows(ledger: Ledger, opened, folder: Path) -> None:
    note_items(ledger, "WK-1", "WK-2", "WK-3")
    ledger.note("withdrawn", [Change("items", "WK-2", None)])
    rows = ledger.rows("items")
    ledger.close()
    assert opened(folder).rows("items") == rows


def test_reopening_after_a_snapshot_gives_the_same_rows(ledger: Ledger, opened, folder: Path) -> None:
    note_items(ledger, "WK-1", "WK-2")
    ledger.snapshot()
    note_items(ledger, "WK-3")
    ledger.note("withdrawn", [Change("items", "WK-1", None)])
    rows, numbers = ledger.rows("items"), dict(ledger.state.numbers)
    ledger.close()
    again = opened(folder)
    assert again.rows("items") == rows
    assert again.state.numbers == numbers
    assert again.note("more", [item("WK-4")]).seq == 5


def test_the_previous_snapshot_is_kept_and_used_when_the_last_is_damaged(
    ledger: Ledger, opened, folder: Path
) -> None:
    note_items(ledger, "WK-1")
    ledger.snapshot()
    note_items(ledger, "WK-2")
    ledger.snapshot()
    rows = ledger.rows("items")
    ledger.close()
    snapshot = folder / "snapshot"
    snapshot.write_bytes(snapshot.read_bytes()[:-30])
    assert (folder / "snapshot.previous").exists()
    again = opened(folder)
    assert again.rows("items") == rows
    assert "passed over" in again.told[0]


def test_numbers_go_up_and_are_never_given_twice(ledger: Ledger, opened, folder: Path) -> None:
    assert [ledger.next_number("items") for _ in range(3)] == ["WK-1", "WK-2", "WK-3"]
    assert ledger.next_number("purchases") == "WK-P1"
    assert ledger.next_number("sales") == "WK-S1"
    note_items(ledger, "WK-3")
    ledger.note("taken out", [Change("items", "WK-3", None)])
    ledger.close()
    assert opened(folder).next_number("items") == "WK-4"


def test_a_folder_of_another_laptop_says_so(ledger: Ledger, opened, folder: Path) -> None:
    ledger.close()
    with pytest.raises(UserError, match="belongs to laptop WK"):
        opened(folder, laptop="VB")


def test_watchers_hear_of_every_entry(ledger: Ledger) -> None:
    heard: list[str] = []
    ledger.watch(lambda entry: heard.append(entry.verb))
    ledger.note("one", [item("WK-1")])
    ledger.note_many([("two", [item("WK-2")]), ("three", [item("WK-3")])])
    assert heard == ["one", "two", "three"]


def test_a_watcher_that_fails_does_not_deny_the_note(ledger: Ledger, opened, folder: Path) -> None:
    def fails(entry: object) -> None:
        raise ValueError("no index")

    ledger.watch(fails)
    ledger.note("one", [item("WK-1")])
    assert "did not follow" in ledger.told[-1]
    ledger.close()
    assert opened(folder).row("items", "WK-1")


def test_only_the_owner_can_read_the_data(ledger: Ledger, folder: Path) -> None:
    note_items(ledger, "WK-1")
    ledger.snapshot()
    ledger.close()
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in folder.iterdir()}
    assert set(modes.values()) == {0o600}, modes
    assert {"journal", "snapshot", "laptop", "lock"} <= set(modes)


def test_text_of_any_script_comes_back_as_it_was(ledger: Ledger, opened, folder: Path) -> None:
    words = "[bold]£5 שלום 🙂\n\u2028\x00 end"
    ledger.note("noted", [item("WK-1", words=words)])
    ledger.close()
    assert opened(folder).row("items", "WK-1")["words"] == words  # type: ignore[index]


def test_a_broken_character_is_refused_in_a_sentence(ledger: Ledger) -> None:
    with pytest.raises(UserError, match="broken character"):
        ledger.note("noted", [item("WK-1", words="\ud800")])


@pytest.mark.parametrize(
    "kept", [float("nan"), {"deep": [float("inf")]}, {5: "five"}, {1, 2}, 2**64, datetime(2026, 5, 1)]
)
def test_what_json_cannot_give_back_is_refused_in_a_sentence(ledger: Ledger, kept: object) -> None:
    """Settings and drafts hold anything plain; orjson alone would write NaN as null, a date as text."""
    with pytest.raises(UserError, match=r"cannot") as caught:
        ledger.note("kept", [Change("settings", "odd", {"value": kept})])
    assert str(caught.value).endswith(".")
    ledger.note("kept", [Change("settings", "even", {"value": [1, 2.5, None, True, {"a": "b"}]})])
    assert ledger.row("settings", "odd") is None


def test_a_clock_set_back_is_told_and_the_order_kept(
    ledger: Ledger, clock, opened, folder: Path
) -> None:
    ledger.note("first", [item("WK-1", asking=100)])
    clock.forward(days=-400)
    ledger.note("second", [item("WK-1", asking=200)])
    assert "before the last entry" in ledger.told[-1]
    ledger.close()
    again = opened(folder)
    assert again.row("items", "WK-1")["asking"] == 200  # type: ignore[index]
    assert [entry.seq for entry in again.entries()] == [1, 2]


def test_a_new_folder_has_nothing_to_tell(ledger: Ledger, folder: Path) -> None:
    note_items(ledger, "WK-1", "WK-2", "WK-3")
    assert ledger.told == []
    assert ledger.state.covers == len((folder / "journal").read_bytes().rstrip(b"\n") + b"\n")
