"""Full disks, failing syncs, folders that may not be written, files that vanish, two writers.

Each time: one plain sentence, nothing that was acknowledged lost, memory never ahead of the disk.
"""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
import textwrap
from collections.abc import Callable
from pathlib import Path

import pytest

from counter.store import files
from counter.store.ledger import Ledger
from counter.store.verify import verify
from counter.values.errors import UserError
from tests.ledger.stock import BadDisk, item, note_items

Opens = Callable[..., Ledger]
ROOT = Path(__file__).resolve().parents[2]
posix = pytest.mark.skipif(os.name != "posix", reason="needs POSIX limits and users")


@pytest.mark.parametrize("left", [0, 1, 16, 17, 100])
def test_a_full_disk_notes_nothing_and_recovers_when_there_is_room(
    opened: Opens, folder: Path, left: int
) -> None:
    disk = BadDisk()
    ledger = opened(folder, laptop="WK", disk=disk)
    note_items(ledger, "WK-1")
    before = (folder / "journal").read_bytes().rstrip(b"\n")
    disk.left = left
    with pytest.raises(UserError, match=r"^The disk is full: what you noted did not happen; make room"):
        ledger.note("noted", [item("WK-2", words="x" * 200)])
    assert (folder / "journal").read_bytes().rstrip(b"\n") == before
    assert [row["number"] for row in ledger.rows("items")] == ["WK-1"]
    disk.left = 10**9
    note_items(ledger, "WK-3")
    ledger.close()
    assert [row["number"] for row in opened(folder).rows("items")] == ["WK-1", "WK-3"]
    assert verify(folder).sound


def test_a_full_disk_in_a_snapshot_leaves_the_old_one(opened: Opens, folder: Path) -> None:
    disk = BadDisk()
    ledger = opened(folder, laptop="WK", disk=disk)
    note_items(ledger, "WK-1")
    ledger.snapshot()
    before = (folder / "snapshot").read_bytes()
    note_items(ledger, "WK-2")
    disk.left = 20
    with pytest.raises(UserError, match="The disk is full: writing a snapshot"):
        ledger.snapshot()
    assert (folder / "snapshot").read_bytes() == before
    assert not list(folder.glob("*.new"))


def test_after_a_failed_sync_nothing_more_is_noted_until_reopened(opened: Opens, folder: Path) -> None:
    disk = BadDisk()
    ledger = opened(folder, laptop="WK", disk=disk)
    note_items(ledger, "WK-1")
    disk.sync_fault = errno.EIO
    with pytest.raises(UserError, match="The disk refused"):
        note_items(ledger, "WK-2")
    disk.sync_fault = 0
    with pytest.raises(UserError, match="close the counter and open it again"):
        note_items(ledger, "WK-3")
    assert [row["number"] for row in ledger.rows("items")] == ["WK-1"]
    ledger.close()
    again = opened(folder)
    note_items(again, "WK-4")
    assert [row["number"] for row in again.rows("items")] == ["WK-1", "WK-4"]


def run_elsewhere(code: str, *words: str) -> dict[str, object]:
    """Run code in a process of its own; it prints one line of JSON."""
    command = [sys.executable, "-c", textwrap.dedent(code), *words]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    answer: dict[str, object] = json.loads(done.stdout.splitlines()[-1])
    return answer


@posix
def test_the_kernel_itself_refusing_to_grow_the_file(folder: Path) -> None:
    """A real half-written line: RLIMIT_FSIZE makes write(2) stop short, then fail with EFBIG."""
    answer = run_elsewhere(
        """
        import json, resource, signal, sys
        from datetime import datetime
        from pathlib import Path
        from counter.store.entry import Change
        from counter.store.ledger import Ledger
        from counter.values.errors import UserError

        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        ledger = Ledger.open(Path(sys.argv[1]), clock=datetime.now, laptop="WK")
        resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))
        noted, said = 0, ""
        while not said and noted < 100:
            try:
                ledger.note("noted", [Change("items", f"WK-{noted}", {"number": f"WK-{noted}"})])
                noted += 1
            except UserError as trouble:
                said = str(trouble)
        print(json.dumps({"noted": noted, "said": said, "rows": len(ledger.rows("items"))}))
        """,
        str(folder),
    )
    assert (
        answer["said"] == "The disk is full: what you noted did not happen; make room and do it again."
    )
    report = verify(folder)
    assert report.entries == answer["noted"] == answer["rows"]
    assert report.sound
    assert not report.findings


