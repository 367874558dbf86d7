"""Set everything up with Python alone, then open the demo or run the tests.

    python3 counter/first_run.py demo
    python3 counter/first_run.py test

Makes a virtual environment in `.venv` beside this folder and installs the project into it, once;
again only when pyproject.toml changed. Needs the package index that one time, never afterwards.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
import venv
from pathlib import Path

HOME = Path(__file__).resolve().parent.parent
PLACE = HOME / ".venv"
PYTHON = PLACE / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def set_up(extra: str) -> None:
    """Make the environment and install into it, unless that was done for this pyproject.toml.

    `extra` is "" (what the counter needs) or "[test]" (and what its tests need).
    """
    wanted = hashlib.sha256((HOME / "pyproject.toml").read_bytes()).hexdigest()
    done = PLACE / "set_up_for"
    had = done.read_text().split() if PYTHON.exists() and done.exists() else []
    if had[:1] == [wanted] and (not extra or extra in had):
        return
    print("Setting up (once, about a minute) ...", flush=True)
    if not PYTHON.exists():
        venv.create(PLACE, with_pip=True)
    install = [str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    subprocess.run([*install, "--compile", "-e", f".{extra}"], cwd=HOME, check=True)
    # bytecode now, not at the first opening: the first frame should come at once
    subprocess.run(
        [str(PYTHON), "-m", "compileall", "-q", "counter", "seed_demo"], cwd=HOME, check=True
    )
    done.write_text(f"{wanted} {extra}")


def main(words: list[str]) -> int:
    """Run `demo` or `test`; further words are handed on. Returns the exit code."""
    if sys.version_info < (3, 11):  # noqa: UP036 - this file is what an old Python meets first
        print("The counter needs Python 3.11 or newer; this is", sys.version.split()[0])
        return 1
    if not words or words[0] not in ("demo", "test"):
        print("Say what to do: demo or test.", file=sys.stderr)
        return 2
    try:
        set_up("[test]" if words[0] == "test" else "")
    except (subprocess.CalledProcessError, OSError) as fault:
        print(f"Setting up failed ({fault}); see the lines above.", file=sys.stderr)
        return 1
    if words[0] == "demo":
        steps = [[str(PYTHON), "-m", "counter", "--demo", *words[1:]]]
    else:
        steps = [
            [str(PYTHON), "-m", "ruff", "check", "."],
            [str(PYTHON), "-m", "ruff", "format", "--check", "."],
            [str(PYTHON), "-m", "mypy"],
            # more at once than there are cores: the screen tests mostly wait
            [str(PYTHON), "-m", "pytest", "-n", str(2 * (os.cpu_count() or 1)), *words[1:]],
        ]
    for step in steps:
        code = subprocess.run(step, cwd=HOME).returncode
        if code:
            return code
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
