"""What speaks for and against a candidate, in words, each with its source."""

from __future__ import annotations

from collections.abc import Iterator
from math import log2

from counter.judge.identify.evidence import Clue
from counter.judge.identify.figures import letters_fit
from counter.judge.identify.likelihood import STATES, TELLS, agrees, states, tell_of
from counter.judge.identify.model import Model, Row
from counter.judge.identify.variants import Variant, year_of
from counter.judge.identify.words import date_words, value_words
from counter.judge.judgement import Reason, Speaks, Strength
from counter.reference.stamps_issue import Issue

#: The field of an issue that each kind of observation rests on.
FIELDS = {
    "denomination": "denomination",
    "colour": "colours",
    "separation": "separation",
    "gauge": "gauge_h",
    "plate": "plates",
    "letters": "letter_grid",
    "corners": "check_letters",
    "watermark": "watermark",
    "watermark_way": "watermark_orientation",
    "paper": "paper",
    "lines": "white_lines",
    "die": "dies",
    "alphabet": "alphabets",
    "process": "print_process",
    "dots": "corner_dots",
    "overprint": "overprint",
    "phosphor": "phosphor",
    "date": "date_first_issued",
    "cancel": "date_first_issued",
}


def reasons_of(seen: tuple[Clue, ...], place: int, model: Model) -> tuple[Reason, ...]:
    """One reason for each piece of evidence on the variant at a place, the strongest first."""
    weighed = []
    for each in seen:
        row = model.row_of(each)
        if place not in row.reasons:
            row.reasons[place] = _reason(row, each, place, model)
        weighed.append((-abs(_bits(row, place)), row.reasons[place]))
    weighed.sort(key=lambda pair: pair[0])
    return tuple(reason for _, reason in weighed)


def _bits(row: Row, place: int) -> float:
    """How many bits the evidence speaks for the stamp against a stamp of any issue."""
    return log2(row.chances[place] / row.mean)


def _reason(row: Row, seen: Clue, place: int, model: Model) -> Reason:
    variant, bits = model.variants[place], _bits(row, place)
    against = contradicts(seen, variant, model)
    speaks: Speaks = "against" if against else ("for" if bits > -2.0 else "neutral")
    strong = abs(bits)
    strength: Strength = "strong" if strong > 3 else "moderate" if strong > 1 else "weak"
    source, confidence = standing_of(variant.issue, seen.kind)
    if seen.kind in ("date", "cancel") and variant.soft:
        source = confidence = "memory"
        strength = "weak" if against else strength  # such a date cautions, it does not condemn
    return Reason(
        code=f"{variant.issue.id}.{seen.kind}",
        text=_text(seen, variant, model, against=against),
        source=source,
        confidence=confidence,
        speaks=speaks,
        strength=strength,
        rests_on=seen.kind,
    )


def standing_of(issue: Issue, kind: str) -> tuple[str, str]:
    """Source and confidence of what an issue says of a kind; a field from memory says so."""
    name = FIELDS.get(kind, "")
    from_memory = [field.split(" ")[0] for field in issue.fields_from_memory]
    if name in from_memory or (name == "colours" and "values" in from_memory):
        return "memory", "memory"
    return issue.source, issue.confidence


def contradicts(seen: Clue, variant: Variant, model: Model) -> bool:
    """Whether the evidence is not what the reference gives for the stamp.

    A doubt contradicts nothing; a denial does where the stamp shows that state and no other.
    """
    if seen.said == "perhaps":
        return False
    if seen.said == "is not":
        possible = states(seen.kind, variant) if seen.kind in STATES else ()
        return bool(possible) and set(possible) <= set(model.values(seen.kind, seen.value))
    return any_contradicts(seen, variant, model)


def any_contradicts(seen: Clue, variant: Variant, model: Model) -> bool:
    """Whether none of the alternatives asserted is what the reference gives."""
    kind, told = seen.kind, variant.characters
    values = model.values(kind, seen.value)
    if kind in STATES:
        possible = states(kind, variant)
        return bool(possible) and not agrees(kind, variant, values, model.stamps.errors)
    if kind == "plate":
        numbers = model.stamps.plate_numbers[variant.issue.id]
        return bool(numbers) and not any(each in numbers or f"{each}a" in numbers for each in values)
    if kind == "letters":
        return bool(told.corners) and not any(
            len(each) <= told.letters and letters_fit(each, told.rows, told.columns) for each in values
        )
    if kind == "subject":
        return not model.of_set(variant, seen.value)
    if kind == "date" and _too_early(seen, variant):
        return True
    chance = model.chance(variant, kind, seen.value, seen.given)
    if chance is None:
        return False
    if kind == "colour" and _of_a_family(values, variant, model):
        return chance < _OTHER_NAME
    return chance < _DOUBTFUL[kind]


