"""Which liquid a name on a bottle means; a name one letter from a safe one may be a poison."""

from __future__ import annotations

from dataclasses import dataclass

from rapidfuzz.distance import DamerauLevenshtein

from counter.reference.treatment_questions import Fluid
from counter.reference.treatments import Treatments
from counter.values.errors import InputError
from counter.values.strength_words import Label, read_label

_NEAR = 2  # letters wrong, missing or swapped


@dataclass(frozen=True, slots=True)
class FluidMatch:
    """The liquid a name means; `exact` is false when it is only near in spelling."""

    fluid: Fluid
    exact: bool


def name_fluid(text: str, treatments: Treatments) -> FluidMatch | None:
    """The liquid that a name or CAS number means, or None when no name is near.

    Where a name is as near to a barred liquid as to an allowed one, it counts as the barred one.
    """
    if label_of(text):  # "20 vol", "3 % solution BP": a bottle of peroxide says its strength
        return FluidMatch(treatments.fluids["hydrogen_peroxide"], True)
    return _nearest(_plain(text), treatments)


def label_of(text: str) -> Label | None:
    """The strength that a bottle's words give, or None where they give none."""
    try:
        label = read_label(text)
    except InputError:
        return None
    return label if label.parts else None


def name_half_typed(text: str, treatments: Treatments) -> FluidMatch | None:
    """The same of a name that may be half typed: "perox" is peroxide to come, not petrol misspelt.

    Only what may become no spirit is waited for: spirits and poisons are too near to one another.
    """
    plain = _plain(text)
    match = name_fluid(text, treatments)
    if match is None or match.exact:
        return match
    begun = [
        fluid
        for fluid in treatments.fluids.values()
        if any(f" {plain}" in f" {name}" for name in fluid.names)
    ]
    harmless = begun and not any(each.barred or _is_spirit(each, treatments) for each in begun)
    return None if harmless else match


def _is_spirit(fluid: Fluid, treatments: Treatments) -> bool:
    return treatments.treatments[fluid.treatment].kind == "spirit"


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _nearest(plain: str, treatments: Treatments) -> FluidMatch | None:
    best: tuple[int, bool, Fluid] | None = None
    for fluid in treatments.fluids.values():
        if any(number in plain for number in fluid.cas):
            return FluidMatch(fluid, True)
        for name in fluid.names:
            if name == plain:
                return FluidMatch(fluid, True)
            far = DamerauLevenshtein.distance(plain, name, score_cutoff=_NEAR)
            if far > _NEAR or far * 3 > len(name):
                continue
            found = (far, not fluid.barred, fluid)
            if best is None or _sooner(found, best):
                best = found
    return FluidMatch(best[2], best[0] == 0) if best else None


def _sooner(one: tuple[int, bool, Fluid], other: tuple[int, bool, Fluid]) -> bool:
    """An exact name wins; among misspelt ones a barred liquid wins whatever the distance."""
    if (one[0] == 0) != (other[0] == 0):
        return one[0] == 0
    return (one[1], one[0]) < (other[1], other[0])
