"""What the judge of covers must never do, whatever is typed."""

import re

import pytest

from counter.desk.covers.case import open_case
from counter.judge.cover.check import check_cover
from counter.judge.cover.finding import FINDINGS, find
from counter.judge.cover.plate_record import plate_record
from counter.reference.library import Library
from tests.cover.test_cover_table import KINDS, rows

LIBRARY = Library()
LINES = [typed for kind in KINDS for typed, _, _, _ in rows(kind)][::4]
#: Words that would claim more than a finding may.
_CLAIMS = re.compile(r"\b(genuine|guaranteed|authentic|certainly|forged|fake)\b", re.IGNORECASE)


def test_taking_away_what_speaks_for_never_betters_a_finding() -> None:
    checks = LIBRARY.postal.checks
    for typed in LINES:
        found = open_case(LIBRARY, typed).found
        for gone in [each for each in found.results if each.speaks == "for"]:
            less = find([each for each in found.results if each is not gone], checks)
            assert FINDINGS.index(less) >= FINDINGS.index(found.finding), (typed, gone.id)


@pytest.mark.parametrize("word", ["zzyzx", "qwvx"])
def test_an_unread_word_never_betters_a_finding(word: str) -> None:
    for typed in LINES:
        before = open_case(LIBRARY, typed).found.finding
        after = open_case(LIBRARY, f"{typed}, {word}").found.finding
        assert FINDINGS.index(after) >= FINDINGS.index(before), typed


def test_every_check_that_speaks_has_a_source_and_claims_nothing() -> None:
    known = LIBRARY.postal.sources.keys() | LIBRARY.stamps.sources.keys()
    for typed in LINES:
        for each in open_case(LIBRARY, typed).found.decided():
            assert each.source in known | {"common practice", "memory"}, (typed, each)
            assert each.source != "memory" or each.strength != "strong", (typed, each)
            if each.id != "certificate":
                assert not _CLAIMS.search(each.reason), (typed, each.reason)


def test_no_finding_is_consistent_without_something_that_joins() -> None:
    checks = LIBRARY.postal.checks
    for typed in LINES:
        found = check_cover(LIBRARY.postal, open_case(LIBRARY, typed).seen)
        joined = [each for each in found.decided() if checks[each.id].joins and each.speaks == "for"]
        assert found.finding != "consistent" or joined, typed


def test_a_plate_number_has_one_record_for_each_issue_that_it_was_printed_of() -> None:
    """The trials perforated 16 name plates 90 and 91, of which only imperforate records are known."""
    stamps = LIBRARY.stamps
    lost = [
        (issue, number)
        for issue in stamps.issues
        for number in stamps.plate_numbers[issue] | stamps.unused_plates[issue]
        if stamps.plates_of(issue, number) and plate_record(stamps, issue, number) is None
    ]
    assert sorted(lost) == [("penny_red_archer_perf16", "90"), ("penny_red_archer_perf16", "91")]
