"""Which plates remain: a day, an alphabet or a die rules numbers out; what is only remembered does not."""

from __future__ import annotations

import json

import pytest

from counter.cli.main import main
from counter.judge.cover.plates_left import plates_left
from counter.judge.reading import read_line
from counter.reference.library import Library

LIBRARY = Library()


def left(issue: str, line: str):
    return plates_left(issue, read_line(line, LIBRARY.vocabulary), LIBRARY.stamps)


def test_the_plates_of_the_first_weeks_of_the_black() -> None:
    """Plate 11 went to press in February 1841, 1b in May 1840 (plate studies): not used before."""
    found = left("penny_black_1840", "KC 20 may 1840 red mx")
    assert {each.plate for each in found.out} == {"1b", "11"}
    assert all(each.why.startswith("put to press") and each.source for each in found.out)
    assert "11" in left("penny_black_1840", "KC mar 1841").left
    assert "guide lines" in found.look_next


@pytest.mark.parametrize("line", ["", "KC", "4 margins thin", "1841"])
def test_what_says_nothing_of_a_plate_rules_none_out(line: str) -> None:
    found = left("penny_black_1840", line)
    assert len(found.left) == 12 and not found.out


def test_left_and_out_are_all_the_plates_and_a_later_day_never_leaves_fewer() -> None:
    for issue in LIBRARY.stamps.issues.values():
        if not issue.characters.plates or issue.characters.stamps[0].value not in ("1d", "2d"):
            continue
        counts = []
        for day in ("1840", "1855", "1864", "1879"):
            found = left(issue.id, day)
            every = {*found.left, *(each.plate for each in found.out)}
            assert every == LIBRARY.stamps.plate_numbers[issue.id]
            counts.append(len(found.left))
        assert counts == sorted(counts), issue.id


def test_the_number_that_is_printed_is_read(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["letters", "--of", "penny_red_four_letters", "--seen", "CKKC", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert "225" in told["left"] and "77" not in told["left"]
    assert "both sides" in told["look_next"]
