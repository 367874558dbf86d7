"""Setting up: any Python can read the file, a set-up cut short mends itself, and each fault has a sentence."""

import ast
import subprocess
import sys
import venv
from collections.abc import Sequence
from pathlib import Path

import pytest

from counter import first_run

SOURCE = Path(first_run.__file__)


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project of one file in a folder of its own; nothing is installed for it yet."""
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'x'\n")
    place = tmp_path / ".venv"
    monkeypatch.setattr(first_run, "HOME", str(tmp_path))
    monkeypatch.setattr(first_run, "PLACE", str(place))
    monkeypatch.setattr(first_run, "PYTHON", str(place / "bin" / "python"))
    monkeypatch.setattr(first_run, "DONE", str(place / "set_up_for"))
    return tmp_path


class Calls:
    """What was called instead of being run; `code` is what each says, by a word of its own."""

    def __init__(self, **codes: int) -> None:
        self.codes = codes
        self.made: list[str] = []

    def __call__(self, command: Sequence[str], **_: object) -> int:
        words = " ".join(command)
        self.made.append(words)
        return next((code for word, code in self.codes.items() if word in words), 0)


def made_whole(folder: str, **_: object) -> None:
    """What venv.create leaves: a Python in its place."""
    python = Path(folder) / "bin" / "python"
    python.parent.mkdir(parents=True, exist_ok=True)
    python.touch()


def test_an_old_python_can_read_it() -> None:
    # Python 2.7 knows none of these: what's new in Python 3.0, 3.5, 3.6 and 3.8 (docs.python.org/3/whatsnew)
    tree = ast.parse(SOURCE.read_text(encoding="utf-8"), feature_version=(3, 4))
    for node in ast.walk(tree):
        assert not isinstance(
            node, ast.JoinedStr | ast.AnnAssign | ast.NamedExpr | ast.AsyncFunctionDef
        )
        assert not isinstance(node, ast.Nonlocal | ast.YieldFrom | ast.Match), ast.dump(node)
        if isinstance(node, ast.FunctionDef):
            args = node.args
            assert not node.returns and not args.kwonlyargs and not args.posonlyargs
            assert not any(each.annotation for each in args.args)
        if isinstance(node, ast.List | ast.Tuple | ast.Set):
            assert not any(isinstance(each, ast.Starred) for each in node.elts), node.lineno
        if isinstance(node, ast.ImportFrom):
            assert node.module != "__future__"
    assert SOURCE.read_bytes().isascii()  # Python 2 reads no other letters without being told


def test_an_old_python_is_told_what_to_do(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 9, 18))
    monkeypatch.setattr(sys, "version", "3.9.18 (main)")
    assert first_run.main(["demo"]) == 1
    told = capsys.readouterr().out
    assert "3.9.18" in told and "python3.12 counter/first_run.py demo" in told


def test_a_set_up_cut_short_is_made_again(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made_whole(first_run.PLACE)  # a Python without pip, as Ctrl-C in the first seconds leaves it
    cleared: list[bool] = []

    def create(folder: str, *, with_pip: bool, clear: bool) -> None:
        cleared.append(clear)
        made_whole(folder)

    monkeypatch.setattr(venv, "create", create)
    monkeypatch.setattr(subprocess, "call", Calls(**{"pip --version": 1}))
    assert not first_run.is_set_up("")
    assert first_run.set_up("") == ""
    assert cleared == [True]
    assert first_run.is_set_up("")


def test_what_is_set_up_is_left_alone_until_the_project_changes_or_moves(
    project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = Calls()
    monkeypatch.setattr(venv, "create", lambda folder, **_: made_whole(folder))
    monkeypatch.setattr(subprocess, "call", calls)
    assert first_run.set_up("") == ""
    before = len(calls.made)
    assert first_run.set_up("") == "" and len(calls.made) == before
    assert not first_run.is_set_up("[test]")  # what the tests need is not there yet
    moved = project.with_name("moved")
    project.rename(moved)
    monkeypatch.setattr(first_run, "HOME", str(moved))
    monkeypatch.setattr(first_run, "DONE", str(moved / ".venv" / "set_up_for"))
    monkeypatch.setattr(first_run, "PYTHON", str(moved / ".venv" / "bin" / "python"))
    assert not first_run.is_set_up(""), "its commands still name the old place"


def test_without_the_index_it_says_that_it_is_needed_this_once(
    project: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(venv, "create", lambda folder, **_: made_whole(folder))
    monkeypatch.setattr(subprocess, "call", Calls(**{"pip install": 1}))
    assert first_run.main(["demo"]) == 1
    assert "needs the internet this once" in capsys.readouterr().err
    assert not first_run.is_set_up("")


def test_without_venv_it_says_which_package(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def create(folder: str, **_: object) -> None:
        made_whole(folder)
        raise subprocess.CalledProcessError(1, "ensurepip")

    monkeypatch.setattr(venv, "create", create)
    assert "python3-venv" in first_run.set_up("")


def test_stopped_by_hand_it_says_how_to_go_on(
    project: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def create(folder: str, **_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(venv, "create", create)
    assert first_run.main(["test"]) == 1
    assert "again to go on" in capsys.readouterr().err
