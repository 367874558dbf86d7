"""`counter dilute`: how much water to add to what is at hand, to reach what is wanted."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.strength import hazard_lines, hazards_data, strength_data
from counter.judge.treat.hazards import peroxide_hazards
from counter.judge.treat.peroxide_cautions import dilution_cautions
from counter.values.dilution import dilute, read_portion


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
    cautions = dilution_cautions(have, made, treatments)
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
