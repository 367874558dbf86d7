"""Whatever bytes are on the disk, the journal opens, keeps every sound line and throws nothing away."""

from __future__ import annotations

import shutil
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from counter.store.entry import Change, Entry, checksum, entry_to_data, line_to_entry, seal, unseal
from counter.store.journal import HEAD
from counter.store.ledger import Ledger
from counter.store.recover import recover
from counter.store.verify import verify
from counter.values.errors import UserError
from tests.ledger.stock import item, tries


def now() -> datetime:
    return datetime(2026, 5, 1, 10)


def noted(folder: Path, count: int) -> list[int]:
    """Note so many items; returns the length of the journal after each."""
    ledger = Ledger.open(folder, clock=now, laptop="WK")
    ends = []
    for number in range(1, count + 1):
        ledger.note("noted", [item(f"WK-{number}", words="four margins, neat cross" * (number % 3))])
        ends.append(ledger.journal.size)
    ledger.close()
    return ends


def test_the_checksum_is_blake2b_as_other_programs_compute_it() -> None:
    """RFC 7693, 8-byte digest; the value is from the `b2sum -l 64` of GNU coreutils."""
    assert checksum(b"abc") == b"d8bb14d833d59559"


def test_the_line_shown_in_the_docs_is_sound() -> None:
    told = (Path(__file__).parents[2] / "docs" / "data-files.md").read_text("utf-8")
    shown = [each.strip() for each in told.split("\n") if each.startswith("    ")]
    line = "".join(shown[:2])
    entry = line_to_entry(line.encode())
    assert entry is not None and entry.verb == "purchase noted"


def test_cut_at_every_byte_of_the_last_entries(tmp_path: Path) -> None:
    ends = noted(tmp_path / "own", 6)
    whole = (tmp_path / "own" / "journal").read_bytes()
    for cut in range(ends[2], len(whole) + 1):
        folder = tmp_path / f"cut{cut}"
        folder.mkdir()
        shutil.copy(tmp_path / "own" / "laptop", folder)
        (folder / "journal").write_bytes(whole[:cut])
        ledger = Ledger.open(folder, clock=now)
        kept = sum(end <= cut for end in ends)
        assert [row["number"] for row in ledger.rows("items")] == [f"WK-{n + 1}" for n in range(kept)]
        ledger.note("one more", [item("WK-99")])
        ledger.close()
        torn = b"".join(path.read_bytes() for path in (folder / "aside").glob("*"))
        assert torn == (b"" if cut in ends else whole[ends[kept - 1] : cut])
        assert bool(torn) == any("never finished" in words for words in ledger.told)
        assert verify(folder).sound
        shutil.rmtree(folder)


def test_torn_over_room_at_every_byte(tmp_path: Path) -> None:
    """A power cut may leave the first page of the last line on the disk, or the last, in its room."""
    ends = noted(tmp_path / "own", 4)
    whole = (tmp_path / "own" / "journal").read_bytes()
    start, room = ends[2], b"\n" * 5_000
    for cut in range(start, len(whole)):
        first, last = whole[start:cut], whole[cut:].rstrip(b"\n")
        kept_first = whole[:start] + first + b"\n" * len(last) + room
        kept_last = whole[:start] + b"\n" * len(first) + last + room
        for raw, torn in ((kept_first, first), (kept_last, last)):
            folder = tmp_path / "torn"
            folder.mkdir()
            shutil.copy(tmp_path / "own" / "laptop", folder)
            (folder / "journal").write_bytes(raw)
            only = Ledger.open(folder, clock=now, read_only=True)
            whole_line = torn == whole[start:].rstrip(b"\n")
            there = [f"WK-{number}" for number in range(1, 5 if whole_line else 4)]
            assert [row["number"] for row in only.rows("items")] == there
            only.close()
            ledger = Ledger.open(folder, clock=now)
            assert [row["number"] for row in ledger.rows("items")] == there
            ledger.note("one more", [item("WK-99")])
            ledger.close()
            aside = b"".join(path.read_bytes() for path in (folder / "aside").glob("*"))
            assert aside == (b"" if whole_line else torn)
            assert (folder / "journal").read_bytes()[:start] == whole[:start]
            assert b"\n\n" not in (folder / "journal").read_bytes()
            assert verify(folder).sound
            shutil.rmtree(folder)


