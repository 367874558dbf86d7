"""Peroxide by the numbers: constants, conversion tables, densities, worked dilutions, statements."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """One published number with its unit."""

    id: str
    kind: str
    value: float
    unit: str
    source: str
    confidence: str
    name: str = ""
    text: str = ""
    also: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class ConversionTable:
    """Strengths of one solution in several measures, a row each; published or worked out here.

    A row's keys: volume, percent_wv, percent_ww, molar, percent (basis not stated), allowed_wv_min,
    allowed_wv_max.
    """

    id: str
    published: bool
    rows: tuple[dict[str, float], ...]
    source: str
    confidence: str
    also: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class DensityPoint:
    """The density of a peroxide solution: % w/w, degrees Celsius, g/mL."""

    percent_ww: float
    t_c: float
    g_per_ml: float


@dataclass(frozen=True, slots=True)
class DensityTable:
    """A series of densities from one source."""

    id: str
    points: tuple[DensityPoint, ...]
    source: str
    confidence: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class DilutionExample:
    """A worked dilution, to check ours against."""

    id: str
    published: bool
    given: str
    result: str
    source: str
    confidence: str
    check: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Statement:
    """A reaction, formula, limit, conflict or piece of evidence, in words."""

    id: str
    kind: str
    source: str
    confidence: str
    name: str = ""
    text: str = ""
    equation: str = ""
    expression: str = ""
    exact: str = ""
    advice: str = ""
    numbers: dict[str, float] | None = None
    numbering: dict[str, str] | None = None
    also: tuple[str, ...] = ()
    note: str = ""
