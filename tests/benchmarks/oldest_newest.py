"""Try the oldest and the newest of every library that pyproject.toml allows.

    python -m tests.benchmarks.oldest_newest            # both
    python -m tests.benchmarks.oldest_newest oldest     # one of them

Each set gets an environment of its own in a temporary folder; the tests that touch every library are run in it.
Needs the package index. Exits with 1 when a set fails.
"""

import re
import subprocess
import sys
import tempfile
import tomllib
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
#: The tests that go through every library: values and units, the store, the index, the screen.
TOUCHING = (
    "tests/values",
    "tests/reading",
    "tests/search",
    "tests/treat",
    "tests/ledger/test_ledger.py",
)
SCREEN = ("tests/tui/test_counter.py",)


def wanted(which: str) -> list[str]:
    """The requirements of the set: lower bounds taken as they stand, or nothing but the ranges."""
    ranges = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"][
        "dependencies"
    ]
    if which == "newest":
        return list(ranges)
    return [re.sub(r"^([\w-]+)\s*[>=]=\s*([\w.]+).*$", r"\1==\2", each) for each in ranges]


def try_set(which: str) -> bool:
    """Install the set, say what came, run the tests; whether they passed."""
    with tempfile.TemporaryDirectory(prefix=f"counter-{which}-") as folder:
        venv.create(folder, with_pip=True)
        python = str(Path(folder) / "bin" / "python")
        pip = [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
        tests = ["pytest>=8.2", "hypothesis>=6.100", "molmass", "scipy"]
        if subprocess.run([*pip, *wanted(which), *tests], cwd=ROOT).returncode:
            return False
        subprocess.run([python, "-m", "pip", "freeze", "--disable-pip-version-check"], cwd=ROOT)
        run = [python, "-m", "pytest", "-q", "-p", "no:cacheprovider", *TOUCHING, *SCREEN]
        return subprocess.run(run, cwd=ROOT).returncode == 0


def main() -> int:
    """Both sets, or the one named."""
    results = {which: try_set(which) for which in sys.argv[1:] or ("oldest", "newest")}
    for which, passed in results.items():
        print(f"{which}: {'passed' if passed else 'FAILED'}")
    return 0 if all(results.values()) else 1


if __name__ == "__main__":
    raise SystemExit(main())
