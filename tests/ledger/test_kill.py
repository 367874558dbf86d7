"""Fifty SIGKILLs at random moments; tests/benchmarks/ledger_kill.py does a thousand."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.skipif(os.name != "posix", reason="SIGKILL and fork are POSIX")
def test_no_noted_entry_is_lost_to_a_kill() -> None:
    words = [sys.executable, str(ROOT / "tests/benchmarks/ledger_kill.py"), "50", "--seed", "7"]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "none lost" in done.stdout
    while_noting = int(done.stdout.split(": ")[1].split()[0])
    assert while_noting >= 5  # else the kills came before there was anything to lose
