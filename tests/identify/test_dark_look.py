"""A dark look of a line-engraved stamp: sulphide is thought of before a rare shade (common practice)."""

import pytest

from counter.judge.identify import identify
from counter.judge.reading import read_line
from counter.reference.library import Library


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("2d blue white lines very dark shade", True),
        ("1½d rose red pl 3 very dark", True),
        ("1d rose red perf 14 dark shade", True),
        ("1d red dark", True),
        ("1d red dull chocolate look", True),
        ("1d red perf 14", False),
        ("2d deep blue imperf", False),  # the name of a shade, said as such
        ("1d red perf 14 dark mx", False),  # the cross is dark, not the stamp
        ("1s green pl 5 dark", False),  # not line-engraved
    ],
)
def test_a_dark_look_is_first_suspected_of_sulphide(library: Library, line: str, said: bool) -> None:
    """Common practice: a dull, dark or chocolate look is more often sulphide than a rare shade."""
    found = identify(read_line(line, library.vocabulary), library.stamps)
    told = [each.text for each in found.remarks if each.code == "sulphided_colour"]
    assert bool(told) is said
    assert all("sulphide" in each and "known copy" in each for each in told)
