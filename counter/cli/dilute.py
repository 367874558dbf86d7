"""`counter dilute`: how much water to add to what is at hand, to reach what is wanted."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.strength import hazard_lines, hazards_data, strength_data
from counter.judge.treat.hazards import peroxide_hazards
from counter.reference.treatments import Treatments
from counter.values.dilution import Dilution, Portion, dilute, read_portion


def arguments(parser: ArgumentParser) -> None:
    """What there is, and what is wanted; one of the two says how much."""
    parser.add_argument("--have", required=True, metavar="PORTION", help='"50 mL of 9 %% w/v"')
    parser.add_argument("--want", required=True, metavar="STRENGTH", help='"3 %% w/v"')


def run(chosen: Namespace, call: Call) -> Reply:
    """{take_ml, add_water_ml, total_ml, have, want, hazards, cautions...}; hazards of the stronger."""
    treatments = call.library.treatments
    have, want = read_portion(chosen.have), read_portion(chosen.want)
    made = dilute(have, want, treatments.scale)
    hazards = peroxide_hazards(have.label.readings(treatments.scale), treatments)
    cautions = _cautions(have, made, treatments)
    data = {
        "take_ml": round(made.take_ml, 2),
        "add_water_ml": round(made.add_water_ml, 2),
        "total_ml": round(made.total_ml, 2),
        "have": {"read_as": made.have.way, **strength_data(made.have.strength)},
        "want": {"read_as": made.want.way, **strength_data(made.want.strength)},
        **hazards_data(hazards),
        "cautions": [*cautions, *(each.text for each in (*hazards.warnings, *hazards.law))],
    }
    lines = [
        f"Take {made.take_ml:.1f} mL, add {made.add_water_ml:.1f} mL of water: "
        f"{made.total_ml:.1f} mL of {made.want.strength.percent_wv:.2f} % w/v.",
        *cautions,
        f"The {have.label.text} at hand:",
        *hazard_lines(hazards),
    ]
    return Reply(data, "\n".join(lines))


def _cautions(have: Portion, made: Dilution, treatments: Treatments) -> list[str]:
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
