"""The examples in docs/shorthand.md are read as it says."""

import re
from pathlib import Path

import pytest

from counter.judge.reading import read_line
from counter.reference.vocabulary import Vocabulary

DOCUMENT = Path(__file__).resolve().parents[2] / "docs" / "shorthand.md"
EXAMPLES = re.findall(r"^\| `(.+?)` \| (.+) \|$", DOCUMENT.read_text(encoding="utf-8"), re.MULTILINE)


def test_there_are_examples() -> None:
    assert len(EXAMPLES) > 100


@pytest.mark.parametrize(("typed", "read"), EXAMPLES)
def test_an_example_is_read_as_told(typed: str, read: str, vocabulary: Vocabulary) -> None:
    reading = read_line(typed, vocabulary)
    told = [seen.told + (" (mended)" if seen.slip else "") for seen in reading.observations]
    assert "; ".join(told) == read
    assert not reading.unread
