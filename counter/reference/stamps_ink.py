"""Printing inks and papers, and what water, peroxide, spirit, light and steam do to them."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class InkVerdict:
    """One cell: `verdict` is never, only with care, tolerates or unknown (which means don't)."""

    verdict: str
    effect: str
    certainty: str
    source: str


@dataclass(frozen=True, slots=True)
class Ink:
    """An ink or prepared paper of the period; `special` holds cells for one stamp or chemical."""

    id: str
    name: str
    era: str
    process: str
    fugitive: str
    water: InkVerdict
    peroxide: InkVerdict
    benzine: InkVerdict
    light: InkVerdict
    steam: InkVerdict
    source: str
    confidence: str
    special: dict[str, InkVerdict] = field(default_factory=dict)
    notes: str = ""
