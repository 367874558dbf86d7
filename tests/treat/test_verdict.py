"""The full verdict: cases by name, and that it never becomes milder for more."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter.judge.treat.plan import DEFERENCE, Plan, TreatmentVerdict
from counter.judge.treat.subject import Subject
from counter.judge.treat.verdict import may_i_treat
from counter.judge.treat.verdict_order import strictness
from counter.reference.library import Library
from counter.values.errors import InputError
from counter.values.item import TreatmentDone
from counter.values.strength import StrengthReading
from counter.values.strength_words import read_label

LIBRARY = Library()
TODAY = date(2025, 3, 1)
KNOWN = {
    "gum": ("used",),
    "attachment": ("loose",),
    "paper": ("white",),
    "cancel": ("black",),
    "writing": ("none",),
    "repair": ("none",),
    "certificate": ("no",),
    "sulphided_lead_ink": ("yes",),
}
ISSUE = "penny_red_four_letters"
ISSUES = sorted(LIBRARY.stamps.issues)


def label(text: str) -> tuple[StrengthReading, ...]:
    return read_label(text).readings(LIBRARY.treatments.scale)


def asked(subject: Subject, plan: Plan) -> TreatmentVerdict:
    return may_i_treat(subject, plan, LIBRARY.stamps, LIBRARY.treatments, today=TODAY)


def loose(issue: str, **answers: str) -> Subject:
    return Subject((issue,), answers=KNOWN | {key: (value,) for key, value in answers.items()})


@pytest.mark.parametrize(
    "issue",
    ["penny_black_1840", "penny_red_imperf_alphabet_one", "penny_red_four_letters", "two_pence_sc14"],
)
@pytest.mark.parametrize("treatment", ["peroxide_brush", "peroxide_immersion"])
def test_thirty_seconds_at_three_per_cent_is_with_care_and_disputed(issue: str, treatment: str) -> None:
    answer = asked(loose(issue), Plan(treatment, label("3 % w/v"), 30))
    assert (answer.verdict, answer.disputed, answer.asks) == ("with care", True, ())
    sides = {reason.speaks for reason in answer.reasons}
    assert sides == {"for", "against"} and all(reason.source for reason in answer.reasons)
    assert answer.cautions[-1] == DEFERENCE
    assert any("sulphide darkening" in caution for caution in answer.cautions)


def test_the_same_dish_for_ten_minutes_is_never() -> None:
    answer = asked(loose("penny_red_four_letters"), Plan("peroxide_immersion", label("3 % w/v"), 600))
    assert answer.verdict == "never" and answer.could_be == "never" and not answer.disputed
    assert answer.reasons[0].code == "TIME_LONG"


# bp_6 and usp_topical: 2.5 to 3.5 % w/v is the pharmacopoeial 3 %; rule conc_cap refuses above.
@pytest.mark.parametrize(
    ("strength", "verdict"),
    [
        ("3 % w/v", "with care"),
        ("3 %", "with care"),
        ("10 vol", "with care"),
        ("3.5 % w/v", "with care"),
        ("3.6 % w/v", "never"),
        ("12 vol", "never"),
        ("6 %", "never"),
        ("20 vol", "never"),
        ("old bottle", "never"),
    ],
)
def test_the_strength_cap(strength: str, verdict: str) -> None:
    answer = asked(loose("penny_black_1840"), Plan("peroxide_brush", label(strength), 30))
    assert answer.verdict == verdict


def test_a_strength_not_said_is_asked() -> None:
    answer = asked(loose("penny_black_1840"), Plan("peroxide_brush", None, 30))
    assert (answer.verdict, answer.could_be) == ("never", "with care")
    assert [each.key for each in answer.asks] == ["strength"]


@pytest.mark.parametrize("issue", ["qv_9d_1883", "qv_1s_1884", "qv_2d_1884", "qv_6d_1865_emblems"])
@pytest.mark.parametrize("treatment", ["soak_float", "soak_immersion", "peroxide_brush"])
def test_fugitive_colours_never_whatever_is_answered(issue: str, treatment: str) -> None:
    answer = asked(loose(issue), Plan(treatment, label("3 %"), 30))
    assert (answer.verdict, answer.could_be, answer.asks) == ("never", "never", ())


def test_on_a_stamp_in_its_own_colour_there_is_nothing_to_cure() -> None:
    # rule peroxide_only_sulphide and reason NOT_SULPHIDE: common practice
    sound = {key: value for key, value in KNOWN.items() if key != "sulphided_lead_ink"}
    plan = Plan("peroxide_brush", label("3 %"), 30)
    answer = asked(Subject(("penny_black_1840",), answers=sound), plan)
    assert (answer.verdict, answer.could_be) == ("never", "with care")
    assert [each.key for each in answer.asks] == ["sulphided_lead_ink"]
    answer = asked(loose("penny_black_1840", sulphided_lead_ink="no"), plan)
    assert (answer.verdict, answer.could_be, answer.asks) == ("never", "never", ())
    assert any(reason.code == "NOT_SULPHIDE" for reason in answer.reasons)


def test_blanks_count_as_the_worst_and_are_asked() -> None:
    answer = asked(
        Subject(("penny_red_imperf_alphabet_one",)), Plan("peroxide_brush", label("3 %"), 30)
    )
    assert (answer.verdict, answer.could_be, answer.disputed) == ("never", "with care", True)
    assert {each.key for each in answer.asks} == set(KNOWN)
    paper = next(each for each in answer.asks if each.key == "paper")
    assert {value: verdict for value, _, verdict in paper.choices} == {
        "blued": "never",
        "white": "with care",
    }


def test_a_question_that_cannot_change_the_verdict_is_not_asked() -> None:
    assert asked(Subject(("qv_9d_1883",)), Plan("soak_float")).asks == ()


@pytest.mark.parametrize(
    ("answers", "classes"),
    [
        ({"paper": "blued"}, "blued_paper"),
        ({"gum": "unused_og"}, "unused_og"),
        ({"attachment": "cover"}, "on_cover"),
        ({"writing": "iron_gall"}, "iron_gall"),
        ({"writing": "copying_pencil"}, "copying_pencil"),
        ({"repair": "suspected"}, "repaired_painted"),
        ({"certificate": "yes"}, "certified_or_rare"),
    ],
)
def test_one_never_ends_the_question(answers: dict[str, str], classes: str) -> None:
    answer = asked(
        loose("penny_red_imperf_alphabet_one", **answers), Plan("peroxide_brush", label("3 %"), 30)
    )
    assert answer.verdict == "never" and classes in answer.classes


CONDITIONS = ("not_tied", "cover_check_against", "owner_agrees", "photographed")


def test_off_cover_only_when_every_condition_is_confirmed() -> None:
    subject = loose("penny_red_four_letters", attachment="cover")
    answer = asked(subject, Plan("soak_float"))
    assert (answer.verdict, answer.could_be) == ("never", "with care")
    assert [each.key for each in answer.asks] == list(CONDITIONS)
    some = Subject(subject.issues, answers=subject.answers, conditions=frozenset(CONDITIONS[:3]))
    assert asked(some, Plan("soak_float")).verdict == "never"
    every = Subject(subject.issues, answers=subject.answers, conditions=frozenset(CONDITIONS))
    assert asked(every, Plan("soak_float")).verdict == "with care"


def test_on_cover_the_stricter_side_of_a_dispute_decides() -> None:
    # cancel_red_1840 x soak_immersion: with care in the trade, dissent never (circular_1840)
    red = loose("penny_black_1840", cancel="red")
    assert asked(red, Plan("soak_immersion")).verdict == "with care"
    assert asked(red, Plan("soak_immersion")).disputed
    on_cover = Subject(
        red.issues, answers={**red.answers, "attachment": ("cover",)}, conditions=frozenset(CONDITIONS)
    )
    answer = asked(on_cover, Plan("soak_immersion"))
    assert (answer.verdict, answer.disputed) == ("never", True)


def test_not_identified_is_unknown_and_could_not_be_milder() -> None:
    answer = asked(Subject(answers=KNOWN), Plan("soak_float"))
    assert (answer.verdict, answer.could_be) == ("unknown", "unknown")


def test_which_issue_is_asked_while_it_is_open() -> None:
    subject = Subject(("penny_red_four_letters", "qv_9d_1883"), answers=KNOWN)
    answer = asked(subject, Plan("soak_float"))
    assert (answer.verdict, answer.could_be) == ("never", "with care")
    assert [each.key for each in answer.asks] == ["issue"]


@pytest.mark.parametrize("treatment", ["watermark_dry", "uv_longwave", "hinge_dry", "do_nothing"])
def test_at_a_stall_only_dry_looks(treatment: str) -> None:
    assert asked(loose("penny_red_four_letters"), Plan(treatment, where="stall")).verdict != "never"
    wet = asked(loose("penny_red_four_letters"), Plan("soak_float", where="stall"))
    assert wet.verdict == "never" and wet.reasons[0].code == "NOT_AT_FAIR"
    at_home = asked(loose("penny_red_four_letters"), Plan("soak_float"))
    assert any(caution.startswith("At home, with water to hand") for caution in at_home.cautions)


def test_no_second_wet_treatment_the_same_day() -> None:
    done = TreatmentDone(TODAY.isoformat(), "soak_float")
    again = asked(loose("penny_red_four_letters"), Plan("soak_float", earlier=(done,)))
    assert again.verdict == "never" and again.reasons[0].code == "no_second_bath"
    looked = TreatmentDone(TODAY.isoformat(), "uv_longwave")
    assert (
        asked(loose("penny_red_four_letters"), Plan("soak_float", earlier=(looked,))).verdict
        == "with care"
    )
    before = TreatmentDone("2025-02-27", "soak_float")
    assert (
        asked(loose("penny_red_four_letters"), Plan("soak_float", earlier=(before,))).verdict
        == "with care"
    )


@pytest.mark.parametrize(
    "treatment",
    [
        "steam",
        "iron_heat",
        "bleach_hypochlorite",
        "acetone",
        "peroxide_vapour",
        "soap_wash",
        "alteration",
    ],
)
def test_folk_methods_are_never(treatment: str) -> None:
    assert asked(loose("penny_black_1840"), Plan(treatment)).verdict == "never"


def test_a_treatment_nobody_knows() -> None:
    with pytest.raises(InputError, match="soak_float"):
        asked(loose("penny_black_1840"), Plan("lick_it"))


def test_the_1d_lilac_floats_no_longer_than_its_own_cap() -> None:
    answer = asked(loose("qv_1d_lilac_die2"), Plan("soak_float", seconds=200))
    assert answer.seconds == (None, 300)


# Nothing more may ever make the answer milder.
classes = st.sampled_from(sorted(LIBRARY.treatments.classes))
matrix = st.sampled_from(LIBRARY.treatments.limits.matrix_treatments)
answered = st.dictionaries(
    st.sampled_from(sorted(LIBRARY.treatments.questions)), st.integers(0, 5), max_size=7
).map(
    lambda picked: {
        key: (
            LIBRARY.treatments.questions[key]
            .choices[at % len(LIBRARY.treatments.questions[key].choices)]
            .value,
        )
        for key, at in picked.items()
    }
)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.sampled_from(ISSUES), max_size=2, unique=True),
    answered,
    st.frozensets(classes, max_size=3),
    classes,
    matrix,
    st.sampled_from(["1 %", "3 %", "3.5 % w/v", "6 %", "30 vol", "old bottle"]),
)
def test_never_milder_when_a_class_or_fault_is_added(
    issues: list[str],
    answers: dict[str, tuple[str, ...]],
    known: frozenset[str],
    more: str,
    treatment: str,
    strength: str,
) -> None:
    plan = Plan(treatment, label(strength), 30)
    before = asked(Subject(tuple(issues), "", answers, known), plan)
    after = asked(Subject(tuple(issues), "", answers, known | {more}), plan)
    assert strictness(after.verdict) >= strictness(before.verdict)
    assert strictness(after.could_be) >= strictness(before.could_be)
    assert strictness(before.verdict) >= strictness(before.could_be)


@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from(ISSUES),
    answered,
    matrix,
    st.tuples(st.floats(0.1, 60), st.floats(0, 40)),
    st.tuples(st.integers(1, 2000), st.integers(0, 90_000)),
)
def test_never_milder_when_stronger_or_longer(
    issue: str,
    answers: dict[str, tuple[str, ...]],
    treatment: str,
    strong: tuple[float, float],
    long: tuple[int, int],
) -> None:
    subject = Subject((issue,), "", answers)
    mild = asked(subject, Plan(treatment, label(f"{strong[0]:.4f} % w/v"), long[0]))
    stronger = asked(subject, Plan(treatment, label(f"{sum(strong):.4f} % w/v"), long[0]))
    longer = asked(subject, Plan(treatment, label(f"{strong[0]:.4f} % w/v"), sum(long)))
    assert strictness(stronger.verdict) >= strictness(mild.verdict)
    assert strictness(longer.verdict) >= strictness(mild.verdict)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(ISSUES), answered, matrix)
def test_answering_a_question_lands_between_worst_and_best(
    issue: str, answers: dict[str, tuple[str, ...]], treatment: str
) -> None:
    plan = Plan(treatment, label("3 %"), 10)
    before = asked(Subject((issue,), "", answers), plan)
    for ask in before.asks:
        if ask.key not in KNOWN:
            continue
        for value, _, _ in ask.choices:
            after = asked(Subject((issue,), "", {**answers, ask.key: (value,)}), plan)
            assert strictness(after.verdict) <= strictness(before.verdict)
            assert strictness(after.could_be) >= strictness(before.could_be)


def test_while_the_issue_is_not_settled_each_is_told_and_the_strictest_counts() -> None:
    two = ("qv_1d_lilac_die2", "penny_red_four_letters")
    answer = asked(Subject(two, answers=KNOWN), Plan("soak_float"))
    alone = {issue: asked(loose(issue), Plan("soak_float")) for issue in two}
    assert {each.issue: each.verdict for each in answer.if_issue} == {
        issue: one.verdict for issue, one in alone.items()
    }
    assert {one.verdict for one in alone.values()} == {"never", "with care"}
    assert answer.verdict == "never" and answer.asks[0].key == "issue"
    assert all(set(each.classes) <= set(alone[each.issue].classes) for each in answer.if_issue)
    assert all(each.classes for each in answer.if_issue)
    assert asked(loose(two[0]), Plan("soak_float")).if_issue == ()


def test_a_tied_stamp_never_comes_off_and_nobody_asks_whether_it_is_tied() -> None:
    on_cover = KNOWN | {"attachment": ("cover",)}
    asks = asked(Subject((ISSUE,), answers=on_cover), Plan("soak_float")).asks
    assert {ask.key for ask in asks} == set(CONDITIONS)
    tied = Subject((ISSUE,), answers=on_cover, refuted=frozenset({"not_tied"}))
    answer = asked(tied, Plan("soak_float"))
    assert (answer.verdict, answer.could_be, answer.asks) == ("never", "never", ())