def test_an_open_journal_and_one_left_open_read_the_same(tmp_path: Path) -> None:
    ledger = Ledger.open(tmp_path / "own", clock=now, laptop="WK")
    ledger.note("noted", [item("WK-1")])
    assert (tmp_path / "own" / "journal").read_bytes().endswith(b"\n\n")
    assert verify(tmp_path / "own").sound
    shutil.copytree(tmp_path / "own", tmp_path / "left")
    ledger.note("noted, and longer than the room is meant for", [item("WK-2", words="x" * 5_000)])
    ledger.note("noted", [item("WK-3")])
    ledger.close()
    assert b"\n\n" not in (tmp_path / "own" / "journal").read_bytes()
    left = Ledger.open(tmp_path / "left", clock=now)
    assert left.told == []
    left.note("noted", [item("WK-2", words="x" * 5_000)])
    left.close()
    assert [line["number"] for line in left.rows("items")] == ["WK-1", "WK-2"]
    for name in ("own", "left"):
        assert verify(tmp_path / name).sound


def test_cut_at_every_byte_of_a_snapshot(tmp_path: Path) -> None:
    noted(tmp_path, 4)
    ledger = Ledger.open(tmp_path, clock=now)
    ledger.snapshot()
    rows = ledger.rows("items")
    ledger.close()
    whole = (tmp_path / "snapshot").read_bytes()
    for cut in range(len(whole)):
        (tmp_path / "snapshot").write_bytes(whole[:cut])
        ledger = Ledger.open(tmp_path, clock=now)
        assert ledger.rows("items") == rows
        ledger.close()


def test_a_damaged_middle_hides_no_other_line_and_stays_where_it_is(tmp_path: Path) -> None:
    ends = noted(tmp_path, 5)
    path = tmp_path / "journal"
    whole = bytearray(path.read_bytes())
    for at in range(ends[1], ends[2] - 1):
        damaged = bytes(whole[:at]) + bytes([whole[at] ^ 0x20]) + bytes(whole[at + 1 :])
        path.write_bytes(damaged)
        ledger = Ledger.open(tmp_path, clock=now)
        there = [row["number"] for row in ledger.rows("items")]
        ledger.close()
        assert there == ["WK-1", "WK-2", "WK-4", "WK-5"], at
        assert any("damaged" in words for words in ledger.told)
        assert path.read_bytes() == damaged
    report = verify(tmp_path)
    assert not report.sound
    assert any("damaged" in each.words for each in report.findings)
    assert any("missing before the last" in each.words for each in report.findings)


def test_a_journal_shorter_than_its_snapshot_is_read_but_not_written(tmp_path: Path) -> None:
    noted(tmp_path, 3)
    ledger = Ledger.open(tmp_path, clock=now)
    ledger.snapshot()
    ledger.close()
    path = tmp_path / "journal"
    short = path.read_bytes()[: len(HEAD)]
    path.write_bytes(short)
    ledger = Ledger.open(tmp_path, clock=now)
    assert len(ledger.rows("items")) == 3
    with pytest.raises(UserError, match="end of the journal is missing"):
        ledger.note("more", [item("WK-9")])
    ledger.close()
    assert path.read_bytes() == short
    assert not verify(tmp_path).sound


@pytest.mark.parametrize("left", [0, 1])
def test_a_snapshot_carries_a_lost_end_back(tmp_path: Path, left: int) -> None:
    ends = noted(tmp_path, 3)
    ledger = Ledger.open(tmp_path, clock=now)
    ledger.note("taken out", [Change("items", "WK-1", None)])
    ledger.snapshot()
    rows = ledger.rows("items")
    ledger.close()
    path = tmp_path / "journal"
    short = path.read_bytes()[: ends[0] if left else 0]
    path.write_bytes(short)
    ledger = Ledger.open(tmp_path, clock=now)
    done = recover(ledger)
    assert done.rows == 2
    assert Path(done.aside).read_bytes() in (short, HEAD)
    assert ledger.rows("items") == rows
    assert ledger.next_number("items") == "WK-4"
    ledger.note("goes on", [item("WK-4")])
    ledger.close()
    again = Ledger.open(tmp_path, clock=now)
    assert [row["number"] for row in again.rows("items")] == ["WK-2", "WK-3", "WK-4"]
    with pytest.raises(UserError, match="nothing to carry over"):
        recover(again)
    again.close()
    faults = [each.words for each in verify(tmp_path).findings if each.weight == "fault"]
    assert len(faults) == 1
    assert "missing before the last of laptop WK" in faults[0]


