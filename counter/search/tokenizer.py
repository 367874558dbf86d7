"""The trade's ways of writing the same thing, brought to one form: for lines and for questions.

"plate 6", "pl6" and "Pl. 6" all become pl=6; "4 mgns" becomes m=4; "1/2d" becomes ½d; a plain
word loses its plural s. The same reading serves a line of stock and what is typed to find it.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from counter.reference.loader import read_folder


class Piece(NamedTuple):
    """A run of the text and the tokens it stands for (most often one)."""

    start: int
    end: int
    tokens: tuple[str, ...]


#: What stock lines alone shorten; the trade's short forms of colours, values and the rest are those of
#: the vocabulary that the ask line is read by.
_OWN: dict[str, tuple[str, ...]] = {
    "blk": ("black", "block"),
    "bl": ("blue", "black"),
    "pf": ("perf",),
    "perforated": ("perf",),
    "mx": ("mx",),
    "maltese": ("mx",),
    "cross": ("mx", "cross"),
    "pmk": ("postmark",),
    "nums": ("numeral",),
    "dup": ("duplex",),
    "circ": ("circle",),
    "lc": ("large", "crown"),
    "sc": ("small", "crown"),
    "pr": ("pair",),
    "bk4": ("block=4",),
    "cov": ("cover",),
    "cvr": ("cover",),
    "env": ("envelope",),
    "mgins": ("margin",),
    "cr": ("crease",),
    "tr": ("tear",),
    "unm": ("unmounted",),
    "mnt": ("mounted",),
    "mint": ("unused", "mint"),
    "og": ("gum",),
    "certificate": ("cert",),
    "lt": ("left",),
    "rt": ("right",),
    "btm": ("bottom",),
    "surf": ("surface",),
    "tied": ("tied",),
    "ppr": ("paper",),
    "pce": ("piece",),
    "bk": ("book",),
    "imp": ("imperforate",),
    "imperf": ("imperforate",),
    "imperfs": ("imperforate",),
    "cert": ("cert",),
    "sq": ("squared",),
    "num": ("numeral",),
    "unu": ("unused",),
}


def _shorthand() -> dict[str, tuple[str, ...]]:
    """Every short form of the vocabulary and of stock lines, with the words it stands for: more than
    one where the trade leaves it open. Values in words stand for the value."""
    tables = read_folder("vocabulary")
    found = {form: list(words) for form, words in _OWN.items()}
    for word, forms in tables["abbreviations"]["short"].items():
        for form in forms:
            if form.isalnum():
                found.setdefault(form, []).append(stem(word))
    for row in tables["denominations"]["phrase"]:
        for spelling in row["spellings"]:
            if spelling.isalpha():
                found.setdefault(spelling, []).append(row["value"])
    return {form: tuple(dict.fromkeys(words)) for form, words in found.items()}


FILLERS = frozenset(
    ("a", "an", "and", "any", "at", "by", "for", "from", "got", "has", "have", "in", "is", "me", "no")
) | {"of", "on", "or", "pl", "plate", "show", "some", "the", "to", "with"}
CANCELS = frozenset(("mx", "cds", "numeral", "num", "duplex", "cancel", "pmk", "postmark", "cross"))
_CANCEL_COLOURS = {
    **{colour: colour for colour in ("black", "blue", "brown", "green", "magenta", "orange", "red")},
    **{colour: colour for colour in ("ruby", "violet", "yellow")},
    **{"blk": "black", "rd": "red", "grn": "green", "brn": "brown"},
}
_ROMAN = {"i": "1", "ii": "2", "iii": "3", "iv": "4"}
_COUNTS = {"two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "one": "1", "no": "0"}
_HALF = r"(?:½| ?1/2)"
_PIECE = re.compile(
    r"pl(?:ate)?[ .#]{0,2}(?P<plate>r?\d{1,3}[abc]?)(?![a-z0-9/])"
    r"|(?P<margins>[0-4]|two|three|four|one|no)[ -]?"
    r"(?:(?:clear|full|good|(?P<big>large|lge)|close) )?m(?:gn?s?|argins?|arg|gin)?(?![a-z0-9])"
    r"|margins? (?P<each>[0-4](?:/[0-4])+)(?![a-z0-9/])"
    r"|(?P<kind>strips?|blocks?|blk|irregular block|irreg)(?: of | |)"
    r"(?P<count>\d{1,2}|three|four|five|six)(?![a-z0-9/])"
    rf"|(?:perf(?:orated)?|pf?)[ .]{{0,2}}(?P<gauge>1[0-9]{_HALF}?(?: ?x ?1[0-9]{_HALF}?)?)(?![a-z0-9])"
    rf"|(?P<gauges>1[0-9]{_HALF}? ?x ?1[0-9]{_HALF}?)(?![a-z0-9])"
    r"|die[ .]{0,2}(?P<die>i{1,2}|[12])(?![a-z0-9])"
    r"|alph(?:abet)?[ .]{0,2}(?P<alphabet>iii?|iv|i|[1-4])(?![a-z0-9])"
    r"|maltese cross(?:es)?(?P<mx>)"
    r"|(?P<lines>no|without|white) (?:white )?lines?(?![a-z0-9])"
    r"|(?P<half>\d* ?1/2|\d*½) ?(?P<halfunit>[dp])(?![a-z0-9])"
    r"|(?P<shillings>\d{1,2})/(?:-|(?P<pence>\d{1,2}))(?![a-z0-9/])"
    r"|(?P<word>£?[\d½][a-z0-9½]*|[^\W_]+)"
)
_EVEN = str.maketrans("⁄’‘×é–—", "/''xe--")


def even(text: str) -> str:
    """Lower case, one kind of stroke, dash and cross, the length kept so that places agree."""
    lowered = text.lower()
    if lowered.isascii():
        return lowered
    if len(lowered) != len(text):
        lowered = "".join(low if len(low := sign.lower()) == 1 else sign for sign in text)
    return lowered.translate(_EVEN)


def pieces(text: str) -> list[Piece]:
    """Every run of the text that says something, in order. Never raises."""
    found = [Piece(run.start(), run.end(), _tokens(run)) for run in _PIECE.finditer(even(text))]
    for at, piece in enumerate(found):
        if piece.tokens[0] in CANCELS:
            _colour_cancel(found, at)
    return found


def _colour_cancel(found: list[Piece], at: int) -> None:
    """The colour beside a cancel is the cancel's: "red mx", "mx red"; but "1d red mx" is a red 1d."""
    after = found[at + 1] if at + 1 < len(found) else None
    if after and after.start - found[at].end == 1 and (colour := _CANCEL_COLOURS.get(after.tokens[0])):
        found[at + 1] = after._replace(tokens=(colour, f"k={colour}"))
        return
    before = found[at - 1] if at else None
    if not before or found[at].start - before.end != 1:
        return
    value = at > 1 and before.start - found[at - 2].end == 1 and _is_value(found[at - 2])
    if (colour := _CANCEL_COLOURS.get(before.tokens[0])) and not value:
        found[at - 1] = before._replace(tokens=(colour, f"k={colour}"))