@posix
@pytest.mark.parametrize("there", [True, False])
def test_a_folder_that_may_not_be_written(opened: Opens, folder: Path, there: bool) -> None:
    """Root may write anywhere, so the opening happens as another user who may not."""
    folder.parent.chmod(0o755)
    if there:
        ledger = opened(folder, laptop="WK")
        note_items(ledger, "WK-1")
        ledger.close()
        for path in folder.iterdir():
            path.chmod(0o444)
        folder.chmod(0o555)
    else:
        folder.parent.chmod(0o555)
    answer = run_elsewhere(
        """
        import json, os, sys
        from datetime import datetime
        from pathlib import Path
        from counter.store.entry import Change
        from counter.store.ledger import Ledger
        from counter.values.errors import UserError

        handle = os.open(Path(sys.argv[1]).parent, os.O_RDONLY)
        os.fchdir(handle)
        if os.getuid() == 0:
            os.setgid(65534)
            os.setuid(65534)
        try:
            ledger = Ledger.open(Path(Path(sys.argv[1]).name), clock=datetime.now)
            rows = len(ledger.rows("items"))
            ledger.note("noted", [Change("items", "WK-2", {"number": "WK-2"})])
            print(json.dumps({"rows": rows, "said": "noted!"}))
        except UserError as trouble:
            print(json.dumps({"rows": locals().get("rows"), "said": str(trouble)}))
        """,
        str(folder),
    )
    if there:
        assert answer["rows"] == 1
        assert "may not be written to" in str(answer["said"])
        assert str(answer["said"]).endswith("Nothing was noted.")
    else:
        assert answer["rows"] is None
        assert "opening your data folder did not happen" in str(answer["said"])
    folder.parent.chmod(0o755)


