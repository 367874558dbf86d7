"""Data folders that an earlier program wrote open, verify and merge as they did then.

Each ZIP in before/ is a data folder as the program of 1 December 2026 left it (`demo` planted, `verbs`
with every verb of the desk used, `a` and `b` two laptops that sold the same piece, `merged` b brought
into a, `settled` the same with one conflict settled) and, in expected.json, what that program read in
it: every row, the numbers used, and what verify said. They are never made anew.
"""

import json
import shutil
import zipfile
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.merge import merge
from counter.store.verify import verify

BEFORE = Path(__file__).parent / "before"
EVERY = ("demo", "verbs", "a", "b", "merged", "settled")
NOW = datetime(2026, 12, 1, 12, tzinfo=UTC)


def unpacked(name: str, place: Path) -> tuple[Path, dict[str, Any]]:
    """The folder put back, and what was read in it then."""
    folder = place / name
    with zipfile.ZipFile(BEFORE / f"{name}.zip") as archive:
        archive.extractall(folder)
    said = folder / "expected.json"
    expected = json.loads(said.read_text(encoding="utf-8"))
    said.unlink()
    return folder, expected


def filled(rows: dict[str, Any]) -> dict[str, Any]:
    return {table: dict(each) for table, each in rows.items() if each}


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("snapshots", [True, False])
def test_it_opens_with_the_same_rows(name: str, snapshots: bool, tmp_path: Path) -> None:
    folder, expected = unpacked(name, tmp_path)
    if not snapshots:
        for each in folder.glob("snapshot*"):
            each.unlink()
    ledger = Ledger.open(folder, clock=lambda: NOW)
    assert not ledger.read_only and not ledger.told
    assert filled(ledger.state.rows) == filled(expected["rows"])
    assert ledger.state.numbers == expected["numbers"]
    assert ledger.state.seqs == expected["seqs"]
    ledger.close()


@pytest.mark.parametrize("name", EVERY)
def test_opening_and_closing_leave_every_byte(name: str, tmp_path: Path) -> None:
    folder, _ = unpacked(name, tmp_path)
    before = (folder / "journal").read_bytes()
    Ledger.open(folder, clock=lambda: NOW).close()
    assert (folder / "journal").read_bytes() == before


@pytest.mark.parametrize("name", EVERY)
def test_it_verifies_as_it_did(name: str, tmp_path: Path) -> None:
    folder, expected = unpacked(name, tmp_path)
    report = verify(folder)
    assert report.entries == expected["entries"]
    said = [[each.weight, each.words] for each in report.findings]
    assert [each for each in said if "other users of this computer" not in each[1]] == expected[
        "findings"
    ]


def test_two_of_them_merge_to_the_byte_as_they_did(tmp_path: Path) -> None:
    ours, _ = unpacked("a", tmp_path)
    theirs, _ = unpacked("b", tmp_path)
    then, expected = unpacked("merged", tmp_path)
    ledger = Ledger.open(ours, clock=lambda: NOW)
    merge(ledger, theirs)
    assert filled(ledger.state.rows) == filled(expected["rows"])
    ledger.close()
    assert (ours / "journal").read_bytes() == (then / "journal").read_bytes()


@pytest.mark.parametrize("name", EVERY)
def test_it_takes_a_further_note_and_comes_across_whole(name: str, tmp_path: Path) -> None:
    folder, expected = unpacked(name, tmp_path)
    ledger = Ledger.open(folder, clock=lambda: NOW)
    ledger.note("noted since", [Change("items", "ZZ-1", {"number": "ZZ-1", "words": "new"})])
    ledger.close()
    fresh = Ledger.open(tmp_path / "fresh", clock=lambda: NOW, laptop="YY")
    merge(fresh, folder)
    here = filled(fresh.state.rows)
    here["items"].pop("ZZ-1")
    wanted = filled(expected["rows"])
    for own in ("drafts", "conflicts"):  # one laptop's alone; those still open come across as held
        here.pop(own, None), wanted.pop(own, None)
    assert here == wanted
    fresh.close()
    assert verify(tmp_path / "fresh").sound
    shutil.rmtree(tmp_path / "fresh")
