"""Run a program on a real pseudo-terminal and time what it paints."""

from __future__ import annotations

import atexit
import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Sequence


class Terminal:
    """A child on a pty of `columns` x `rows`; everything it writes is read and timed."""

    def __init__(self, command: Sequence[str], columns: int = 100, rows: int = 30) -> None:
        self.master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        env = {**os.environ, "TERM": "xterm-256color", "COLORTERM": "truecolor"}
        env.pop("PYTHONDONTWRITEBYTECODE", None)  # both sides run from bytecode, as installed
        self.started = time.perf_counter()
        self.child = subprocess.Popen(
            list(command), stdin=slave, stdout=slave, stderr=slave, env=env, start_new_session=True
        )
        os.close(slave)
        self.seen = b""
        atexit.register(self.close)  # a run that fails leaves no child behind

    def _read(self, timeout: float) -> bytes:
        ready, _, _ = select.select([self.master], [], [], timeout)
        if not ready:
            return b""
        try:
            return os.read(self.master, 1 << 16)
        except OSError:
            return b""

    def wait_for(self, pattern: bytes, timeout: float = 20.0) -> float:
        """Seconds from the start of the child until the pattern (a regular expression) was painted."""
        end = time.perf_counter() + timeout
        while time.perf_counter() < end:
            self.seen += self._read(0.05)
            if re.search(pattern, self.seen):
                return time.perf_counter() - self.started
        raise TimeoutError(f"{pattern!r} was not painted within {timeout} s")

    def write(self, keys: bytes) -> None:
        """Write keys and read nothing."""
        os.write(self.master, keys)

    def settle(self, quiet: float = 0.25, timeout: float = 10.0) -> None:
        """Read until nothing was painted for `quiet` seconds."""
        end = time.perf_counter() + timeout
        while time.perf_counter() < end and self._read(quiet):
            pass

    def stroke(self, keys: bytes, quiet: float = 0.08) -> tuple[float, int]:
        """Write keys at once; seconds until the last paint they caused, and the bytes painted."""
        began = last = time.perf_counter()
        os.write(self.master, keys)
        painted = 0
        while True:
            got = self._read(quiet)
            if not got:
                return last - began, painted
            last = time.perf_counter()
            painted += len(got)

    def memory_mb(self) -> float:
        """The child's resident memory in megabytes."""
        with open(f"/proc/{self.child.pid}/status", encoding="ascii") as status:
            line = next(line for line in status if line.startswith("VmRSS"))
        return int(line.split()[1]) / 1024

    def close(self) -> None:
        """End the child; a second time does nothing."""
        if self.child.poll() is not None:
            return
        os.killpg(self.child.pid, signal.SIGKILL)
        self.child.wait()
        os.close(self.master)


def python(code: str) -> list[str]:
    """A command that runs a piece of Python with this interpreter."""
    return [sys.executable, "-c", code]
