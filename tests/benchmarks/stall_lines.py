"""Hurried lines drawn without the identifier: a stamp as often as it turns up, what is said of it, slips.

The weights, the chances of being said and the chances of being wrong stand in stall_truths.toml; what
may truly be said of a stamp is read off its reference record. Nothing here knows how shares are made.
"""

from __future__ import annotations

import random
import tomllib
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from counter.judge.observation import Observation, Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Issue, Stamp
from counter.reference.stamps_plate import expand

_TOLD = Path(__file__).with_name("stall_truths.toml")
_SHADES = ("pale ", "deep ", "dull ", "bright ", "light ", "very ", "full ", "intense ")
_ALIKE = {"1": "7", "7": "1", "3": "8", "8": "3", "6": "9", "9": "6", "0": "8", "5": "6"}
_UNLIKE = {"C": "G", "G": "C", "E": "F", "F": "E", "O": "Q", "Q": "O", "I": "L", "L": "I", "P": "R"}


@cache
def told() -> dict[str, Any]:
    """The figures of stall_truths.toml."""
    return tomllib.loads(_TOLD.read_text(encoding="utf-8"))


@dataclass
class Line:
    """A line as said: the truth, the observations, and which of them are wrong. `unsaid` is what
    could still be said, rightly."""

    issue: str
    said: dict[str, str] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)
    unsaid: dict[str, str] = field(default_factory=dict)

    def reading(self, **more: str) -> Reading:
        """The line as the reader would hand it on."""
        pairs = {**self.said, **more}.items()
        return Reading("", tuple(Observation(kind, value, value) for kind, value in pairs))


def lines(stamps: Stamps, count: int, seed: int) -> list[Line]:
    """So many lines, always the same ones for a seed."""
    luck = random.Random(seed)
    weights = {name: told()["turns_up"].get(name, 0.0) for name in stamps.issues}
    names = luck.choices(list(weights), list(weights.values()), k=count)
    return [_line(stamps.issues[name], stamps, luck) for name in names]


def _line(issue: Issue, stamps: Stamps, luck: random.Random) -> Line:
    stamp = luck.choice(issue.characters.stamps)
    truths = _truths(issue, stamp, stamps, luck)
    chances = told()["said"][_family(issue)]
    made = Line(issue.id)
    printed = issue.characters.number_on_stamp
    for kind, value in truths.items():
        name = "plate_printed" if kind == "plate" and printed else kind
        if luck.random() >= chances.get(name, 0.0):
            made.unsaid[kind] = value
            continue
        made.said[kind] = value
        if luck.random() < told()["wrong"].get(kind, 0.0):
            made.said[kind] = _slip(kind, value, luck)
            if made.said[kind] != value:
                made.wrong.append(kind)
    if len(made.said) < 2:
        return _line(issue, stamps, luck)
    if made.said.get("gauge") == "imperforate":
        made.said["separation"] = made.said.pop("gauge")
    elif "gauge" in made.said and luck.random() < 0.8:
        made.said.pop("separation", None)  # who gives the gauge need not say perforated
    return made


def _family(issue: Issue) -> str:
    reigns, processes = issue.characters.reigns, issue.characters.processes
    if processes == ("line_engraved",):
        return "line_engraved"
    return "surface_printed" if reigns == ("victoria",) else "later"


def _truths(issue: Issue, stamp: Stamp, stamps: Stamps, luck: random.Random) -> dict[str, str]:
    """One true value of each kind that this stamp has."""
    character = issue.characters
    found = {"denomination": stamp.value}
    if stamp.colours:
        found["colour"] = _spoken(luck.choice(stamp.colours), luck)
    states = {
        "separation": character.separations,
        "gauge": character.gauges,
        "corners": character.corners,
        "watermark": stamp.watermarks or character.watermarks,
        "alphabet": character.alphabets,
        "die": character.dies,
        "paper": character.papers,
        "lines": character.lines,
        "reign": character.reigns,
        "series": tuple(each for each in character.series if each != "line_engraved"),
        "process": character.processes,
        "dots": character.dots,
        "overprint": character.overprints,
        "phosphor": character.phosphor,
        "printer": character.printers,
    }
    found |= {kind: luck.choice(each) for kind, each in states.items() if each}
    if found.get("gauge"):
        across, _, down = found["gauge"].partition("x")
        found["gauge"] = across if across == down else found["gauge"]
    if found.get("watermark", "").startswith("large_crown"):
        found["watermark"] = "large_crown_1|large_crown_2"
    if numbers := sorted(expand(character.plates)):
        found["plate"] = luck.choice(numbers)
    if character.letters:
        found["letters"] = _lettering(issue, luck)
    first = int(character.issued.earliest[:4] or 1840)
    last = int(character.superseded.latest[:4] or 1980)
    found["date"] = str(min(luck.randint(first, last) + (luck.random() < 0.15), 1980))
    found["cancel"] = _cancel(int(found["date"]), luck)
    return found


def _spoken(colour: str, luck: random.Random) -> str:
    """The colour as it is said: without its shade, a 1d red mostly just red."""
    for word in _SHADES:
        colour = colour.removeprefix(word)
    colour = colour.split(" (")[0]
    if colour in ("red-brown", "rose-red", "lake-red", "brick-red") and luck.random() < 0.5:
        return "red"
    return colour


def _lettering(issue: Issue, luck: random.Random) -> str:
    row = chr(64 + luck.randint(1, issue.characters.rows or 20))
    column = chr(64 + luck.randint(1, issue.characters.columns or 12))
    if issue.characters.letters == 4 and luck.random() < 0.5:
        return column + row + row + column
    return row + column


def _cancel(year: int, luck: random.Random) -> str:
    if year < 1844:
        return "maltese_cross"
    if year == 1844:
        return luck.choice(("maltese_cross", "numeral"))
    if year < 1855:
        return "numeral"
    if year < 1880:
        return luck.choice(("numeral", "duplex", "cds"))
    return luck.choice(("cds", "squared_circle", "duplex") if year < 1905 else ("cds", "machine"))


def _slip(kind: str, value: str, luck: random.Random) -> str:
    """The value wrongly said."""
    if kind == "gauge":
        if luck.random() < 0.3:
            return "imperforate"
        whole = int(value.partition("x")[0].rstrip("½"))
        return str(luck.choice((whole - 1, whole + 1)) if whole != 16 else 15)
    if kind == "letters":
        return _letters_slip(value, luck)
    if kind == "plate":
        place = luck.randrange(len(value))
        return value[:place] + _ALIKE.get(value[place], value[place]) + value[place + 1 :]
    if kind == "date":
        return str(int(value) + luck.choice((-10, 10, -1, 1, 3, -3)))
    choices = {
        "watermark": told()["taken_for"].get(value.partition("|")[0], [value]),
        "colour": told()["looks"].get(value) or told()["looks"].get(value.rpartition(" ")[2], [value]),
        "alphabet": [each for each in ("I", "II", "III", "IV") if each != value],
        "die": ["II" if value == "I" else "I"],
        "paper": ["white" if value != "white" else luck.choice(("blued", "toned"))],
        "corners": [each for each in ("stars", "letters") if each != value],
    }
    return luck.choice(choices[kind])


def _letters_slip(value: str, luck: random.Random) -> str:
    if luck.random() < 0.4:
        return value[::-1]
    lower = value[-1]
    other = _UNLIKE.get(lower, chr(65 + (ord(lower) - 64) % 12))
    return value[:-1] + other if len(value) == 2 else other + value[1:-1] + other
