"""How likely a measured or counted character is: gauge, plate number, letters."""

from __future__ import annotations

import re
from math import exp

from counter.judge.identify.variants import Variant
from counter.reference.stamps import Stamps
from counter.reference.stamps_error import ErrorModel

_PART = re.compile(r"(\d+(?:\.\d+)?)?([½¼¾])?$")
_SIGNS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "": 0.0}


def gauge_figures(value: str) -> tuple[tuple[float, ...], float]:
    """A gauge as one or two figures and its ±: "15½x15" is ((15.5, 15.0), 0.0).

    Raises ValueError on anything else."""
    figures, _, spread = value.replace(" ", "").replace("×", "x").partition("±")
    made = tuple(_number(part) for part in figures.split("x"))
    if len(made) > 2:
        raise ValueError(f"A gauge has one or two figures, not {value!r}.")
    return made, _number(spread) if spread else 0.0


def _number(text: str) -> float:
    found = _PART.match(text)
    if not found or not text:
        raise ValueError(f"{text!r} is not a gauge figure.")
    return float(found[1] or 0) + _SIGNS[found[2] or ""]


def gauge_likelihood(variant: Variant, value: str, given: str, errors: ErrorModel) -> float | None:
    """P(this gauge is read | the stamp), relative to a reading right on the figure.

    `given` is the separation said beside it: against an imperforate stamp it has spoken already."""
    character = errors.characters["gauge"]
    slip = character.misread / character.others
    try:
        seen, spread = gauge_figures(value)
    except ValueError:
        return None
    if not variant.characters.gauges:
        imperforate = variant.characters.separations == ("imperforate",)
        return slip if imperforate and not given else None
    wide = (errors.figures["gauge_spread"] ** 2 + spread**2) ** 0.5
    best = max(_gauge_fit(seen, one, wide, errors) for one in variant.characters.gauges)
    return best * (1 - character.misread) + slip


def _gauge_fit(seen: tuple[float, ...], gauge: str, wide: float, errors: ErrorModel) -> float:
    (across, down), _ = gauge_figures(gauge)
    if len(seen) == 2:
        return _bell(seen[0] - across, wide) * _bell(seen[1] - down, wide)
    if across == down:
        return _bell(seen[0] - across, wide)
    one = max(_bell(seen[0] - across, wide), _bell(seen[0] - down, wide))
    return one * errors.figures["gauge_one_side_named"]


def _bell(away: float, wide: float) -> float:
    return exp(-0.5 * (away / wide) ** 2)


def plate_likelihood(variant: Variant, value: str, stamps: Stamps) -> float:
    """P(this plate number is given | the stamp), 0 to 1."""
    errors = stamps.errors
    numbers = stamps.plate_numbers[variant.issue.id]
    if variant.characters.number_on_stamp:
        character = errors.characters["plate"]
        weight, wrong, others = 1.0, character.misread, float(character.others)
    else:
        weight = errors.figures["plated_number"]
        wrong, others = errors.figures["plated_wrong"], errors.figures["plated_others"]
    slip = weight * wrong / others
    if not numbers:
        return slip
    if value in stamps.unused_plates[variant.issue.id]:
        slip += weight * errors.figures["plate_not_used"] / len(numbers)
    right = _is_plate(value, numbers)
    near = sum(1 for number in numbers if _half_read(number, value))
    chance = (1 - wrong) * right + wrong * 0.5 * near
    return weight * chance / len(numbers) + slip


def _is_plate(value: str, numbers: frozenset[str]) -> bool:
    """Plate 1 of the 1d black is 1a or 1b: states of one plate."""
    return value in numbers or (value.isdigit() and f"{value}a" in numbers)


def _half_read(number: str, value: str) -> bool:
    """One digit taken for another of its shape, or the first digit hidden by the cancel."""
    if number == value:
        return False
    if number.endswith(value) and len(number) == len(value) + 1:
        return True
    if len(number) != len(value):
        return False
    pairs = [{a, b} for a, b in zip(number, value, strict=True) if a != b]
    alike = ({"1", "7"}, {"3", "8"}, {"6", "9"}, {"6", "8"}, {"3", "7"}, {"5", "6"}, {"0", "8"})
    return len(pairs) == 1 and pairs[0] in alike


def letters_likelihood(variant: Variant, value: str, errors: ErrorModel) -> float | None:
    """P(these corner letters are read | the stamp), 0 to 1."""
    told, character = variant.characters, errors.characters["letters"]
    slip = character.misread / character.others
    if not told.corners:
        return None
    if told.letters == 0 or len(value) > told.letters:
        return errors.figures["letters_unasked"] / character.others
    count = (told.rows or 20) * (told.columns or 12)
    share = 1.0
    if told.letters == 4:
        lower_only = errors.figures["lower_letters_only"]
        share = lower_only if len(value) == 2 else 1 - lower_only
    if not letters_fit(value, told.rows, told.columns):
        return share * slip
    return share * (1 - character.misread) / count + share * slip


def letters_fit(value: str, rows: int, columns: int) -> bool:
    """Whether two letters, or four that mirror, name a place on a sheet of so many rows and
    columns. Unknown sheets (0) take any letter. Four run upper left to lower right."""
    lower = value[-2:]
    if len(value) == 4 and value[:2] != lower[::-1]:
        return False
    row, column = (ord(letter) - ord("A") + 1 for letter in lower)
    return 1 <= row <= (rows or 26) and 1 <= column <= (columns or 26)
