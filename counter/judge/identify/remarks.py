"""Combinations that cannot be: named as such, whatever the shares say."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify.model import Model
from counter.judge.judgement import Reason
from counter.judge.observation import Reading

#: Colours that the Maltese cross is known in without being a rarity (common practice).
_USUAL_CROSSES = frozenset({"red", "black"})
#: Words of a look that is a shade or a sulphided colour; nobody can tell which from the word.
_DARK_WORDS = frozenset({"dark", "dk", "darkish", "darker", "dull", "chocolate"})
_DARK = (
    "a dark or dull look on a line-engraved stamp is more often sulphide in the air than a rare shade: "
    "compare the back, the paper's edge and a known copy before it is described or priced as a shade"
)


def remarks_on(reading: Reading, first: str, model: Model) -> tuple[Reason, ...]:
    """Plates never put to press, letters that no sheet has, watermarks that never meet letters,
    the patterns of cleaned stamps and stained crosses, and a dark look taken for a shade."""
    seen = [each for each in reading.observations if each.said == "is"]
    values = {each.kind: each.value for each in reversed(seen)}
    return (
        *_plate_remarks(values, first, model),
        *_letter_remarks(values),
        *_rule_remarks(values, model),
        *_pattern_remarks(values, first, model),
        *_dark_look(reading, first, model),
    )


def _plate_remarks(values: dict[str, str], first: str, model: Model) -> Iterator[Reason]:
    number = values.get("plate", "")
    issue = model.stamps.weighed(first)
    if not number or number not in model.stamps.unused_plates[first]:
        return
    for abnormal in issue.plates_not_regular:
        if abnormal.plate == number:
            text = f"{issue.name}: plate {number} is not a regular plate: {abnormal.why}"
            yield Reason(f"{first}.plate", text, issue.source, issue.confidence, "against", "strong")
            return
    for plate in model.stamps.plates_of(first, number):
        if not plate.used:
            note = f" ({plate.note})" if plate.note else ""
            text = f"{issue.name}: plate {number} {plate.status}{note}"
            yield Reason(plate.id, text, plate.source, plate.confidence, "against", "strong")
            return


def _letter_remarks(values: dict[str, str]) -> Iterator[Reason]:
    letters = values.get("letters", "")
    if letters == "OPPC":
        text = "O P over P C: the known error of the 1½d plate 1, faked from plate 3"
        yield Reason("error_op_pc", text, "plate_study_pages", "high")
    elif len(letters) == 4 and letters[:2] != letters[2:][::-1]:
        text = "the upper pair is not the lower pair reversed: misread, or a made-up piece"
        yield Reason("upper_corners_reversed", text, "wikipedia_penny_red", "high", "against")
    elif letters and letters[-2] > "T":
        text = f"row {letters[-2]} is beyond T, the last row of any sheet of check letters"
        yield Reason("impossible_letterings", text, "forgeries_reference", "high", "against")


def _rule_remarks(values: dict[str, str], model: Model) -> Iterator[Reason]:
    """The published rules that two characters must keep together."""
    marks = set(model.values("watermark", values.get("watermark", "")))
    coloured = values.get("corners") == "coloured_letters"
    broken = []
    if coloured and marks and marks <= {"emblems", "emblems_error"}:
        broken.append("letters_then_emblems")
    if values.get("denomination") == "4d" and marks and marks <= {"emblems", "spray_of_rose"}:
        broken.append("4d_has_garter")
    if values.get("reign") == "edward_7" and values.get("gauge") == "15x14":
        broken.append("gauge_15x14")
    for name in broken:
        rule = model.stamps.cross_checks[name]
        speaks = "for" if name == "gauge_15x14" else "against"
        yield Reason(rule.id, rule.rule, rule.source, rule.confidence, speaks)  # type: ignore[arg-type]


def _pattern_remarks(values: dict[str, str], first: str, model: Model) -> Iterator[Reason]:
    """What an unused or oddly cancelled stamp of the issues so faked should be tested for."""
    patterns = []
    cleaned = values.get("gum") in ("no_gum", "unused") or values.get("cancel") == "none"
    if cleaned:
        patterns.append("removed_cancel_or_pen")
    colour = values.get("cancel_colour", "")
    if values.get("cancel") == "maltese_cross" and colour and colour not in _USUAL_CROSSES:
        patterns.append("faked_cross_colour")
    for name in patterns:
        lookalike = model.stamps.lookalikes[name]
        if first in lookalike.looks_like:
            text = f"{lookalike.name}: {'; '.join(lookalike.tell)}"
            yield Reason(name, text, lookalike.source, lookalike.confidence)


def _dark_look(reading: Reading, first: str, model: Model) -> Iterator[Reason]:
    """A line-engraved stamp called dark: sulphide is thought of before a shade; a cancel may be dark."""
    if model.stamps.weighed(first).characters.processes != ("line_engraved",):
        return
    shades = [reading.text[each.start : each.end] for each in reading.all("shade")]
    cancels = {each.start for each in reading.observations if each.kind.startswith("cancel")}
    words = [each.text for each in reading.unread if each.end + 1 not in cancels]
    if any(each.strip().lower() in _DARK_WORDS for each in (*shades, *words)):
        yield Reason("sulphided_colour", _DARK, "common practice", "medium")
