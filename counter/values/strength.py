"""The strength of hydrogen peroxide: volume, % w/v, % w/w and mol/L, one into the other.

A volume strength is litres of oxygen at 0 °C and 1 atmosphere from a litre of solution. Some labels
reckon the gas at room temperature instead, so a "volume" has two readings, and so has a "%" that
does not say by weight of what.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from counter.values.errors import InputError

Basis = Literal["volume", "percent", "percent_wv", "percent_ww", "mol_per_litre"]
Way = Literal["w/v", "w/w", "mol/L", "volume at 0 °C", "volume at room temperature"]


@dataclass(frozen=True, slots=True)
class Strength:
    """One strength in every measure; `volume` is reckoned at 0 °C."""

    percent_wv: float
    percent_ww: float
    mol_per_litre: float
    volume: float


@dataclass(frozen=True, slots=True)
class StrengthReading:
    """One way to read a label: the strength it would be, and the way in words."""

    strength: Strength
    way: Way
    words: str


@dataclass(frozen=True, slots=True)
class Scale:
    """What the conversions rest on, as the handbooks give it.

    `molar_mass` in g/mol; `wv_per_volume` and `wv_per_volume_warm` are % w/v for one volume with the
    gas at 0 °C and at room temperature; `density` are (% w/w, g/mL) points in rising order, the
    first at 0.
    """

    molar_mass: float
    wv_per_volume: float
    wv_per_volume_warm: float
    density: tuple[tuple[float, float], ...]

    def from_wv(self, percent_wv: float) -> Strength:
        """The strength of so many grams in 100 mL; InputError above pure peroxide."""
        return Strength(
            percent_wv,
            self._ww(percent_wv),
            percent_wv * 10 / self.molar_mass,
            percent_wv / self.wv_per_volume,
        )

    def from_ww(self, percent_ww: float) -> Strength:
        """The strength of so many grams in 100 g; InputError above 100."""
        if percent_ww > self.density[-1][0]:
            raise _too_strong()
        low, high = self._segment(percent_ww, 0)
        slope = (high[1] - low[1]) / (high[0] - low[0])
        made = self.from_wv(percent_ww * (low[1] + slope * (percent_ww - low[0])))
        # the figure given stays exact: a hazard edge must not move by a rounding
        return Strength(made.percent_wv, percent_ww, made.mol_per_litre, made.volume)

    def from_molar(self, mol_per_litre: float) -> Strength:
        """The strength of so many moles in a litre; InputError above pure peroxide."""
        return self.from_wv(mol_per_litre * self.molar_mass / 10)

    def readings(self, amount: float, basis: Basis) -> tuple[StrengthReading, ...]:
        """Every way a label may be meant; raises InputError for a strength that cannot be."""
        if amount <= 0:
            raise InputError("A strength must be more than nothing; write it like 3 % w/v or 10 vol.")
        if basis == "volume":
            cold = self.from_wv(amount * self.wv_per_volume)
            warm = self.from_wv(amount * self.wv_per_volume_warm)
            return (
                StrengthReading(cold, "volume at 0 °C", "oxygen reckoned at 0 °C"),
                StrengthReading(
                    warm, "volume at room temperature", "oxygen reckoned at room temperature"
                ),
            )
        if basis == "percent_wv":
            return (StrengthReading(self.from_wv(amount), "w/v", "% w/v, as labelled"),)
        if basis == "percent_ww":
            return (StrengthReading(self.from_ww(amount), "w/w", "% w/w, as labelled"),)
        if basis == "mol_per_litre":
            return (StrengthReading(self.from_molar(amount), "mol/L", "mol/L, as labelled"),)
        return self._unlabelled(amount)

    def _unlabelled(self, amount: float) -> tuple[StrengthReading, ...]:
        by_volume = StrengthReading(self.from_wv(amount), "w/v", "% taken as w/v")
        if amount > self.density[-1][0]:
            return (by_volume,)
        return (by_volume, StrengthReading(self.from_ww(amount), "w/w", "% taken as w/w"))

    def _segment(self, value: float, column: int) -> tuple[tuple[float, float], tuple[float, float]]:
        """The neighbouring density points around a % w/w (column 0) or a % w/v (column 1)."""
        edges = [ww * density if column else ww for ww, density in self.density]
        at = min(max(bisect_right(edges, value), 1), len(edges) - 1)
        return self.density[at - 1], self.density[at]

    def _ww(self, percent_wv: float) -> float:
        """Solve ww x density(ww) = wv: between two points the density is a straight line."""
        if percent_wv > self.density[-1][0] * self.density[-1][1]:
            raise _too_strong()
        low, high = self._segment(percent_wv, 1)
        slope = (high[1] - low[1]) / (high[0] - low[0])
        level = low[1] - slope * low[0]
        return (sqrt(level * level + 4 * slope * percent_wv) - level) / (2 * slope)


def _too_strong() -> InputError:
    return InputError("That is stronger than pure peroxide; write the strength like 3 % w/v or 10 vol.")
