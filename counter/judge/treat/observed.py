"""From what was seen, or from a line of stock, to what the treatment rules need to know."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from counter.judge.cover.finding import WORDS
from counter.judge.observation import Reading
from counter.judge.treat.subject import Subject
from counter.reference.treatments import Treatments
from counter.values.item import CoverFacts, Item

_PLAIN_RED = frozenset({"red", "orange"})
_PHOSPHOR = {"bands": "phosphor_coated", "graphite": "graphite_lined"}
#: Cancel kinds by how their ids begin, as far as the kind alone tells the ink.
_PEN = ("pen", "manuscript")
_RUBBER = ("rubber",)
_CROSS = ("maltese", "mx")
#: What a red cross of 1840 to 1844 has become when sulphide darkened it: no dye of a later day.
_DARKENED = frozenset({"brown", "blackish-brown", "brown-black", "red-brown"})
_NOT_TIED = frozenset({"not_tied"})


def subject_of_reading(reading: Reading, treatments: Treatments) -> Subject:
    """The subject of a line as read; which issue it may be is for the caller to add."""
    answers: dict[str, tuple[str, ...]] = {}
    for kind in ("gum", "paper", "writing", "repair", "certificate", "attachment"):
        seen = tuple(each.value for each in reading.all(kind))
        if seen:
            answers[kind] = seen
    _cancel(answers, reading.first("cancel"), reading.first("cancel_colour"))
    classes = set(_fault_classes((each.value for each in reading.all("fault")), True, treatments))
    classes |= _fault_classes((each.value for each in reading.all("condition")), False, treatments)
    doubted = [each for kind in ("fault", "condition") for each in reading.doubted(kind)]
    for value in (part for each in doubted for part in each.split("|")):
        classes |= _fault_classes((value,), True, treatments)  # a doubt counts as the worst
    if reading.first("cancel").startswith(_CROSS) and reading.first("cancel_colour") in _DARKENED:
        classes.add("sulphided_lead_ink")
    if "repaired" in reading.denied("repair"):
        answers.setdefault("repair", ("none",))
    classes |= {_PHOSPHOR[each.value] for each in reading.all("phosphor") if each.value in _PHOSPHOR}
    classes |= {"overprint"} if reading.first("overprint") else set()
    dyes = [each.value for each in (*reading.all("colour"), *reading.all("shade"))]
    classes |= {"aniline"} if any("aniline" in each for each in dyes) else set()
    tied = reading.first("tied")
    return Subject(
        (),
        reading.first("denomination"),
        answers,
        frozenset(classes),
        conditions=_NOT_TIED if tied == "not_tied" else frozenset(),
        refuted=_NOT_TIED if tied == "tied" else frozenset(),
    )


def subject_of_item(item: Item, treatments: Treatments) -> Subject:
    """The subject of a line of stock; a field that is empty was not noted and stays open."""
    answers: dict[str, tuple[str, ...]] = {}
    if item.gum:
        answers["gum"] = (item.gum,)
    if item.attachment:
        answers["attachment"] = (item.attachment,)
    if item.certificate:
        answers["certificate"] = ("yes",)
    _cancel(answers, item.cancel, item.cancel_colour)
    classes = _fault_classes((fault.term for fault in item.faults), True, treatments)
    if "aniline" in item.colour:
        classes |= {"aniline"}
    confirmed = frozenset(_of_cover(item.cover)) if item.cover else frozenset()
    issues = (item.issue,) if item.issue else ()
    refuted = _NOT_TIED if item.cover and item.cover.tied in ("tied", "yes") else frozenset()
    return Subject(issues, item.denomination, answers, frozenset(classes), confirmed, refuted)


def _of_cover(cover: CoverFacts) -> Iterator[str]:
    """The conditions that what is kept of the cover and its check fulfils."""
    if cover.tied in ("not tied", "not_tied"):
        yield "not_tied"
    if cover.finding.startswith(WORDS["contradicts"]):
        yield "cover_check_against"


def _cancel(answers: dict[str, tuple[str, ...]], cancel: str, colour: str) -> None:
    """The cancel's ink from kind and colour; a cancelled stamp counts as used unless gum is said."""
    unused = set(answers.get("gum", ())) & {"unused_og", "hinged", "no_gum", "unused"}
    if not cancel and not colour:
        if unused:
            answers["cancel"] = ("none",)
        return
    if cancel == "none":
        answers["cancel"] = ("none",)
        return
    answers.setdefault("gum", ("used",))
    ink = _cancel_ink(cancel, colour)
    if ink:
        answers["cancel"] = (ink,)


def _cancel_ink(cancel: str, colour: str) -> str:
    """ "" when neither the kind nor the colour tells: then the cancel's ink is asked."""
    if cancel.startswith(_PEN):
        return "pen"
    if cancel.startswith(_RUBBER):
        return "coloured"
    if not colour and cancel.endswith(("_red", "_black", "_blue")):
        colour = cancel.rpartition("_")[2]
    if colour == "black":
        return "black"
    if cancel.startswith(_CROSS) and colour in _DARKENED:
        return "red"
    if colour in _PLAIN_RED or "red" in colour.split("-"):
        return "red" if cancel.startswith(_CROSS) else "red_later"
    return "coloured" if colour else ""


def _fault_classes(words: Iterable[str], structural: bool, treatments: Treatments) -> set[str]:
    """The classes of fault words. A fault in no row counts as structural; a condition word does not."""
    found: set[str] = set()
    for word in words:
        row = next(
            (each for each in treatments.fault_classes if any(part in word for part in each.words)),
            None,
        )
        if row:
            found |= set(row.classes)
        elif structural:
            found.add("thin_tear_crease")
    return found
