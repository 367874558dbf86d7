"""The next look: entropies against scipy, the choice against every answer weighed out in full."""

from math import isclose

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter.judge.identify import identify, next_looks
from counter.judge.identify.evidence import evidence_of
from counter.judge.identify.model import Model, model_of
from counter.judge.identify.next_look import entropy, information, look_values, looks_worth
from counter.judge.identify.shares import weigh
from counter.judge.observation import Observation, Reading
from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.reference.stamps import Stamps
from tests.identify.test_stall_lines import told

from .conftest import reading

_STAMPS = Library().stamps


def scipy_entropy(chances: list[float]) -> float:
    """Outside reference: scipy.stats.entropy, base 2; seconds to import, so only where it is asked."""
    from scipy.stats import entropy as outside

    return float(outside(chances, base=2))


@given(st.lists(st.floats(0, 1), min_size=1, max_size=20).filter(lambda chances: sum(chances) > 0.01))
def test_entropy_against_scipy(chances: list[float]) -> None:
    whole = sum(chances)
    shares = [chance / whole for chance in chances]
    assert isclose(entropy(shares), scipy_entropy(shares), abs_tol=1e-9)


@pytest.mark.parametrize("kind", ["watermark", "corners", "denomination", "separation", "gauge"])
def test_information_is_the_entropy_expected_to_go(model: Model, kind: str) -> None:
    """H(issue) less the mean of H(issue | answer), with scipy's entropies and Bayes by hand."""
    seen = evidence_of(reading(denomination="1d", colour="red").observations, model.stamps.errors)
    if kind == "denomination":
        seen = evidence_of(reading(colour="red").observations, model.stamps.errors)
    shares = weigh(seen, model)
    live = tuple(name for name, share in shares.issues.items() if share >= 1e-4)
    values = look_values(kind, live, shares, model)
    bits, chances = information(kind, values, live, shares, model)
    whole = sum(shares.issues[name] for name in live)
    before = scipy_entropy([shares.issues[name] for name in live])
    after = 0.0
    for value, chance in zip(values, chances, strict=True):
        told = []
        for name in live:
            start, end = model.spans[name]
            joint = 0.0
            for place in range(start, end):
                row = {each: model.row(kind, each).chances[place] for each in values}
                joint += shares.variants[place] / whole * row[value] / sum(row.values())
            told.append(joint)
        assert isclose(sum(told), chance, abs_tol=1e-9)
        after += chance * scipy_entropy(told)
    assert isclose(bits, before - after, abs_tol=1e-6)
    assert isclose(sum(chances), 1, abs_tol=1e-9)


def test_the_best_look_stands_first(model: Model) -> None:
    seen = evidence_of(reading(denomination="1d", colour="red").observations, model.stamps.errors)
    every = looks_worth(seen, weigh(seen, model), model, wet=False)
    first = next_looks(reading(denomination="1d", colour="red"), model.stamps)[0]
    assert first.bits / first.seconds == max(look.bits / look.seconds for look in every)


def test_at_most_three_and_dry(stamps: Stamps) -> None:
    looks = next_looks(Reading("", ()), stamps)
    assert len(looks) == 3
    assert not any(look.wets for look in looks)


def test_wet_looks_only_when_asked(model: Model) -> None:
    seen = evidence_of(reading(denomination="3d", colour="rose").observations, model.stamps.errors)
    shares = weigh(seen, model)
    assert not any(look.wets for look in looks_worth(seen, shares, model, wet=False))
    assert any(look.wets for look in looks_worth(seen, shares, model, wet=True))


def test_plain_words_with_the_answers(stamps: Stamps) -> None:
    said = reading(denomination="3d", colour="rose", corners="large_white_letters", plate="4")
    look = next_looks(said, stamps)[0]
    assert look.kind == "watermark"
    assert look.words.startswith("Hold it to the light: ")
    assert {answer.words for answer in look.answers[:2]} == {"heraldic emblems", "spray of rose"}
    assert look.answers[0].observation.kind == "watermark"


def test_answering_settles_it(stamps: Stamps) -> None:
    said = reading(denomination="3d", colour="rose", corners="large_white_letters", plate="4")
    look = next_looks(said, stamps)[0]
    emblems = next(each for each in look.answers if each.words == "heraldic emblems")
    found = identify(Reading("", (*said.observations, emblems.observation)), stamps)
    assert found.together == ("qv_3d_1865_emblems",)


def test_what_was_seen_is_not_asked_again(stamps: Stamps) -> None:
    said = reading(denomination="1d", colour="red", watermark="small_crown", separation="perforated")
    assert not {look.kind for look in next_looks(said, stamps, most=20)} & {
        "denomination",
        "colour",
        "watermark",
        "separation",
    }


def test_nothing_worth_a_look_when_all_is_told(stamps: Stamps) -> None:
    said = reading(
        denomination="8d", colour="orange", watermark="large_garter", plate="1", reign="victoria"
    )
    assert all(look.bits < 0.2 for look in next_looks(said, stamps))


@settings(max_examples=25, deadline=None)
@given(
    st.sampled_from(["1d", "2d", "6d", "1s", "2½d", "£1"]), st.sampled_from(["red", "blue", "green"])
)
def test_information_is_never_more_than_there_is(value: str, colour: str) -> None:
    model = model_of(_STAMPS)
    said = reading(denomination=value, colour=colour)
    left = entropy(weigh(evidence_of(said.observations, model.stamps.errors), model).issues.values())
    for look in next_looks(said, _STAMPS, most=20):
        assert 0 < look.bits <= left + 0.2
        assert isclose(sum(answer.chance for answer in look.answers), 1, abs_tol=1e-6)
        assert isinstance(look.answers[0].observation, Observation)


def test_a_look_is_offered_whenever_the_first_is_not_sure(library: Library) -> None:
    """Over every hurried line: under 95 per cent there is something to look at, if only once more."""
    for line, *_ in told():
        said = read_line(line, library.vocabulary)
        found = identify(said, library.stamps)
        if found.candidates and found.candidates[0].share < 0.95 and found.none_of_these < 0.5:
            assert next_looks(said, library.stamps), line


@pytest.mark.parametrize(
    ("line", "kinds"),
    [
        ("seahorse 2/6", {"printer", "height", "background"}),
        ("e7 ½d green", {"printer", "gauge", "paper"}),
        ("wilding 2½d", {"phosphor", "watermark", "paper"}),
        ("lilac and green 1884", {"watermark_way"}),
    ],
)
def test_what_parts_printings_alike_in_design_is_asked(
    library: Library, line: str, kinds: set[str]
) -> None:
    looks = next_looks(read_line(line, library.vocabulary), library.stamps, most=12)
    assert kinds <= {look.kind for look in looks}, [look.words for look in looks]
