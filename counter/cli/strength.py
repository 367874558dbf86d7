"""`counter strength`: a bottle's strength in every measure, every way to read it, and its hazards."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Any

from counter.cli.call import Call, Reply
from counter.judge.treat.hazards import Hazards, Notice, peroxide_hazards
from counter.judge.treat.peroxide_cautions import strength_cautions
from counter.values.strength import Strength, StrengthReading
from counter.values.strength_words import Label, read_label


def arguments(parser: ArgumentParser) -> None:
    """The words on the bottle."""
    parser.add_argument(
        "text", metavar="TEXT", nargs="+", help='what the bottle says: "20 vol", "3 %% w/v", "old"'
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{percent_wv, percent_ww, mol_per_litre, volume, hazards, readings, ...}; the strongest reading
    is given first and decides the hazards. An unknown strength has nulls and no readings.
    """
    treatments = call.library.treatments
    label = read_label(" ".join(chosen.text))
    readings = label.readings(treatments.scale)
    hazards = peroxide_hazards(readings, treatments)
    cautions = strength_cautions(readings, treatments)
    data = {
        **(strength_data(readings[0].strength) if readings else _UNKNOWN),
        **hazards_data(hazards),
        "known": bool(readings),
        "readings": [
            {"read_as": each.way, "words": each.words, **strength_data(each.strength)}
            for each in readings
        ],
        "cautions": [*cautions, *(each.text for each in (*hazards.warnings, *hazards.law))],
    }
    return Reply(data, "\n".join(_lines(label, readings, hazards, cautions)))


_UNKNOWN: dict[str, Any] = dict.fromkeys(("percent_wv", "percent_ww", "mol_per_litre", "volume"))


def strength_data(strength: Strength) -> dict[str, float]:
    """A strength for JSON, to four figures after the point."""
    return {
        "percent_wv": round(strength.percent_wv, 4),
        "percent_ww": round(strength.percent_ww, 4),
        "mol_per_litre": round(strength.mol_per_litre, 4),
        "volume": round(strength.volume, 4),
    }


def hazards_data(hazards: Hazards) -> dict[str, Any]:
    """The hazard part of an answer for JSON; `hazards` are the harmonised H statements."""
    return {
        "hazards": list(hazards.h_codes),
        "hazard_words": list(hazards.h_words),
        "precautions": list(hazards.p_codes),
        "precaution_words": list(hazards.p_words),
        "signal": hazards.signal,
        "further": [notice_data(each) for each in hazards.further],
        "never_mix": [notice_data(each) for each in hazards.never_mix],
        "first_aid": [notice_data(each) for each in hazards.first_aid],
        "law": [notice_data(each) for each in hazards.law],
    }


def notice_data(notice: Notice) -> dict[str, str]:
    """One notice for JSON."""
    return {
        "code": notice.code,
        "text": notice.text,
        "source": notice.source,
        "confidence": notice.confidence,
    }


def hazard_lines(hazards: Hazards) -> list[str]:
    """The hazard part of an answer in words."""
    lines = [f"{code}: {word}" for code, word in zip(hazards.h_codes, hazards.h_words, strict=True)]
    if hazards.signal:
        lines = [f"{hazards.signal}.", *lines]
    lines += [each.text for each in hazards.further]
    if hazards.p_codes:
        lines.append(f"Do ({', '.join(hazards.p_codes)}): {'; '.join(hazards.p_words)}.")
    lines += [each.text for each in (*hazards.warnings, *hazards.law)]
    lines += [f"Never mix: {each.text}" for each in hazards.never_mix]
    return lines + [f"First aid: {each.text}" for each in hazards.first_aid]


def _lines(
    label: Label, readings: tuple[StrengthReading, ...], hazards: Hazards, cautions: list[str]
) -> list[str]:
    lines = [f"{label.text}: strength not known."] if not readings else []
    for each in readings:
        made = each.strength
        lines.append(
            f"{made.percent_wv:.2f} % w/v = {made.percent_ww:.2f} % w/w = "
            f"{made.mol_per_litre:.2f} mol/L = {made.volume:.1f} volume  ({each.words})"
        )
    if not hazards.h_codes:
        lines.append("No hazard class at this strength by the harmonised limits.")
    return lines + cautions + hazard_lines(hazards)
