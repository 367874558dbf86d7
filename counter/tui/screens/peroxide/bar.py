"""The strength bar: the hazard bands side by side, and where the bottle in hand stands on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counter.reference.treatments import Treatments
from counter.tui.widgets.text import Line
from counter.values.strength import StrengthReading


@dataclass(frozen=True, slots=True)
class _Part:
    """A stretch of the bar: from and to in % w/w, its share of the width, how it is drawn."""

    low: float
    high: float
    share: float
    fill: str
    ink: str
    words: str


#: The weak end is what is used here, so it is drawn widest; all above 35 % is one stretch.
_PARTS = (
    _Part(0, 5, 0.35, "░", "good", "below 5 %"),
    _Part(5, 8, 0.19, "▒", "care", "5 to 8 %"),
    _Part(8, 35, 0.30, "▓", "bad", "8 to 35 %"),
    _Part(35, 100, 0.16, "█", "bad", "35 % up"),
)


def bar_lines(readings: Sequence[StrengthReading], treatments: Treatments, width: int) -> list[Line]:
    """The bar in % w/w for a width: the bottle above it, bands and statements and limits below."""
    room = max(width - 4, 40)
    cells = [round(part.share * room) for part in _PARTS]
    limits = treatments.limits
    cap = treatments.scale.from_wv(limits.peroxide_refuse_above_wv).percent_ww
    low = _at(cap, cells)
    high = _at(limits.precursor_limit_ww, cells)
    return [
        _hand(readings, cells),
        [("  ", "plain"), *((part.fill * n, part.ink) for part, n in zip(_PARTS, cells, strict=True))],
        _row([part.words for part in _PARTS], cells, "plain"),
        _row([_codes(part, treatments) for part in _PARTS], cells, "dim"),
        *_limits(
            (low, f"▴ our cap {limits.peroxide_refuse_above_wv:g} % w/v"),
            (high, f"▴ {limits.precursor_limit_ww:g} % precursor limit"),
        ),
    ]


def reading_lines(readings: Sequence[StrengthReading]) -> list[Line]:
    """Every reading of the label in every measure, the one that decides marked by a word."""
    head = f"  {'% w/v':>8}{'% w/w':>9}{'mol/L':>9}{'volume':>9}   read as"
    lines: list[Line] = [[(head, "head")]]
    for place, each in enumerate(readings):
        made = each.strength
        figures = (
            f"  {made.percent_wv:>8.2f}{made.percent_ww:>9.2f}"
            f"{made.mol_per_litre:>9.2f}{made.volume:>9.1f}   "
        )
        decides = " ◂ decides" if place == 0 and len(readings) > 1 else ""
        lines.append([(figures, "price"), (each.words, "plain"), (decides, "accent")])
    return lines


def _at(percent_ww: float, cells: Sequence[int]) -> int:
    """The cell of the bar where a strength stands."""
    before = 0
    for part, count in zip(_PARTS, cells, strict=True):
        if percent_ww < part.high or part is _PARTS[-1]:
            along = (percent_ww - part.low) / (part.high - part.low)
            return before + min(int(along * count), count - 1)
        before += count
    return before


def _hand(readings: Sequence[StrengthReading], cells: Sequence[int]) -> Line:
    if not readings:
        return [("  strength not known: handled as 8 to 35 %", "bad")]
    marks = sorted({_at(each.strength.percent_ww, cells) for each in readings})
    row = [" "] * (sum(cells) + 2)
    for mark in marks:
        row[mark + 2] = "▼"
    words = " the bottle, read both ways" if len(marks) > 1 else " the bottle"
    text = "".join(row).rstrip()
    if len(text) + len(words) <= sum(cells) + 2:
        return [(text, "strong"), (words, "dim")]
    start = marks[0] + 2 - len(words)
    return [
        (" " * max(start, 0), "plain"),
        (words.strip() + " ", "dim"),
        (text[marks[0] + 2 :], "strong"),
    ]


def _limits(*marks: tuple[int, str]) -> list[Line]:
    """The limits beneath the bar: on one line where they do not run into each other."""
    lines: list[Line] = []
    at = 0
    for place, words in marks:
        if lines and place + 2 > at:
            lines[-1] += [(" " * (place + 2 - at), "plain"), (words, "accent")]
        else:
            lines.append([(" " * (place + 2), "plain"), (words, "accent")])
        at = place + 2 + len(words)
    return lines


def _row(words: Sequence[str], cells: Sequence[int], ink: str) -> Line:
    parts = [text[: count - 1].ljust(count) for text, count in zip(words, cells, strict=True)]
    return [("  " + "".join(parts), ink)]


def _codes(part: _Part, treatments: Treatments) -> str:
    """The statements of a stretch that is one band; the last stretch holds several, each worse."""
    bands = [band for band in treatments.bands.values() if part.low <= band.min_ww < part.high]
    if len(bands) > 1:
        return "and worse"
    return " ".join(bands[0].h_codes) or "no class"