@pytest.fixture(params=["the system tells a file's name", "it tells none"])
def _any_system(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """As on a system that does not tell the name of an open file, too."""
    if request.param == "it tells none":

        def nothing(*_: object) -> str:
            raise FileNotFoundError

        monkeypatch.setattr("counter.store.file_watch.os.readlink", nothing)


on_any_system = pytest.mark.usefixtures("_any_system")


@on_any_system
def test_a_journal_removed_while_open_is_written_anew(opened: Opens, folder: Path) -> None:
    ledger = opened(folder, laptop="WK")
    note_items(ledger, "WK-1", "WK-2")
    (folder / "journal").unlink()
    note_items(ledger, "WK-3")
    assert "nothing is lost" in ledger.told[-1]
    ledger.close()
    assert len(opened(folder).rows("items")) == 3
    assert verify(folder).sound


def test_a_journal_removed_before_closing_is_written_anew(opened: Opens, folder: Path) -> None:
    ledger = opened(folder, laptop="WK")
    note_items(ledger, "WK-1")
    (folder / "journal").unlink()
    ledger.close()
    assert len(opened(folder).rows("items")) == 1


@on_any_system
def test_a_journal_moved_away_is_written_anew(opened: Opens, folder: Path, tmp_path: Path) -> None:
    ledger = opened(folder, laptop="WK")
    note_items(ledger, "WK-1")
    (folder / "journal").rename(tmp_path / "elsewhere")
    note_items(ledger, "WK-2")
    ledger.close()
    assert len(opened(folder).rows("items")) == 2


@on_any_system
def test_a_whole_folder_removed_while_open_is_written_anew(opened: Opens, folder: Path) -> None:
    ledger = opened(folder, laptop="WK")
    note_items(ledger, "WK-1")
    for path in folder.iterdir():
        path.unlink()
    folder.rmdir()
    note_items(ledger, "WK-2")
    ledger.close()
    assert len(opened(folder).rows("items")) == 2


@on_any_system
@pytest.mark.parametrize("how", ["replaced", "changed by another program"])
def test_a_journal_somebody_else_touched_is_not_written_into(
    opened: Opens, folder: Path, how: str
) -> None:
    ledger = opened(folder, laptop="WK")
    note_items(ledger, "WK-1")
    theirs = b"something else\n"
    if how == "replaced":
        (folder / "other").write_bytes(theirs)
        (folder / "other").replace(folder / "journal")
    else:
        with (folder / "journal").open("ab") as file:
            file.write(theirs)
    found = (folder / "journal").read_bytes()
    with pytest.raises(UserError, match=f"The journal was {how} while it was open"):
        note_items(ledger, "WK-2")
    assert (folder / "journal").read_bytes() == found
    assert b'"WK-1"' in (folder / "journal.rescued").read_bytes()
    assert [row["number"] for row in ledger.rows("items")] == ["WK-1"]


@on_any_system
def test_a_journal_made_shorter_by_somebody_else_is_not_written_into(
    opened: Opens, folder: Path
) -> None:
    ledger = opened(folder, laptop="WK")
    note_items(ledger, "WK-1")
    os.truncate(folder / "journal", 10)
    with pytest.raises(UserError, match="changed by another program"):
        note_items(ledger, "WK-2")
    assert (folder / "journal").stat().st_size == 10


def test_a_second_window_reads_and_says_who_writes(opened: Opens, folder: Path) -> None:
    first = opened(folder, laptop="WK")
    note_items(first, "WK-1")
    second = opened(folder)
    assert second.read_only
    assert second.holder is not None
    assert second.holder.pid == os.getpid()
    assert "is writing; this window only reads" in second.why_read_only
    with pytest.raises(UserError, match=r"since 2026-05-01T10:00:00\) is writing.*Nothing was noted"):
        note_items(second, "WK-2")
    note_items(first, "WK-3")
    assert second.refresh() == 1
    assert len(second.rows("items")) == 2
    first.close()
    assert not opened(folder).read_only


@posix
def test_a_dead_writer_holds_no_lock(opened: Opens, folder: Path) -> None:
    run_elsewhere(
        """
        import os, sys
        from datetime import datetime
        from pathlib import Path
        from counter.store.ledger import Ledger

        if os.fork() == 0:
            Ledger.open(Path(sys.argv[1]), clock=datetime.now, laptop="WK")
            os.kill(os.getpid(), 9)
        os.wait()
        print("{}")
        """,
        str(folder),
    )
    assert b'"pid"' in (folder / "lock").read_bytes()
    assert not opened(folder).read_only


def test_a_window_that_only_reads_sees_a_half_written_line_as_not_there(
    opened: Opens, folder: Path
) -> None:
    first = opened(folder, laptop="WK")
    note_items(first, "WK-1")
    with (folder / "journal").open("ab") as file:
        file.write(b"0123456789abcdef {half")
    second = opened(folder)
    assert len(second.rows("items")) == 1
    assert (folder / "journal").read_bytes().endswith(b"{half")


@posix
def test_a_disk_that_knows_no_full_sync_is_synced_the_plain_way(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """macOS over a server's disk: F_FULLFSYNC is refused there."""
    import fcntl

    def refused(handle: int, what: int) -> int:
        raise OSError(errno.ENOTSUP, "Operation not supported")

    synced: list[int] = []
    monkeypatch.setattr(fcntl, "F_FULLFSYNC", 51, raising=False)
    monkeypatch.setattr(fcntl, "fcntl", refused)
    monkeypatch.setattr(os, "fsync", synced.append)
    files._way_to_sync()(7)
    assert synced == [7]