lines = st.one_of(
    st.binary(max_size=80),
    st.builds(lambda body: checksum(body) + b" " + body, st.binary(max_size=80)),
    st.just(HEAD),
    st.integers(1, 9).map(
        lambda n: seal(
            entry_to_data(Entry(f"e{n}", "WK", n, "2026-05-01T10:00:00", "noted", (item(f"WK-{n}"),)))
        )
    ),
    st.recursive(
        st.none() | st.booleans() | st.integers(-(2**63), 2**63 - 1) | st.text(max_size=8),
        lambda inner: (
            st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4)
        ),
        max_leaves=12,
    ).map(
        lambda value: seal(
            {"id": value, "laptop": "WK", "seq": 1, "at": "", "verb": "", "changes": value}
        )
    ),
)


@tries(150)
@given(st.booleans(), st.lists(lines, max_size=12), st.sampled_from([b"", b"\n", b"\r\n"]))
@example(True, [b"\x00" * 500], b"")
@example(False, [b"{}"], b"\n")
def test_any_bytes_open_and_are_kept(headed: bool, pieces: list[bytes], between: bytes) -> None:
    raw = (HEAD if headed else b"") + between.join(pieces)
    with TemporaryDirectory() as place:
        folder = Path(place)
        (folder / "journal").write_bytes(raw)
        ledger = Ledger.open(folder, clock=now, laptop="WK")
        sound = {
            change.key
            for line in raw.split(b"\n")[:-1]
            if (entry := line_to_entry(line))
            for change in entry.changes
        }
        assert {row["number"] for row in ledger.rows("items")} == sound
        assert ledger.note("still works", [item("WK-100")]).seq >= 1
        ledger.close()
        kept = b"".join(path.read_bytes() for path in (folder / "aside").glob("*"))
        assert all(line in (folder / "journal").read_bytes() + kept for line in raw.split(b"\n"))
        again = Ledger.open(folder, clock=now)
        assert again.row("items", "WK-100")
        again.close()
        verify(folder)


@tries(100)
@given(st.binary(max_size=300))
def test_unseal_never_fails(line: bytes) -> None:
    data = unseal(line)
    assert data is None or isinstance(data, dict)
    entry = line_to_entry(line)
    assert entry is None or isinstance(entry, Entry)


plain = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**60), 2**60) | st.text(st.characters(codec="utf-8")),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=8,
)


@tries(100)
@given(
    st.builds(
        Entry,
        id=st.text(st.characters(codec="utf-8"), min_size=1),
        laptop=st.just("WK"),
        seq=st.integers(1, 10**9),
        at=st.datetimes().map(lambda when: when.isoformat()),
        verb=st.text(st.characters(codec="utf-8")),
        changes=st.lists(
            st.builds(
                Change,
                table=st.sampled_from(["items", "sales"]),
                key=st.text(st.characters(codec="utf-8")),
                row=st.none()
                | st.dictionaries(st.text(st.characters(codec="utf-8")), plain, max_size=4),
            ),
            max_size=3,
        ).map(tuple),
        reverses=st.none() | st.just("another"),
        knows=st.dictionaries(st.text(st.characters(codec="utf-8")), st.integers(1, 10**9), max_size=3),
        held=st.just((0,)) | st.just(()),
        erases=st.just((("people", "n", ("name",)),)) | st.just(()),
        later=st.just({}) | st.just({"a newer program's": [1, None]}),
    )
)
def test_an_entry_comes_back_from_its_line(entry: Entry) -> None:
    line = seal(entry_to_data(entry))
    assert line.count(b"\n") == 1
    assert line_to_entry(line) == entry
