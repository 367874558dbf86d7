"""From words and stock to what the rules need: cancels, gum, faults, papers."""

import pytest
from msgspec.structs import replace

from counter.judge.observation import Observation, Reading
from counter.judge.treat.observed import subject_of_item, subject_of_reading
from counter.reference.treatments import Treatments
from counter.values.item import Certificate, CoverFacts, Fault, Item


def reading(*seen: tuple[str, str]) -> Reading:
    return Reading("", tuple(Observation(kind, value, value) for kind, value in seen))


@pytest.mark.parametrize(
    ("cancel", "colour", "ink"),
    [
        ("maltese_cross", "red", "red"),
        ("maltese_cross", "black", "black"),
        ("maltese_cross", "blue", "coloured"),
        ("maltese_cross", "orange", "red"),
        ("mx_red", "", "red"),
        ("mx_black", "", "black"),
        ("cds", "red", "red_later"),
        ("numeral", "black", "black"),
        ("duplex", "green", "coloured"),
        ("rubber_datestamp", "black", "coloured"),
        ("pen", "", "pen"),
        ("none", "", "none"),
    ],
)
def test_the_ink_of_a_cancel(cancel: str, colour: str, ink: str, treatments: Treatments) -> None:
    seen = [("cancel", cancel)] + ([("cancel_colour", colour)] if colour else [])
    assert subject_of_reading(reading(*seen), treatments).answers["cancel"] == (ink,)


def test_a_cancel_whose_ink_is_not_told_is_asked(treatments: Treatments) -> None:
    answers = subject_of_reading(reading(("cancel", "numeral")), treatments).answers
    assert "cancel" not in answers and answers["gum"] == ("used",)


def test_unused_means_no_cancel_and_said_gum_wins_over_a_cancel(treatments: Treatments) -> None:
    assert subject_of_reading(reading(("gum", "unused_og")), treatments).answers["cancel"] == ("none",)
    both = reading(("gum", "unused_og"), ("cancel", "cds"), ("cancel_colour", "black"))
    assert subject_of_reading(both, treatments).answers["gum"] == ("unused_og",)


# Every fault term of the trade's list lands where the treatment classes put it.
@pytest.mark.parametrize(
    ("fault", "classes"),
    [
        ("thin", {"thin_tear_crease"}),
        ("tear", {"thin_tear_crease"}),
        ("closed_tear", {"thin_tear_crease"}),
        ("crease", {"thin_tear_crease"}),
        ("bend", {"thin_tear_crease"}),
        ("pinhole", {"thin_tear_crease"}),
        ("pulled_perf", {"thin_tear_crease"}),
        ("clipped_perf", {"thin_tear_crease"}),
        ("rubbed", {"thin_tear_crease"}),
        ("a fault nobody listed", {"thin_tear_crease"}),
        ("stain", {"foxed_toned"}),
        ("light_toning", {"foxed_toned"}),
        ("sulphided", {"sulphided_lead_ink"}),
        ("repaired", {"repaired_painted"}),
        ("rebacked", {"repaired_painted"}),
        ("regummed", {"repaired_painted"}),
        ("margins_added", {"repaired_painted"}),
        ("reperforated", {"repaired_painted"}),
        ("cleaned", {"repaired_painted"}),
        ("gum_wrinkle", {"unused_og"}),
        ("hinge_remains", set()),
        ("faded", set()),
    ],
)
def test_faults_and_their_classes(fault: str, classes: set[str], treatments: Treatments) -> None:
    assert subject_of_reading(reading(("fault", fault)), treatments).classes == classes
    assert subject_of_item(Item("1", faults=(Fault(fault),)), treatments).classes == classes


@pytest.mark.parametrize(
    ("kind", "value", "classes"),
    [
        ("condition", "sulphided", {"sulphided_lead_ink"}),
        ("condition", "foxed", {"foxed_toned"}),
        ("condition", "tape", {"tape_stained"}),
        ("condition", "superb", set()),
        ("phosphor", "bands", {"phosphor_coated"}),
        ("overprint", "GOVT PARCELS", {"overprint"}),
        ("shade", "aniline", {"aniline"}),
        ("colour", "aniline scarlet", {"aniline"}),
    ],
)
def test_other_things_seen(kind: str, value: str, classes: set[str], treatments: Treatments) -> None:
    assert subject_of_reading(reading((kind, value)), treatments).classes == classes


def test_a_line_of_stock(treatments: Treatments) -> None:
    item = Item(
        "WK-1",
        issue="penny_black_1840",
        gum="used",
        cancel="maltese_cross",
        cancel_colour="red",
        faults=(Fault("thin", "top left"),),
        attachment="cover",
        cover=CoverFacts(tied="not tied"),
        certificate=Certificate("an expert committee"),
    )
    subject = subject_of_item(item, treatments)
    assert subject.issues == ("penny_black_1840",)
    assert subject.answers == {
        "gum": ("used",),
        "attachment": ("cover",),
        "certificate": ("yes",),
        "cancel": ("red",),
    }
    assert subject.classes == {"thin_tear_crease"} and subject.conditions == {"not_tied"}


def test_what_stock_does_not_note_stays_open(treatments: Treatments) -> None:
    subject = subject_of_item(Item("WK-2"), treatments)
    assert subject.issues == () and subject.answers == {} and subject.classes == frozenset()


def test_the_kept_finding_of_the_cover_check_answers_its_condition(treatments: Treatments) -> None:
    against = CoverFacts(tied="tied", finding="speaks against belonging (rate)")
    for_it = CoverFacts(finding="speaks for belonging, as far as it was looked at")
    item = Item("WK-3", attachment="cover", cover=against)
    assert subject_of_item(item, treatments).conditions == {"cover_check_against"}
    assert not subject_of_item(replace(item, cover=for_it), treatments).conditions


def test_a_tie_that_was_seen_is_known_either_way(treatments: Treatments) -> None:
    tied = subject_of_reading(reading(("tied", "tied")), treatments)
    assert (tied.conditions, tied.refuted) == (frozenset(), {"not_tied"})
    loose = subject_of_reading(reading(("tied", "not_tied")), treatments)
    assert (loose.conditions, loose.refuted) == ({"not_tied"}, frozenset())
    assert subject_of_reading(reading(), treatments).refuted == frozenset()
    assert subject_of_item(Item("1", cover=CoverFacts(tied="tied")), treatments).refuted == {"not_tied"}