def _of_a_family(values: tuple[str, ...], variant: Variant, model: Model) -> bool:
    """Whether a colour said and one listed are of one family: one man's rose is another's carmine."""
    said = {family for each in values for family in model.palette.families(each)}
    return any(said & set(model.palette.families(each)) for each in variant.stamp.colours)


def _too_early(seen: Clue, variant: Variant) -> bool:
    try:
        return year_of(seen.value, end=True) < variant.first
    except ValueError:
        return False


#: Below this a colour of the family is another stamp's own name: Venetian red of a rose-red one.
_OTHER_NAME = 0.05
#: Below these a colour, gauge, date or cancel is not what the reference gives.
_DOUBTFUL = {
    "colour": 0.11,
    "gauge": 0.1,
    "date": 0.0005,
    "cancel": 0.02,
    "tell": 0.1,
    "condition": 0.1,
    "variety": 0.1,
}


_SAID = {"is": "", "is not": "not ", "perhaps": "perhaps "}


def _text(seen: Clue, variant: Variant, model: Model, *, against: bool) -> str:
    words = model.stamps.errors.characters[seen.kind].words
    said = f"{words}: {_SAID[seen.said]}{_said(seen, model)}"
    if seen.kind in TELLS:
        issues, says = tell_of(seen.kind, seen.value, model.stamps)
        does = "does not belong to this issue" if against else "fits"
        return f"{said} {does}: {says}" if issues else f"{said}, tells no issue from another"
    given = given_words(seen.kind, variant, model)
    if seen.kind == "subject":
        return f"{said} seen, this issue is no commemorative" if against else f"{said} fits"
    if not given:
        return f"{said}, not established for this issue"
    if seen.kind in ("date", "cancel"):
        return f"{said} seen, this issue was current {given}" if against else f"{said} fits {given}"
    if against:
        return f"{said} seen, this issue has {given}"
    return f"{said} agrees" if seen.kind in STATES else f"{said} fits {given}"


def _said(seen: Clue, model: Model) -> str:
    if seen.kind in STATES:
        each = (value_words(seen.kind, value, model) for value in seen.value.split("|"))
        return " or ".join(each)
    if seen.kind == "cancel":
        return seen.words
    return seen.value.replace("|", " or ")


def given_words(kind: str, variant: Variant, model: Model) -> str:
    """What the reference gives for a kind, in plain words; "" when it gives nothing."""
    issue, told = variant.issue, variant.characters
    if kind in STATES:
        return " or ".join(value_words(kind, state, model) for state in states(kind, variant))
    if kind == "colour":
        return ", ".join(variant.stamp.colours)
    if kind == "gauge":
        return " or ".join(told.gauges) or ("no perforations" if told.separations else "")
    if kind == "plate":
        return f"plates {', '.join(told.plates)}" if told.plates else ""
    if kind == "letters":
        return issue.letter_grid or issue.check_letters
    return date_words(issue) if kind in ("date", "cancel") else ""


def not_looked_at(seen: tuple[Clue, ...], place: int, model: Model) -> tuple[str, ...]:
    """The characters of the stamp at a place that could be looked at and were not, in words."""
    if place not in model.open_looks:
        model.open_looks[place] = tuple(_may_be_looked_at(model.variants[place], model))
    done = {each.kind for each in seen}
    return tuple(words for kind, words in model.open_looks[place] if kind not in done)


def _may_be_looked_at(variant: Variant, model: Model) -> Iterator[tuple[str, str]]:
    told, characters = variant.characters, model.stamps.errors.characters
    for kind in ("separation", "gauge", "corners", "watermark", "paper", "lines", "die"):
        if given_words(kind, variant, model) not in ("", "no perforations"):
            yield kind, characters[kind].words
    for kind, there in (
        ("alphabet", told.alphabets),
        ("plate", told.number_on_stamp),
        ("dots", told.dots),
    ):
        if there:
            yield kind, characters[kind].words
