"""Six hundred lines as dealers type them (lines.txt, "common practice"): what must and must not be read."""

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from counter.judge.observation import Observation
from counter.judge.reading import read_line
from counter.reference.vocabulary import Vocabulary

LINES = Path(__file__).with_name("lines.txt").read_text(encoding="utf-8").splitlines()
ROWS, COLUMNS = "ABCDEFGHIJKLMNOPQRST", "ABCDEFGHIJKL"
#: Words of the trade as well: these stand by what is beside them, in lines of their own.
TRADE = {"LC", "SC", "OG", "LH", "NG", "NH", "MC", "PL"}


def cases(letterings: bool) -> Iterator[tuple[str, str, str, str]]:
    """(group, line, must be read, must not be asserted)."""
    group = ""
    for line in LINES:
        if line.startswith("# ---"):
            group = line[5:].strip()
        elif line.strip() and not line.startswith("#") and line.startswith("letterings ") == letterings:
            typed, must, must_not = ([part.strip() for part in line.split("||")] + ["", ""])[:3]
            yield group, typed, must, must_not


def terms(text: str) -> list[str]:
    return [term.strip() for term in text.split(";") if term.strip()]


def fits(seen: Observation, term: str) -> bool:
    """Whether an observation is what a term asks for: kind=value, kind=a|b, kind=a|other=b."""
    kind, _, values = term.partition("=")
    wanted: dict[str, set[str]] = {}
    for each in values.split("|"):
        of, _, value = each.partition("=") if "=" in each else (kind, "", each)
        wanted.setdefault(of, set()).add(value)
    return set(seen.value.split("|")) <= wanted.get(seen.kind, set())


def asserted(seen: Observation, term: str, must: list[str]) -> bool:
    """Whether an observation asserts what it must not."""
    if term == "*" or term.endswith("=*"):
        of_kind = term == "*" or seen.kind == term[:-2]
        return of_kind and not any(fits(seen, each) for each in must)
    return seen.kind == term.partition("=")[0] and seen.value == term.partition("=")[2]


def faults_of(
    line: str, must: str, must_not: str, vocabulary: Vocabulary
) -> tuple[list[str], list[str]]:
    """What is missing of a line, and what is wrongly asserted."""
    reading = read_line(line, vocabulary)
    unread = " ".join(run.text for run in reading.unread).casefold()
    said = [seen for seen in reading.observations if seen.said != "is not"]
    lost = []
    for term in terms(must):
        if term.startswith("known="):
            found = not re.search(rf"(?<!\w){re.escape(term[6:].casefold())}(?!\w)", unread)
        else:
            found = any(fits(seen, term) for seen in said)
        lost += [] if found else [term]
    sure = [seen for seen in said if seen.said == "is"]
    wrong = [t for t in terms(must_not) if any(asserted(seen, t, terms(must)) for seen in sure)]
    return lost, wrong


def test_the_lines_are_read_and_nothing_else_is_asserted(vocabulary: Vocabulary) -> None:
    right, total, missed = Counter[str](), Counter[str](), []
    for group, line, must, must_not in cases(letterings=False):
        lost, wrong = faults_of(line, must, must_not, vocabulary)
        assert not wrong, (line, wrong)
        total[group] += 1
        right[group] += not lost
        missed += [(line, lost)] if lost else []
    assert sum(total.values()) >= 400
    assert sum(right.values()) >= 0.97 * sum(total.values()), missed


@pytest.mark.parametrize("case", list(cases(letterings=True)), ids=lambda case: str(case[1]))
def test_all_letterings_of_a_sheet(case: tuple[str, str, str, str], vocabulary: Vocabulary) -> None:
    template = case[1].removeprefix("letterings ").removesuffix(" *")
    lost = []
    for letters in (row + column for row in ROWS for column in COLUMNS):
        if letters in TRADE:
            continue
        read = [
            seen.value for seen in read_line(template.replace("{}", letters), vocabulary).all("letters")
        ]
        lost += [letters] if read != [letters] else []
    assert not lost


@pytest.mark.parametrize("template", ["1d red imperf {}", "2d blue {}", "1d black pl 5 {}"])
def test_letterings_in_small_letters(template: str, vocabulary: Vocabulary) -> None:
    """Beside a lettered stamp small letters are letters too, but for the trade's own short words."""
    lost = []
    for letters in (row + column for row in ROWS for column in COLUMNS):
        line = template.replace("{}", letters.lower())
        if letters not in TRADE and not read_line(line, vocabulary).all("letters"):
            lost.append(letters)
    assert len(lost) <= 5, lost
