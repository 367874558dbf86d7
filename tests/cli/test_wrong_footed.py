"""Commands wrong-footed: one sentence, the right exit code, nothing lost and nothing left behind."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

import pytest

from counter.cli.main import main
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.verify import verify

ROOT = Path(__file__).resolve().parents[2]
COUNTER = [sys.executable, "-m", "counter"]
posix = pytest.mark.skipif(os.name != "posix", reason="needs signals and limits")


def counter(*words: str | bytes, cwd: Path = ROOT, **env: str) -> subprocess.CompletedProcess[str]:
    """Run a command in a process of its own."""
    return subprocess.run(
        [*COUNTER, *words],
        cwd=cwd, env={**os.environ, **env}, capture_output=True, text=True, timeout=120,
        encoding="utf-8", errors="replace",
    )  # fmt: skip


def rows(folder: Path) -> list[dict[str, object]]:
    ledger = Ledger.open(folder, clock=datetime.now, read_only=True)
    try:
        return [dict(row) for row in ledger.rows("items")]
    finally:
        ledger.close()


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["ask", "1d blk"], 0),
        (["sell"], 2),
        (["invoice", "none"], 1),
        (["export", "stock", "/nowhere/at/all.csv"], 1),
    ],
)
def test_a_demo_leaves_nothing_behind(tmp_path: Path, words: Sequence[str], code: int) -> None:
    done = counter(*words, "--demo", TMPDIR=str(tmp_path), TEMP=str(tmp_path))
    assert done.returncode == code, done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("moment", ["before", "after"])
def test_ctrl_c_in_an_import_loses_and_doubles_nothing(tmp_path: Path, moment: str) -> None:
    """The lines have no stock number: only the place in the file tells what is in already.

    Five hundred go to the disk at once: Ctrl-C comes in the middle of such a wait, or at its end.
    """
    count = 4_000
    file, own = tmp_path / "list.csv", tmp_path / "own"
    file.write_text("words,price\n" + "".join(f"piece {n},{n}\n" for n in range(count)))
    code = (
        "import signal, sys\n"
        "from counter.cli.main import main\n"
        "from counter.store.files import Disk\n"
        "plain, waits = Disk.sync, []\n"
        "def sync(disk, handle):\n"
        "    waits.append(handle)\n"
        "    if len(waits) == 7 and sys.argv[1] == 'before': signal.raise_signal(signal.SIGINT)\n"
        "    plain(disk, handle)\n"
        "    if len(waits) == 7: signal.raise_signal(signal.SIGINT)\n"
        "Disk.sync = sync\n"
        "sys.exit(main(sys.argv[2:]))\n"
    )
    words = [sys.executable, "-c", code, moment, "--data", str(own), "import", str(file)]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stderr) == (1, "Stopped; nothing was left half-written.\n")
    some = len(rows(own))
    assert 0 < some < count
    assert verify(own).sound
    assert counter("--data", str(own), "import", str(file)).returncode == 0
    assert sorted(str(row["words"]) for row in rows(own)) == sorted(f"piece {n}" for n in range(count))


@posix
def test_a_full_disk(tmp_path: Path) -> None:
    """RLIMIT_FSIZE makes the kernel itself refuse to let a file grow."""
    own = tmp_path / "own"
    assert counter("--data", str(own), "buy", "1d red", "£5", "cash").returncode == 0
    code = (
        "import resource, signal, sys; from counter.cli.main import main;"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN);"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (700, 700)); sys.exit(main(sys.argv[1:]))"
    )
    words = ["--data", str(own), "buy", "2d blue plate 3 KC", "£45", "cash"]
    done = subprocess.run(
        [sys.executable, "-c", code, *words], cwd=ROOT, capture_output=True, text=True, timeout=60
    )
    assert done.returncode == 1
    assert done.stderr.startswith("The disk is full:") and done.stderr.count("\n") == 1
    assert len(rows(own)) == 1 and verify(own).sound


def test_a_journal_damaged_in_the_middle(tmp_path: Path) -> None:
    own = tmp_path / "own"
    for number in (1, 2, 3):
        counter("--data", str(own), "buy", f"1d red pl {number}", "£5", "cash")
    journal = own / "journal"
    lines = journal.read_bytes().split(b"\n")
    lines[2] = lines[2].replace(b"1d red pl 2", b"1d red pl 9")
    journal.write_bytes(b"\n".join(lines))
    done = counter("--data", str(own), "ask", "1d red", "--json")
    assert done.returncode == 0
    assert len(json.loads(done.stdout)["stock"]) == 2
    assert "is damaged and was passed over" in done.stderr and done.stderr.count("\n") == 1
    done = counter("--data", str(own), "verify")
    assert done.returncode == 1 and "!! An entry of the journal is damaged" in done.stdout
    assert journal.read_bytes() == b"\n".join(lines)


@pytest.mark.parametrize(
    ("subject", "find", "put", "sentence"),
    [
        ("vocabulary", "", "\n[[", ".toml is not readable"),
        (
            "stamps",
            'id = "I"\nwhen = ',
            'id = "I"\nwhenever = ',
            "[[alphabet]] I: unknown field whenever",
        ),
    ],
)
def test_a_broken_reference_file(
    tmp_path: Path, subject: str, find: str, put: str, sentence: str
) -> None:
    """A whole copy of the program, one of its data files edited into nonsense."""
    shutil.copytree(ROOT / "counter", tmp_path / "counter", ignore=shutil.ignore_patterns("*.bin"))
    folder = tmp_path / "counter" / "reference" / "data" / subject
    path = next(path for path in sorted(folder.glob("*.toml")) if find in path.read_text("utf-8"))
    text = path.read_text("utf-8")
    path.write_text(text.replace(find, put, 1) if find else text + put, "utf-8")
    cache = str(tmp_path / "cache")
    done = counter(
        "--data", str(tmp_path / "own"), "ask", "1d blk",
        cwd=tmp_path, PYTHONPATH=str(tmp_path), XDG_CACHE_HOME=cache,
    )  # fmt: skip
    assert done.returncode == 1
    assert path.name in done.stderr and sentence in done.stderr, done.stderr
    assert done.stderr.count("\n") == 1


def test_a_folder_that_cannot_be_one(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    for words in (["ask", "1d"], ["buy", "1d", "£5"], ["verify"], ["backup", str(tmp_path / "b")]):
        done = counter("--data", str(tmp_path / "file" / "own"), *words)
        assert done.returncode == 1 and done.stderr.count("\n") == 1, done.stderr


def test_a_second_writer_is_told_who_writes(tmp_path: Path) -> None:
    own = tmp_path / "own"
    first = Ledger.open(own, clock=datetime.now)
    try:
        first.note("noted", [Change("items", "A1", {"number": "A1", "words": "1d red", "asking": 100})])
        done = counter("--data", str(own), "buy", "1d red", "£5", "cash")
        assert done.returncode == 1 and done.stderr.count("\n") == 1
        assert f"process {os.getpid()}" in done.stderr and "Nothing was noted." in done.stderr
        done = counter("--data", str(own), "ask", "A1", "--json")
        assert done.returncode == 0 and json.loads(done.stdout)["stock"][0]["number"] == "A1"
    finally:
        first.close()


HOSTILE = (
    "\x1b[31mred\x07",
    "[/][red]",
    "\u202eabc 切手 🏷 é́",
    "x" * 100_000,
    "%s{0}\\",
    "--",
    "\n\r\t",
)


def test_hostile_words_are_shown_and_steer_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = tmp_path / "own"
    lists = tmp_path / "list.csv"
    lists.write_text(
        "number,words,price\n" + "".join(f'H{n},"{each}",1\n' for n, each in enumerate(HOSTILE))
    )
    assert main(["--data", str(own), "import", str(lists)]) == 0
    answers = []
    for each in (*HOSTILE, "H0"):
        assert main(["--data", str(own), "ask", "--", each]) in (0, 1, 2)
        answers.append("".join(capsys.readouterr()))
    done = counter("--data", str(own), "ask", b"\xff\xfe")
    assert done.returncode in (0, 1, 2)
    for said in (*answers, done.stdout + done.stderr):
        assert "Traceback" not in said, said
        assert not set(said) & {"\x1b", "\x07", "\u202e", "\r"}
    done = counter("--data", str(own), "ask", "1d black", "--demo", PYTHONIOENCODING="ascii")
    assert done.returncode == 0, done.stderr
