"""Whatever is typed: nothing raises, nothing is lost, and what should not matter does not."""

import string

from hypothesis import example, given, settings
from hypothesis import strategies as st

from counter.judge.observation import KINDS, Reading
from counter.judge.reading import read_line
from counter.reference.library import Library

VOCABULARY = Library().vocabulary
SHORTHAND = """
1d 2½d 1/2 2/6 £1 22p blk red-brown verm imperf perf 14 p14 15x14 pl 6 plate 148 KC CK-KC ck kc K C
- / , . ± lettered letters stars small crown lg garter no wmk lines thin die II alph 2 qv mx black
numeral no 46 duplex cds tied not on cover piece from to leeds paris backstamp 12 may 1840 12.5.40
1841 pair strip of 3 blk4 4 margins close at left thin og hinged used half ounce 2 sheets miles
franked with under £100 over 50-100 A1042 R15 16 dots ir official world cup manuscript 8
3 x 20 g 20g franking in numbered cross
"""
WORDS = SHORTHAND.split()
SOUP = st.one_of(
    st.text(max_size=60),
    st.text(alphabet=string.printable + "½¼¾⁄×–’£±\u00a0\u200bİß㎜", max_size=60),
    st.lists(st.sampled_from(WORDS), max_size=14).map(" ".join),
    st.lists(st.sampled_from(WORDS), max_size=10).map("".join),
)

TYPESET = ["½d", "2½d", "15½x15", "CK-KC", "st edward's", "½ oz", "2/6", "14±0.3"]
FREE = (
    *("1d", "imperf", "pl 6", "kc", "small crown", "stars"),
    *("die ii", "alph 2", "blued", "og", "under £50"),
)


def accounted(reading: Reading) -> None:
    """Every character belongs to one span (shared only by observations of the very same words)."""
    spans = {(seen.start, seen.end) for seen in reading.observations}
    rest = [*((each.start, each.end) for each in reading.unread), *reading.fillers]
    owned = [place for start, end in (*spans, *rest) for place in range(start, end)]
    assert len(owned) == len(set(owned)), "two pieces claim one character"
    left = set(range(len(reading.text))) - set(owned)
    assert all(reading.text[place].isspace() for place in left)
    assert all(start < end for start, end in (*spans, *rest))


@settings(max_examples=1500, deadline=None)
@given(SOUP)
@example("c-sn/ s-s/ sn/en/ed")  # a run whose last stamp was joined to the next letters
def test_nothing_raises_and_every_character_is_accounted_for(line: str) -> None:
    reading = read_line(line, VOCABULARY)
    accounted(reading)
    assert reading == read_line(line, VOCABULARY)
    for seen in reading.observations:
        assert seen.kind in KINDS and seen.value and seen.words
    for each in reading.unread:
        assert reading.text[each.start : each.end] == each.text


def told(line: str) -> list[tuple[str, str]]:
    return [(seen.kind, seen.value) for seen in read_line(line, VOCABULARY).observations]


@settings(deadline=None)
@given(st.permutations(FREE))
def test_order_does_not_matter(words: list[str]) -> None:
    assert sorted(told(" ".join(words))) == sorted(told(" ".join(FREE)))


@settings(deadline=None)
@given(st.lists(st.sampled_from([word for word in WORDS if word not in ("K", "C")]), max_size=12))
def test_capitals_do_not_matter(words: list[str]) -> None:
    line = " ".join(words)
    assert told(line.upper()) == told(line.lower()) == told(line)


@settings(deadline=None)
@given(
    st.lists(st.sampled_from(["½d", "2½d", "15½x15", "CK-KC", "st edward's", "½ oz", "2/6", "14±0.3"]))
)
def test_typographic_variants_are_equal(words: list[str]) -> None:
    line = " ".join(words)
    typeset = line.translate(str.maketrans({"-": "–", "'": "’", "x": "×", "/": "⁄", " ": "\u00a0"}))
    assert told(typeset) == told(line)
    assert told(line.replace("½", "1/2") if "15½" not in line else line) == told(line)


@settings(deadline=None)
@given(st.sampled_from("ABCDEFGHIJKLMNOPQRST"), st.sampled_from("ABCDEFGHIJKL"))
def test_every_lettering_is_read_after_the_cue(row: str, column: str) -> None:
    assert told(f"lettered {row}{column}") == [("letters", row + column)]
    assert told(f"{column}{row}-{row}{column}") == [("letters", column + row + row + column)] or {
        row + column,
        column + row,
    } & {word.upper() for word in VOCABULARY.never_letters}