def _is_value(piece: Piece) -> bool:
    """Whether a run is a denomination: what follows it is the colour of the stamp."""
    token = piece.tokens[0]
    return token[0] in "£½" or (token[0].isdigit() and token[-1] in "dsp")


def _tokens(found: re.Match[str]) -> tuple[str, ...]:
    kind = found.lastgroup
    said = found[kind] if kind else ""
    if kind == "word":
        return (stem(said),)
    return _compound(kind or "", said, found)


def _compound(kind: str, said: str, found: re.Match[str]) -> tuple[str, ...]:
    """A run of several parts: a plate, margins, a multiple, a gauge, a sum of money on a stamp."""
    match kind:
        case "plate":
            return (f"pl={said.lstrip('0') or '0'}",)
        case "margins" | "big":
            said = found["margins"]
            return _margins(_COUNTS.get(said, said), bool(found["big"]))
        case "each":
            return tuple(f"m={count}" for count in said.split("/"))
        case "count":
            multiple = found["kind"].split()[0].rstrip("s")
            multiple = {"blk": "block", "irreg": "irregular"}.get(multiple, multiple)
            return (multiple, f"{multiple}={_COUNTS.get(said, said)}")
        case "gauge" | "gauges":
            return ("perf", f"perf={_halves(said)}") if kind == "gauge" else (f"perf={_halves(said)}",)
        case "die" | "alphabet":
            return (f"{kind}={_ROMAN.get(said, said)}",)
        case "mx":
            return ("mx",)
        case "lines":
            return ("line", "lines=white" if said == "white" else "lines=none")
        case "halfunit":
            return (_halves(found["half"]) + said,)
        case _:
            pence = found["pence"]
            return (f"{found['shillings']}s{pence}d" if pence else f"{found['shillings']}s",)


def _margins(count: str, large: bool) -> tuple[str, ...]:
    """Any margins at all are a near miss; of large ones also the same number of plain ones."""
    some = ("margin", f"m={count}")
    return (*some[:1], "large", some[1], f"m={count}large") if large else some


def _halves(text: str) -> str:
    return text.replace("1/2", "½").replace(" ", "")


@lru_cache(maxsize=65536)
def stem(word: str) -> str:
    """The word without a plural s; words with figures stay whole."""
    if len(word) > 3 and word[-1] == "s" and word[-2] not in "su" and word.isalpha():
        return word[:-1]
    return word


#: Written one way, kept another.
ALIASES = _shorthand()
