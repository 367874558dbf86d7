"""What must hold whatever the line: whose colour, denial, capitals, order, plain English, the vocabulary."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter.judge.identify import identify
from counter.judge.reading import read_line
from counter.reference.library import Library

LIBRARY = Library()
VOCABULARY = LIBRARY.vocabulary
STAMPS = (
    "1d black tied red mx",
    "1d red imperf pl 148",
    "2d blue white lines",
    "6d lilac pl 5",
    "1d red KC",
)
THINGS = (
    "docket",
    "docketed",
    "address",
    "addressed",
    "seal",
    "receiver",
    "endorsed",
    "written",
    "arrival mark",
)
INKS = ("brown", "red", "blue", "green", "black", "violet", "sepia")
PHRASES = {
    "blued": "paper=blued", "stars": "corners=stars", "imperf": "separation=imperforate", "thin": "fault=thin",
    "crease": "fault=crease", "tied": "tied=tied", "red mx": "cancel=maltese_cross", "og": "gum=unused_og",
    "repaired": "repair=repaired", "duplex": "cancel=duplex", "on cover": "attachment=cover",
    "white lines": "lines=present", "small crown": "watermark=small_crown", "registered": "mark=registered",
    "inverted wmk": "watermark_way=inverted", "chalky": "paper=chalky", "mint": "gum=unused_og",
}  # fmt: skip
CLAUSES = (
    "1d black",
    "pl 6",
    "KC",
    "red mx",
    "4 margins",
    "small thin at top",
    "small crown",
    "not tied",
    "no cert",
)
#: The beginnings of two novels in the public domain: Pride and Prejudice (1813), Emma (1815).
PROSE = (
    "It is a truth universally acknowledged, that a single man in possession of a good fortune, must be in "
    "want of a wife. However little known the feelings or views of such a man may be on his first entering a "
    "neighbourhood, this truth is so well fixed in the minds of the surrounding families, that he is "
    "considered as the rightful property of some one or other of their daughters. Emma Woodhouse, handsome, "
    "clever, and "
    "rich, with a comfortable home and happy disposition, seemed to unite some of the best blessings of "
    "existence; and had lived nearly twenty-one years in the world with very little to distress or vex her."
)


def said(line: str) -> list[tuple[str, str, str]]:
    return sorted(
        (each.kind, each.value, each.said) for each in read_line(line, VOCABULARY).observations
    )


def candidates(line: str) -> list[tuple[str, float]]:
    found = identify(read_line(line, VOCABULARY), LIBRARY.stamps)
    return [(each.issue_id, round(each.share, 9)) for each in found.candidates]


@settings(max_examples=120, deadline=None)
@given(st.sampled_from(STAMPS), st.sampled_from(THINGS), st.sampled_from(INKS), st.booleans())
def test_a_thing_in_a_colour_never_changes_the_stamp(
    line: str, thing: str, ink: str, comma: bool
) -> None:
    longer = f"{line}{',' if comma else ''} {thing} in {ink}"
    assert candidates(longer) == candidates(line)


@pytest.mark.parametrize("denial", ["not", "no", "without", "never", "free of", "w/o"])
@pytest.mark.parametrize("phrase", PHRASES)
def test_a_denied_thing_is_never_asserted(denial: str, phrase: str) -> None:
    reading = read_line(f"1d red, {denial} {phrase}", VOCABULARY)
    kind, _, value = PHRASES[phrase].partition("=")
    assert value not in [each.value for each in reading.all(kind)]


@pytest.mark.parametrize(
    ("line", "read"),
    [
        ("2d blue no lines", ("lines", "none", "is")),
        ("no 4 in cross", ("cancel_number", "4", "is")),
        ("pl. no. 93", ("plate", "93", "is")),
    ],
)
def test_the_trade_s_own_no_is_no_denial(line: str, read: tuple[str, str, str]) -> None:
    assert read in said(line)


@settings(max_examples=150, deadline=None)
@given(st.permutations(CLAUSES), st.integers(1, 3))
def test_order_of_clauses_and_spaces_do_not_matter(parts: list[str], spaces: int) -> None:
    assert said(f",{' ' * spaces}".join(parts)) == said(", ".join(CLAUSES))


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from(CLAUSES), max_size=6, unique=True))
def test_all_capitals_and_all_small_letters_read_alike(parts: list[str]) -> None:
    line = ", ".join(parts)
    assert said(line.upper()) == said(line.lower())


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from("ABCDEFGHIJKLMNOPQRST"),
    st.sampled_from("ABCDEFGHIJKL"),
    st.sampled_from(STAMPS[1:3]),
)
def test_capitals_in_a_small_line_only_add_letters(row: str, column: str, line: str) -> None:
    small, large = said(f"{line} {(row + column).lower()}"), said(f"{line} {row + column}")
    assert [each for each in large if each[0] != "letters"] == [
        each for each in said(line) if each[0] != "letters"
    ] or small == large


@pytest.mark.parametrize("sentence", PROSE.replace(";", ".").split("."))
def test_plain_english_is_never_mended(sentence: str) -> None:
    reading = read_line(sentence, VOCABULARY)
    assert not [each for each in reading.observations if each.slip]


def test_every_short_form_reads_as_its_word() -> None:
    """In a line that suits it; a few the trade leaves open are told by what stands beside them."""
    wrong = []
    for form, words in VOCABULARY.short_forms().items():
        frames = (
            "1d {}",
            "{} mx",
            "{} crown",
            "no {}",
            "crown {}",
            "{} margins",
            "{} pair",
            "{} blue",
            "4 {}",
            "sm {}",
            "plate {} 4",
        )
        alike = any(
            said(frame.format(form)) == said(frame.format(word)) for frame in frames for word in words
        )
        wrong += [] if alike else [form]
    assert not wrong


def test_the_stamps_of_a_multiple_are_told_apart() -> None:
    line = (
        "strip of 4 2d blue no lines pl 1 QE-QH, QH cut into at right, QG touched, QE and QF 4 margins"
    )
    reading = read_line(f"{line}, thin and corner crease in QH", VOCABULARY)
    assert [each.value for each in reading.all("letters")] == ["QE", "QF", "QG", "QH"]
    told = {(each.stamp, each.value) for kind in ("margins", "fault") for each in reading.all(kind)}
    assert told == {
        ("QH", "cut_into"), ("QG", "touched"), ("QE", "4"), ("QF", "4"), ("QH", "thin"), ("QH", "crease"),
    }  # fmt: skip


def test_a_near_second_is_shown_and_its_line_says_it() -> None:
    reading = read_line("2d blue LC perf 14", VOCABULARY)
    assert [each.words for each in reading.second] == ["letters L C: row 12, column 3"]
    assert read_line(reading.second[0].text, VOCABULARY).first("letters") == "LC"


def test_a_lettering_opens_a_clause_about_its_stamp() -> None:
    """At its first mention too, and with no comma between."""
    for line in (
        "pair 1d black: KA touched, KB 4 margins",
        "1d black pair KA-KB, KA touched KB 4 margins",
    ):
        told = [(each.stamp, each.value) for each in read_line(line, VOCABULARY).all("margins")]
        assert told == [("KA", "touched"), ("KB", "4")], line


@pytest.mark.parametrize("first", "UVWXYZ")
def test_a_number_of_our_own_is_one_whatever_stands_beside_it(first: str) -> None:
    """A laptop's numbers begin with two letters of its own; VF and VR are words of the trade as well."""
    for second in "BCDFGHJKLMNPQRSTVWXYZ":
        for number in ("1", "12", "148"):
            for typed in (
                f"{first}{second}-{number} photographed",
                f"{first}{second}-{number} £20".lower(),
            ):
                found = read_line(typed, LIBRARY.vocabulary).first("stock_number")
                assert found == f"{first}{second}{number}", typed
