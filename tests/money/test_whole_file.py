"""Books and papers written to files: whole, for the owner alone, and never over what is no file."""

import os
from pathlib import Path

import pytest

from counter.documents.write_file import write_whole
from counter.values.errors import InputError, UserError


def test_a_file_is_written_over_whole_and_for_its_owner_alone(tmp_path: Path) -> None:
    file = tmp_path / "book.csv"
    for content in ("a much longer first one\r\n", "£1\r\n"):
        write_whole(file, content, over=True)
        assert file.read_bytes() == content.encode()
    assert [each.name for each in tmp_path.iterdir()] == ["book.csv"]
    if os.name == "posix":
        assert file.stat().st_mode & 0o077 == 0


def test_a_file_is_not_written_over_untold(tmp_path: Path) -> None:
    file = tmp_path / "book.csv"
    file.write_text("precious")
    with pytest.raises(UserError, match=r"book\.csv is there already; give the file a new name"):
        write_whole(file, "x")
    assert file.read_text() == "precious"


@pytest.mark.skipif(os.name != "posix", reason="needs a pipe with a name")
def test_a_device_or_a_pipe_is_not_replaced(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(InputError, match="a device"):
        write_whole(tmp_path / "pipe", "x")
    assert (tmp_path / "pipe").is_fifo()


@pytest.mark.parametrize("name", ["journal", "laptop", "snapshot", "lock"])
def test_a_data_file_is_not_replaced(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text("kept")
    with pytest.raises(InputError, match="the name of a data file"):
        write_whole(tmp_path / name, "x")
    assert (tmp_path / name).read_text() == "kept"


def test_what_cannot_be_written_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("kept")
    with pytest.raises(InputError, match="is a folder"):
        write_whole(tmp_path, "x")
    for parent in ("file", "none"):
        with pytest.raises(UserError, match="There is no folder"):
            write_whole(tmp_path / parent / "x.csv", "x")
    with pytest.raises(UserError, match="did not happen"):
        write_whole(tmp_path / ("n" * 300), "x")
    assert [each.name for each in tmp_path.iterdir()] == ["file"]
