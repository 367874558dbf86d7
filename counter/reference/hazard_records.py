"""Hazards to the person: peroxide by strength, other liquids and lamps, first aid and the law."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Band:
    """A band of peroxide strength (% w/w, top exclusive unless `top_inclusive`) and its classing."""

    id: str
    min_ww: float
    max_ww: float
    top_inclusive: bool
    classes: tuple[str, ...]
    h_codes: tuple[str, ...]
    signal: str
    pictograms: tuple[str, ...]
    basis: str
    source: str
    confidence: str
    advice: str = ""
    also: tuple[str, ...] = ()

    def holds(self, percent_ww: float) -> bool:
        """Whether a strength falls in this band."""
        under = percent_ww <= self.max_ww if self.top_inclusive else percent_ww < self.max_ww
        return self.min_ww <= percent_ww and under


@dataclass(frozen=True, slots=True)
class StepAt:
    """From `min_ww` % w/w on (up to `max_ww` if given) a further H statement applies."""

    min_ww: float
    h: str
    max_ww: float | None = None
    category: int | None = None
    un: int | None = None


@dataclass(frozen=True, slots=True)
class Steps:
    """Further statements by strength that stand outside the harmonised limits."""

    id: str
    substance: str
    classes: tuple[str, ...]
    h_codes: tuple[str, ...]
    basis: str
    bands: tuple[StepAt, ...]
    source: str
    confidence: str
    also: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Precaution:
    """The P statements, and what to do in words, for bands of peroxide strength."""

    id: str
    for_bands: tuple[str, ...]
    p_codes: tuple[str, ...]
    p_words: tuple[str, ...]
    source: str
    confidence: str
    also: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Grade:
    """A bottle as sold: the strengths (% w/w) such a label may stand for, and its H codes."""

    label: str
    ww_low: float
    ww_high: float
    h: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Hazard:
    """One hazard, first-aid note or law in plain words, with its codes and figures."""

    id: str
    substance: str
    source: str
    confidence: str
    text: str = ""
    classes: tuple[str, ...] = ()
    h_codes: tuple[str, ...] = ()
    h_codes_may: tuple[str, ...] = ()
    p_codes: tuple[str, ...] = ()
    p_words: tuple[str, ...] = ()
    cas: tuple[str, ...] = ()
    basis: str = ""
    numbers: dict[str, float] | None = None
    grades: tuple[Grade, ...] = ()
    also: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class HazardWords:
    """What each H statement says, in short words of our own."""

    h: dict[str, str]
    source: str
    confidence: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Dimension:
    """A published time, temperature, humidity or limit."""

    id: str
    quantity: str
    unit: str
    source: str
    confidence: str
    min: float | None = None
    max: float | None = None
    value: float | None = None
    tolerance: float | None = None
    ranges: dict[str, tuple[float, ...]] | None = None
    text: str = ""
    note: str = ""
