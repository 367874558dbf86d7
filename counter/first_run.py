"""Set everything up with Python alone, then open the demo or run the tests.

    python3 counter/first_run.py demo
    python3 counter/first_run.py test

Makes a virtual environment in `.venv` beside this folder and installs the project into it, once; again
only when pyproject.toml changed, the folder was moved or an earlier set-up was cut short. Needs the
package index that one time, never afterwards.

This file alone must be read by any Python, however old, so that an old one can say what is wrong: no
annotations, no f-strings, and nothing imported at the top that Python 2.7 does not have.
"""

import hashlib
import os
import subprocess
import sys

HOME = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
PLACE = os.path.join(HOME, ".venv")
PYTHON = os.path.join(PLACE, *(("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")))
DONE = os.path.join(PLACE, "set_up_for")
WANTED = (3, 11)

TOO_OLD = (
    "The counter needs Python 3.11 or newer; this is {0}. Install a newer one (python.org/downloads has "
    "it for Windows and macOS; on Linux it is the package python3.11 or python3.12) and say its name in "
    "place of python3, as in: python3.12 counter/first_run.py {1}"
)
NO_VENV = (
    "This Python cannot make a virtual environment. On Debian and Ubuntu install its other half "
    "(sudo apt install python3-venv), then say the same command again."
)
NO_INDEX = (
    "Setting up was not finished: the libraries could not be fetched. It needs the internet this once; "
    "when there is a connection, say the same command again. What pip said stands above."
)
CUT_SHORT = "Setting up was stopped; nothing is broken. Say the same command again to go on."


def digest_of_project():
    """What the set-up was made for: the project's own words and the place it stands in."""
    with open(os.path.join(HOME, "pyproject.toml"), "rb") as project:
        return hashlib.sha256(project.read() + HOME.encode("utf-8")).hexdigest()


def is_set_up(extra):
    """Whether the environment is whole for this project, in this place, with that extra."""
    if not os.path.exists(PYTHON) or not os.path.exists(DONE):
        return False
    with open(DONE) as done:
        had = done.read().split()
    return had[:1] == [digest_of_project()] and (not extra or extra in had)


def has_pip():
    """Whether the environment that stands there can install anything: a set-up cut short cannot."""
    with open(os.devnull, "w") as nowhere:
        return subprocess.call([PYTHON, "-m", "pip", "--version"], stdout=nowhere, stderr=nowhere) == 0


def set_up(extra):
    """Make the environment and install into it, unless that was done; the sentence of a fault or "".

    `extra` is "" (what the counter needs) or "[test]" (and what its tests need).
    """
    if is_set_up(extra):
        return ""
    import venv

    print("Setting up (once, about a minute) ...")
    sys.stdout.flush()
    if os.path.exists(DONE):
        os.remove(DONE)  # until it is whole again it is not set up
    if not os.path.exists(PYTHON) or not has_pip():
        try:
            venv.create(PLACE, with_pip=True, clear=True)
        except (subprocess.CalledProcessError, ImportError):
            return NO_VENV
    install = [PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--compile"]
    if subprocess.call(install + ["-e", "." + extra], cwd=HOME):
        return NO_INDEX
    # bytecode now, not at the first opening: the first frame should come at once
    subprocess.call([PYTHON, "-m", "compileall", "-q", "counter", "seed_demo"], cwd=HOME)
    with open(DONE, "w") as done:
        done.write(digest_of_project() + " " + extra)
    return ""


def steps_of(errand, more):
    """The commands of an errand, one after the other."""
    if errand == "demo":
        return [[PYTHON, "-m", "counter", "--demo"] + more]
    return [
        [PYTHON, "-m", "ruff", "check", "."],
        [PYTHON, "-m", "ruff", "format", "--check", "."],
        [PYTHON, "-m", "mypy"],
        # more at once than there are cores: the screen tests mostly wait
        [PYTHON, "-m", "pytest", "-n", str(2 * (os.cpu_count() or 1))] + more,
    ]


def main(words):
    """Run `demo` or `test`; further words are handed on. Returns the exit code."""
    if sys.version_info < WANTED:
        print(TOO_OLD.format(sys.version.split()[0], "demo" if not words else words[0]))
        return 1
    if not words or words[0] not in ("demo", "test"):
        sys.stderr.write("Say what to do: demo or test.\n")
        return 2
    try:
        wrong = set_up("[test]" if words[0] == "test" else "")
    except KeyboardInterrupt:
        wrong = CUT_SHORT
    except OSError as fault:
        wrong = "Setting up failed: {0}. Mend that, then say the same command again.".format(fault)
    if wrong:
        sys.stderr.write(wrong + "\n")
        return 1
    # bytecode is kept whatever this machine was told: a test starts the counter a hundred times
    env = dict((name, value) for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE")
    for step in steps_of(words[0], words[1:]):
        code = subprocess.call(step, cwd=HOME, env=env)
        if code:
            return code
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
