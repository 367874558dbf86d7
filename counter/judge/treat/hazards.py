"""What a treatment's liquid or lamp may do to the person: statements, precautions, first aid, law."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from counter.reference.hazard_records import Band, Precaution
from counter.reference.treatment_records import Treatment
from counter.reference.treatments import Treatments
from counter.values.strength import StrengthReading

#: A peroxide of unknown strength is handled as the strongest grade sold over the counter.
_UNKNOWN_BAND = "h2o2_8_35"
_NEVER_MIX = {
    "peroxide": (
        "never_mix_spirit_peroxide",
        "never_mix_acetone_peroxide",
        "never_mix_bleach_peroxide",
    ),
    "spirit": ("never_mix_spirit_peroxide",),
}
_FIRST_AID = {
    "peroxide": ("h2o2_eye_first_aid", "h2o2_skin_first_aid", "h2o2_swallow_first_aid"),
    "spirit": ("petspirit_first_aid",),
}


@dataclass(frozen=True, slots=True)
class Notice:
    """One line for the person: where it stands in the reference, the words, the source."""

    code: str
    text: str
    source: str
    confidence: str


@dataclass(frozen=True, slots=True)
class Hazards:
    """The hazards of a liquid in hand.

    `h_codes` are the harmonised statements for the strength, `further` those that stand outside the
    harmonised limits (by transport class, or for the substance at higher strengths). `warnings`
    are what to know, wear and keep apart; `first_aid` what to do; `law` the precursor rules.
    """

    h_codes: tuple[str, ...] = ()
    h_words: tuple[str, ...] = ()
    p_codes: tuple[str, ...] = ()
    p_words: tuple[str, ...] = ()
    classes: tuple[str, ...] = ()
    signal: str = ""
    further: tuple[Notice, ...] = ()
    warnings: tuple[Notice, ...] = ()
    never_mix: tuple[Notice, ...] = ()
    first_aid: tuple[Notice, ...] = ()
    law: tuple[Notice, ...] = ()


def peroxide_hazards(readings: Sequence[StrengthReading], treatments: Treatments) -> Hazards:
    """The hazards of peroxide by the strongest reading of its label; none means unknown strength."""
    percent = max((each.strength.percent_ww for each in readings), default=None)
    band = treatments.bands[_UNKNOWN_BAND]
    if percent is not None:
        band = next(each for each in treatments.bands.values() if each.holds(percent))
    wear = _precautions(band, treatments)
    warnings = _warnings(("h2o2_ppe", "h2o2_incompat", "h2o2_inhale", "h2o2_disposal"), treatments)
    if percent is None:
        warnings.insert(0, _unknown(treatments))
    if band.advice:
        advice = f"{band.advice[:1].upper()}{band.advice[1:]}."
        warnings.append(Notice(band.id, advice, band.source, band.confidence))
    lowest = min((each.strength.percent_ww for each in readings), default=percent or 0.0)
    if percent is not None and not band.holds(lowest):
        text = "Read the other way the label falls in a lower band; the stronger reading is used."
        warnings.append(Notice("label_doubt", text, treatments.rules["label_doubt"].source, "high"))
    return Hazards(
        h_codes=band.h_codes,
        h_words=_words(band.h_codes, treatments),
        p_codes=tuple(code for each in wear for code in each.p_codes),
        p_words=tuple(word for each in wear for word in each.p_words),
        classes=band.classes,
        signal="" if band.signal == "none required" else band.signal,
        further=_further(percent, band.h_codes, treatments),
        warnings=tuple(warnings),
        never_mix=_apart("peroxide", treatments),
        first_aid=tuple(_warnings(_FIRST_AID["peroxide"], treatments)),
        law=_law(percent, treatments),
    )


def _precautions(band: Band, treatments: Treatments) -> list[Precaution]:
    """The precautions of a band; one with none of its own keeps those of the next weaker with some."""
    weaker = sorted(
        (each for each in treatments.bands.values() if each.min_ww <= band.min_ww),
        key=lambda each: -each.min_ww,
    )
    for each in weaker:
        found = [one for one in treatments.precautions.values() if each.id in one.for_bands]
        if found:
            return found
    return []


def treatment_hazards(
    treatment: Treatment, readings: Sequence[StrengthReading], treatments: Treatments
) -> Hazards:
    """The hazards of a treatment: peroxide by its strength, everything else as the reference lists."""
    if treatment.kind == "peroxide":
        return peroxide_hazards(readings, treatments)
    # the benzene entry warns of a wrong bottle: its statements are not the spirit's own
    listed = [treatments.hazards[name] for name in treatment.person_hazards]
    own = [each for each in listed if each.id != "petspirit_benzene"]
    codes = tuple(dict.fromkeys(code for each in own for code in each.h_codes))
    return Hazards(
        h_codes=codes,
        h_words=_words(codes, treatments),
        p_codes=tuple(dict.fromkeys(code for each in own for code in each.p_codes)),
        p_words=tuple(dict.fromkeys(word for each in own for word in each.p_words)),
        classes=tuple(dict.fromkeys(name for each in own for name in each.classes)),
        warnings=tuple(_warnings((each.id for each in listed if each.text), treatments)),
        never_mix=_apart(treatment.kind, treatments),
        first_aid=tuple(_warnings(_FIRST_AID.get(treatment.kind, ()), treatments)),
    )


def _warnings(names: Iterable[str], treatments: Treatments) -> list[Notice]:
    found = [treatments.hazards[name] for name in names]
    return [Notice(each.id, each.text, each.source, each.confidence) for each in found]


def _apart(kind: str, treatments: Treatments) -> tuple[Notice, ...]:
    """What must never meet this kind of liquid, the pair named first."""
    pairs = [treatments.hazards[name] for name in _NEVER_MIX.get(kind, ())]
    return tuple(
        Notice(each.id, f"{each.substance}: {each.text}", each.source, each.confidence)
        for each in pairs
    )


def _unknown(treatments: Treatments) -> Notice:
    reason = treatments.reasons["CONC_UNKNOWN"]
    return Notice(reason.code, reason.text, reason.source, "high")


def _words(codes: Iterable[str], treatments: Treatments) -> tuple[str, ...]:
    return tuple(treatments.hazard_words.h[code] for code in codes)


def _further(
    percent: float | None, already: tuple[str, ...], treatments: Treatments
) -> tuple[Notice, ...]:
    if percent is None:
        return ()
    said = []
    for steps in treatments.steps.values():
        for step in steps.bands:
            below = step.max_ww is None or percent < step.max_ww
            if step.min_ww <= percent and below and step.h not in already:
                text = f"{step.h}: {treatments.hazard_words.h[step.h]} ({steps.basis})"
                said.append(Notice(step.h, text, steps.source, steps.confidence))
    return tuple(said)


def _law(percent: float | None, treatments: Treatments) -> tuple[Notice, ...]:
    """The precursor rule: only a strength above the limit is regulated, the limit itself is not."""
    if percent is None or percent <= treatments.limits.precursor_limit_ww:
        return ()
    return tuple(_warnings(("uk_precursor_limit", "eu_precursor_limit"), treatments))
