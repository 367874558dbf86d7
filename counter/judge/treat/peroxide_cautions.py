"""What a strength, or a dilution, means for use here: the cap, and what to do about it."""

from __future__ import annotations

from collections.abc import Sequence

from counter.reference.treatments import Treatments
from counter.values.dilution import Dilution, Portion
from counter.values.strength import StrengthReading


def strength_cautions(readings: Sequence[StrengthReading], treatments: Treatments) -> list[str]:
    """What the readings of a label (strongest first; none: not known) mean for use."""
    cap = treatments.limits.peroxide_refuse_above_wv
    if not readings:
        return ["Strength not known: treated as too strong, and no treatment is guided with it."]
    if readings[0].strength.percent_wv > cap:
        return [
            f"Above {cap:g} % w/v: no treatment is guided with it. Buy fresh 3 % (10 volume) instead."
        ]
    return []


def dilution_cautions(have: Portion, made: Dilution, treatments: Treatments) -> list[str]:
    """What to mind when this is diluted, a sentence each; `have` is of a known strength."""
    limits = treatments.limits
    said = [treatments.statements["dilution_water"].text]
    strongest = have.label.readings(treatments.scale)[0].strength
    if strongest.percent_ww >= limits.eye_damage_from_ww:
        said.append("This strength damages eyes: buy fresh 3 % (10 volume) instead.")
    elif strongest.percent_wv > limits.peroxide_refuse_above_wv:
        said.append("Goggles on while handling it.")
    if made.want.strength.percent_wv > limits.peroxide_refuse_above_wv:
        said.append(f"No treatment is guided above {limits.peroxide_refuse_above_wv:g} % w/v.")
    largest = treatments.dimensions["working_volume"]
    if largest.value and made.total_ml > largest.value:
        said.append(f"No job needs more than {largest.value:g} mL; make only what is used.")
    if strongest.percent_ww > limits.precursor_limit_ww:
        said.append("Volumes do not quite add up at this strength; the figures are a guide.")
    return said
