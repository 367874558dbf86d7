"""Two laptops at two fairs: everything comes across once, nothing is dropped, doubles are settled."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.merge import merge, settle
from counter.store.verify import verify
from counter.values.errors import UserError
from tests.ledger.conftest import Clock
from tests.ledger.stock import item, note_items, sale, tries

Opens = Callable[..., Ledger]


@pytest.fixture
def other(opened: Opens, tmp_path: Path) -> Ledger:
    return opened(tmp_path / "other", laptop="VB")


def numbers(ledger: Ledger, table: str = "items") -> set[str]:
    return {str(row.get("number", row.get("id"))) for row in ledger.rows(table)}


def shared_stock(ledger: Ledger, other: Ledger) -> None:
    note_items(ledger, "WK-1", "WK-2")
    merge(other, ledger.folder)


def test_entries_come_across_once(ledger: Ledger, other: Ledger) -> None:
    note_items(ledger, "WK-1")
    note_items(other, "VB-1", "VB-2")
    first = merge(ledger, other.folder)
    assert (first.brought, first.known, first.conflicts) == (2, 0, ())
    assert numbers(ledger) == {"WK-1", "VB-1", "VB-2"}
    before = (ledger.folder / "journal").read_bytes()
    second = merge(ledger, other.folder)
    assert (second.brought, second.known) == (0, 2)
    assert (ledger.folder / "journal").read_bytes() == before


def test_merging_both_ways_gives_both_the_same(ledger: Ledger, other: Ledger) -> None:
    note_items(ledger, "WK-1")
    note_items(other, "VB-1")
    merge(ledger, other.folder)
    merge(other, ledger.folder)
    assert numbers(ledger) == numbers(other)
    assert merge(ledger, other.folder).brought == 0
    note_items(other, "VB-2")
    assert merge(ledger, other.folder).brought == 1


@pytest.mark.parametrize("theirs", ["complete", "deposit"])
def test_a_piece_sold_on_both_is_a_conflict_until_settled(
    ledger: Ledger, other: Ledger, opened: Opens, theirs: str
) -> None:
    shared_stock(ledger, other)
    sold = item("WK-1", asking=4500, status="sold")
    ledger.note("sold", [sold, sale("WK-S1", "WK-1")])
    other.note("sold", [sold, sale("VB-S1", "WK-1", status=theirs)])
    done = merge(ledger, other.folder)
    assert [(each.table, each.key, each.laptop) for each in done.conflicts] == [("items", "WK-1", "VB")]
    assert numbers(ledger, "sales") == {"WK-S1", "VB-S1"}
    said = [each.words for each in verify(ledger.folder).findings]
    assert "Stock item WK-1 is in 2 sales: settle which holds." in said
    assert any("was changed on two laptops" in words for words in said)
    merge(other, ledger.folder)
    assert len(other.rows("conflicts")) == 1
    settle(ledger, "items WK-1", sold.row, "settled: sold at our table")
    assert ledger.rows("conflicts") == []
    ledger.close()
    assert opened(ledger.folder).rows("conflicts") == []
    merge(other, ledger.folder)
    assert other.rows("conflicts") == []


def test_ours_stands_and_theirs_is_kept_whole(ledger: Ledger, other: Ledger) -> None:
    shared_stock(ledger, other)
    ledger.note("repriced", [item("WK-1", asking=5000)])
    other.note("repriced", [item("WK-1", asking=3000)])
    other.note("repriced again", [item("WK-1", asking=2500)])
    merge(ledger, other.folder)
    assert ledger.row("items", "WK-1")["asking"] == 5000  # type: ignore[index]
    (conflict,) = ledger.rows("conflicts")
    assert [version["row"]["asking"] for version in conflict["versions"]] == [3000, 2500]
    settle(ledger, conflict["id"], conflict["versions"][-1]["row"], "settled")
    assert ledger.row("items", "WK-1")["asking"] == 2500  # type: ignore[index]
    merge(other, ledger.folder)
    assert other.row("items", "WK-1") == ledger.row("items", "WK-1")
    assert other.rows("conflicts") == []


def test_settling_on_both_differently_is_a_conflict_again(ledger: Ledger, other: Ledger) -> None:
    shared_stock(ledger, other)
    ledger.note("repriced", [item("WK-1", asking=5000)])
    other.note("repriced", [item("WK-1", asking=3000)])
    merge(ledger, other.folder)
    merge(other, ledger.folder)
    settle(ledger, "items WK-1", {"number": "WK-1", "asking": 4000}, "settled here")
    settle(other, "items WK-1", {"number": "WK-1", "asking": 4100}, "settled there")
    done = merge(ledger, other.folder)
    assert len(done.conflicts) == 1
    assert [each["row"]["asking"] for each in ledger.rows("conflicts")[0]["versions"]] == [4100]


def test_what_the_other_changed_knowing_ours_simply_holds(ledger: Ledger, other: Ledger) -> None:
    shared_stock(ledger, other)
    other.note("repriced", [item("WK-1", asking=3000)])
    assert merge(ledger, other.folder).conflicts == ()
    assert ledger.row("items", "WK-1")["asking"] == 3000  # type: ignore[index]


def test_a_wrong_clock_decides_nothing(ledger: Ledger, other: Ledger, clock: Clock) -> None:
    shared_stock(ledger, other)
    clock.forward(days=-3000)
    other.note("repriced", [item("WK-1", asking=3000)])
    merge(ledger, other.folder)
    assert ledger.row("items", "WK-1")["asking"] == 3000  # type: ignore[index]


def test_drafts_stay_on_their_laptop(ledger: Ledger, other: Ledger) -> None:
    ledger.note("draft", [Change("drafts", "ask", {"words": "1d red"})])
    other.note("draft", [Change("drafts", "ask", {"words": "2d blue"})])
    assert merge(ledger, other.folder).conflicts == ()
    assert ledger.row("drafts", "ask") == {"words": "1d red"}
    assert ledger.rows("conflicts") == []


def test_a_folder_copied_by_hand_and_used_on_both_loses_nothing(
    ledger: Ledger, opened: Opens, tmp_path: Path
) -> None:
    note_items(ledger, "WK-1")
    shutil.copytree(ledger.folder, tmp_path / "copy", ignore=shutil.ignore_patterns("lock"))
    twin = opened(tmp_path / "copy")
    ledger.note("here", [item("WK-2", words="bought here")])
    twin.note("there", [item("WK-2", words="bought there")])
    done = merge(ledger, twin.folder)
    assert done.brought == 1
    assert [each.key for each in done.conflicts] == ["WK-2"]
    report = verify(ledger.folder)
    assert report.sound
    assert any("a copied folder was merged" in each.words for each in report.findings)


def test_watchers_hear_only_what_holds(ledger: Ledger, other: Ledger) -> None:
    shared_stock(ledger, other)
    ledger.note("repriced", [item("WK-1", asking=5000)])
    other.note("repriced", [item("WK-1", asking=3000), item("WK-2", asking=1)])
    heard: list[str] = []
    ledger.watch(lambda entry: heard.extend(change.key for change in entry.changes))
    merge(ledger, other.folder)
    assert heard == ["WK-2"]


def test_a_damaged_line_over_there_is_told_and_the_rest_comes(ledger: Ledger, other: Ledger) -> None:
    note_items(other, "VB-1", "VB-2", "VB-3")
    other.close()
    path = other.folder / "journal"
    path.write_bytes(path.read_bytes().replace(b"VB-2", b"VX-2"))
    done = merge(ledger, other.folder)
    assert done.brought == 2
    assert "could not be brought in" in done.told[0]


def test_merging_with_itself_or_with_nothing_is_refused(ledger: Ledger, tmp_path: Path) -> None:
    with pytest.raises(UserError, match="this data folder itself"):
        merge(ledger, ledger.folder)
    with pytest.raises(UserError, match="is not there: the merge did not happen"):
        merge(ledger, tmp_path / "nowhere")


steps = st.lists(
    st.tuples(st.sampled_from("ABab"), st.integers(1, 3), st.integers(1, 99)), min_size=1, max_size=14
)


@tries(30)
@given(steps)
def test_whatever_happens_on_two_laptops_nothing_is_dropped(
    moves: list[tuple[str, int, int]],
) -> None:
    """A, B note a price; a, b merge from the other: each price stands or waits in a conflict."""
    with TemporaryDirectory() as place:
        both = {
            name: Ledger.open(Path(place) / name, clock=Clock(), laptop=laptop)
            for name, laptop in (("A", "WK"), ("B", "VB"))
        }
        last: dict[tuple[str, str], int] = {}
        for move, number, price in moves:
            name, peer = move.upper(), "B" if move.upper() == "A" else "A"
            if move.islower():
                merge(both[name], both[peer].folder)
            else:
                both[name].note("priced", [item(f"N-{number}", asking=price)])
                last[name, f"N-{number}"] = price
        merge(both["A"], both["B"].folder)
        merge(both["B"], both["A"].folder)
        assert {entry.id for entry in both["A"].entries()} == {
            entry.id for entry in both["B"].entries()
        }
        assert merge(both["A"], both["B"].folder).brought == 0
        conflicts = {row["key"]: row for row in both["A"].rows("conflicts")}
        for key in {key for _, key in last}:
            if both["A"].row("items", key) != both["B"].row("items", key):
                assert key in conflicts
        for ledger in both.values():
            assert verify(ledger.folder).sound
            ledger.close()
