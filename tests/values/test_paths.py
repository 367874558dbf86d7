"""Paths as they are typed: filled in, or one sentence that says what is wrong."""

import os
from pathlib import Path

import pytest

from counter.cli.main import main
from counter.tui.screens.data_job.paths import Completed, complete, read_path
from counter.values.errors import InputError
from counter.values.paths import path_of


def test_a_path_is_filled_in(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", "/somewhere")
    assert path_of(" ~/stock.csv ") == Path("/somewhere/stock.csv")
    assert path_of("stock.csv") == Path("stock.csv")


@pytest.mark.parametrize(
    ("typed", "said"), [(" ", "first"), ("a\0b", "NUL"), ("~nobody-here-9/x", "does not know")]
)
def test_what_is_no_path_is_said(typed: str, said: str) -> None:
    for read in (path_of, read_path):
        with pytest.raises(InputError, match=said):
            read(typed, "backup")
    assert complete(typed) == Completed(typed, ()) or not typed.strip()


@pytest.mark.skipif(os.name != "posix", reason="elsewhere half a character may stand in a name")
def test_half_a_character_in_a_path_is_said() -> None:
    with pytest.raises(InputError, match="broken character"):
        path_of("a\ud800b")


@pytest.mark.parametrize(
    "words",
    [
        ["backup", "a\0b"],
        ["restore", "a\0b"],
        ["import", "a\0b"],
        ["export", "stock", "a\0b"],
        ["merge", "a\0b"],
        ["book", "--from", "2026-05-01", "--to", "2026-05-02", "--csv", "a\0b"],
        ["book", "--from", "2026-05-01", "--to", "2026-05-02", "--page", "/"],
        ["export", "stock", "/"],
        ["backup", "/"],
        ["import", "/"],
        ["book", "--from", "2026-05-01", "--to", "2026-05-02", "--csv", "n" * 300],
        ["restore", "n" * 300],
    ],
)
def test_a_path_on_the_command_line_is_never_a_crash(
    words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--data", str(tmp_path / "data"), *words]) in (1, 2)
    told = capsys.readouterr().err.strip()
    assert told.endswith(".") and len(told.splitlines()) == 1
    assert main(["--data", "a\0b", "verify"]) == 2
