"""Cases for the measures of the identification: generated from the reference, not from the judge.

A stamp is drawn, and what an examiner would say of it is read off its reference record. A wrong
observation is drawn from the confusions of the error model, or from any other value of its kind.
`allowed` is the declared set: every issue whose own record allows all that was said.
"""

from __future__ import annotations

import random
from collections.abc import Sequence

from counter.judge.identify.likelihood import STATES
from counter.judge.identify.model import Model
from counter.judge.identify.variants import Variant
from counter.judge.observation import Observation, Reading

KINDS = (*STATES, "colour", "gauge", "plate", "letters", "date")
SILENT = {("phosphor", "none"), ("overprint", "none"), ("lines", "none"), ("watermark_way", "upright")}


def states_of(kind: str, variant: Variant, model: Model) -> tuple[str, ...]:
    """What may truly be said of a stamp, by kind."""
    if kind == "letters":
        return lettering(variant, random.Random(variant.issue.id))
    if kind == "date":
        last = max(int(variant.last), int(variant.first) + 1)
        return tuple(str(year) for year in range(int(variant.first) + 1, last + 1))
    return model.possible(kind, variant)


def lettering(variant: Variant, luck: random.Random) -> tuple[str, ...]:
    told = variant.characters
    if not told.letters:
        return ()
    row = chr(64 + luck.randint(1, told.rows or 20))
    column = chr(64 + luck.randint(1, told.columns or 12))
    return (row + column,) if told.letters == 2 else (column + row + row + column,)


def clean(variant: Variant, model: Model, luck: random.Random) -> dict[str, str]:
    """Everything that can be said of a stamp, all of it right."""
    said = {}
    for kind in KINDS:
        choice = states_of(kind, variant, model)
        if choice and (kind, value := luck.choice(choice)) not in SILENT:
            said[kind] = value
    if luck.random() < 0.5:
        said.pop("series", None)  # a design is as often described as named
    return said


def spoil(said: dict[str, str], model: Model, luck: random.Random) -> tuple[dict[str, str], str]:
    """The same with one observation wrong, and its kind."""
    kinds = [kind for kind in said if wrong_values(kind, said[kind], model)]
    kind = luck.choice(kinds)
    row = model.stamps.errors.seen_as.get((kind, said[kind]), {})
    usual = [each for each in row.values() if not each.agrees]
    others = wrong_values(kind, said[kind], model)
    if usual and luck.random() < 0.7:
        wrong = luck.choices([each.seen for each in usual], [each.share for each in usual])[0]
    else:
        wrong = luck.choice(others)
    return {**said, kind: wrong}, kind


def wrong_values(kind: str, right: str, model: Model) -> list[str]:
    """Other values of a kind anywhere in the reference; misread letters and plates are made."""
    if kind == "letters":
        return [right[:-1] + chr(65 + (ord(right[-1]) - 64) % 12)] if len(right) == 2 else ["AB"]
    if kind == "date":
        return [str(int(right) + years) for years in (-30, -10, 10, 30)]
    every = {value for variant in model.variants for value in model.possible(kind, variant)}
    return sorted(every - {right})


def allowed(said: dict[str, str], model: Model) -> set[str]:
    """The issues whose record allows everything said: what no examiner could tell apart."""
    return {
        variant.issue.id
        for variant in model.variants
        if all(_allows(kind, value, variant, model) for kind, value in said.items())
    }


def _allows(kind: str, value: str, variant: Variant, model: Model) -> bool:
    told = variant.characters
    if kind == "colour":
        names = [model.palette.main(each) for each in variant.stamp.colours]
        return not names or value in names
    if kind == "letters":
        return told.letters >= len(value) or not told.corners
    if kind == "date":
        return variant.first <= int(value) + 1 and int(value) <= variant.last + 1
    if kind == "gauge":
        return value in model.possible(kind, variant) or not (told.gauges or told.separations)
    if kind == "plate":
        numbers = model.stamps.plate_numbers[variant.issue.id]
        return value in numbers
    states = STATES[kind](variant)
    loose = (model.stamps.errors.seen_as.get((kind, state), {}).get(value) for state in states)
    return not states or value in states or any(row and row.agrees for row in loose)


def reading(said: dict[str, str] | Sequence[tuple[str, str]]) -> Reading:
    pairs = said.items() if isinstance(said, dict) else said
    return Reading("", tuple(Observation(kind, value, value) for kind, value in pairs))
