"""Synthetic stock for measuring: any number of lines, and noisy questions with their right answers."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from msgspec.structs import replace

from counter.describe.description import short_line
from counter.describe.names import Names
from counter.reference.stamps import Stamps
from counter.values.item import Item
from seed_demo.people import TOWNS
from seed_demo.pieces import Kind, piece

USED = {1840: "cross_1840", 1841: "cross_or_numeral", 1850: "numeral", 1862: "duplex", 1880: "squared"}


def stock(stamps: Stamps, count: int, seed: int = 1) -> list[Item]:
    """So many invented pieces, two in three of them line-engraved, as in such a stock."""
    rng = Random(seed)
    kinds = _kinds(stamps)
    line_engraved = [
        kind for kind in kinds if not kind.issue.startswith(("qv", "e", "g", "due", "off"))
    ]
    items = []
    for number in range(1, count + 1):
        kind = rng.choice(line_engraved if rng.random() < 0.66 else kinds)
        item = piece(rng, stamps, kind)
        items.append(_kept(rng, item, number))
    return items


def _kinds(stamps: Stamps) -> list[Kind]:
    kinds = []
    for issue in stamps.issues.values():
        year = int(issue.characters.issued.earliest[:4])
        used = next(used for first, used in sorted(USED.items(), reverse=True) if year >= first)
        values = {each.value for each in issue.characters.stamps}
        for value in sorted(values) if len(values) > 1 else [""]:
            kinds.append(Kind(issue.id, 0, 0, 1, used, value, plated=75, mint=15, cover=15))
    return kinds


def _kept(rng: Random, item: Item, number: int) -> Item:
    where = f"{rng.choice(('album', 'box', 'tray', 'stockbook', 'folder'))} {rng.randint(1, 40)}"
    words = rng.choice(("", "", "", f"from {rng.choice(TOWNS)}", "fine", "good colour", "deep shade"))
    price = rng.choice((2, 5, 9, 15, 28, 45, 80, 120, 250, 600)) * 100 + rng.randrange(10) * 50
    return replace(item, number=f"WK-{number}", kept=where, words=words, asking=price)


@dataclass(frozen=True)
class Wanted:
    """A noisy question and the stock numbers that answer its words as they were before the noise."""

    text: str
    right: frozenset[str]


def line_of(item: Item, names: Names) -> str:
    """Everything a person could search by, in one line: what the peers are given."""
    return f"{item.number} {short_line(item, names)} {item.kept}"


def questions(items: list[Item], lines: list[str], count: int, seed: int = 2) -> list[Wanted]:
    """Questions that few lines answer: words of a line, shortened, slipped, shuffled, run together."""
    rng = Random(seed)
    places = _places(lines)
    wanted: list[Wanted] = []
    while len(wanted) < count:
        at = rng.randrange(len(items))
        if rng.random() < 0.06:
            wanted.append(Wanted(_number(rng, items[at].number), frozenset((items[at].number,))))
            continue
        words = _some_words(rng, lines[at])
        right = _answering(words, places)
        if 1 <= len(right) <= 3:
            numbers = frozenset(items[place].number for place in right)
            wanted.append(Wanted(_noisy(rng, words), numbers))
    return wanted


def _number(rng: Random, number: str) -> str:
    return rng.choice(
        (number, number.lower(), number.replace("-", "").lower(), number.replace("-", " "))
    )


_SMALL = ("on", "to", "at", "the", "from", "and", "of", "in", "not")
_INKS = ("red", "black", "blue", "green")


def _units(line: str) -> list[str]:
    """A line as the runs a person would type: "pl 6", "KC", "4 margins", "red MX" stay together."""
    words = line.replace(",", " ,").split()[1:]
    units: list[str] = []
    for word in words:
        before = units[-1] if units else ""
        joins = (
            before in ("pl", "Die", "alph", "of")
            or (before in ("perf", "plate") and word[0].isdigit())
            or (word == "lines" and before in ("white", "thick", "thin"))
            or (word in ("margins", "margin") and before.isdigit())
            or before.endswith((" of", "of"))
            or (word == "of" and before in ("strip", "block"))
            or (
                word in ("MX", "numeral", "cds", "duplex")
                and before in ("red", "black", "blue", "green")
            )
        )
        if joins:
            units[-1] = f"{before} {word}"
        elif word != ",":
            units.append(word)
    return units


def _places(lines: list[str]) -> dict[str, set[int]]:
    places: dict[str, set[int]] = {}
    for place, line in enumerate(lines):
        for unit in _units(line):
            places.setdefault(unit, set()).add(place)
    return places


def _answering(words: list[str], places: dict[str, set[int]]) -> set[int]:
    sets = sorted((places[word] for word in words), key=len)
    found = set(sets[0])
    for each in sets[1:]:
        found &= each
    return found


def _some_words(rng: Random, line: str) -> list[str]:
    units = [unit for unit in _units(line) if len(unit) > 1 and unit not in _SMALL]
    units = list(dict.fromkeys(units))
    return rng.sample(units, min(len(units), rng.randint(4, 7)))


SHORT = {
    "black": "blk",
    "red": "rd",
    "red-brown": "rd brn",
    "imperf": "imp",
    "margins": "mgns",
    "numeral": "num",
    "block": "blk",
    "inverted": "inv",
    "small": "sm",
    "large": "lge",
    "cover": "cvr",
    "vermilion": "verm",
    "carmine": "carm",
    "ultramarine": "ultra",
    "green": "grn",
    "MX": "mx",
}


def _noisy(rng: Random, words: list[str]) -> str:
    """Three in ten words shortened, one question in two with a slip, order changed, some joined."""
    made = [_shortened(rng, word) for word in words]
    if rng.random() < 0.5:
        long = [at for at, word in enumerate(made) if word.isalpha() and len(word) > 4]
        if long:
            at = rng.choice(long)
            made[at] = rng.choice((_swapped, _doubled, _dropped))(rng, made[at])
    rng.shuffle(made)
    text = " ".join(made)
    if rng.random() < 0.15 and " " in text:
        at = rng.choice([place for place, sign in enumerate(text) if sign == " "])
        text = text[:at] + text[at + 1 :]
    return text.lower() if rng.random() < 0.6 else text


def _shortened(rng: Random, unit: str) -> str:
    if unit.startswith("pl "):
        return rng.choice((unit, unit.replace(" ", ""), unit.replace("pl", "plate")))
    return " ".join(SHORT[w] if w in SHORT and rng.random() < 0.3 else w for w in unit.split())


def _swapped(rng: Random, word: str) -> str:
    at = rng.randrange(1, len(word) - 1)
    return word[:at] + word[at + 1] + word[at] + word[at + 2 :]


def _doubled(rng: Random, word: str) -> str:
    at = rng.randrange(1, len(word))
    return word[:at] + word[at] + word[at:]


def _dropped(rng: Random, word: str) -> str:
    at = rng.randrange(1, len(word))
    return word[:at] + word[at + 1 :]
