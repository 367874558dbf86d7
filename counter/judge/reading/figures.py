"""Figures with a name: gauges, plates, cancel numbers, strips and blocks, stock numbers."""

from __future__ import annotations

import re

from counter.judge.reading.days import A_DAY
from counter.judge.reading.piece import (
    COUNT,
    COUNTED_WORDS,
    COUNTS,
    DIGITS,
    FILLER,
    LETTERS,
    NOTED,
    NUMBER,
    UNREAD,
    Piece,
    Rule,
    filled,
    one,
    rule,
    span,
)
from counter.reference.vocabulary import Vocabulary

_GAUGE = r"[0-9]{1,2}(?:\.[0-9]{1,2}|\s?½|\s1/2|¼|¾)?"
_PLUS_MINUS = r"(?:\s?(?:±|\+/?-)\s?(?P<error>[0-9]?\.?[0-9]{1,2}))?"
_SPELT_GAUGES = {"fourteen": "14", "fifteen": "15", "sixteen": "16"}
_QUARTERS = {"5": "½", "50": "½", "25": "¼", "75": "¾", "0": "", "00": ""}


def _gauge_value(text: str) -> str | None:
    """15.5, 15½ and "15 1/2" are 15½; None for what nothing was ever perforated to."""
    whole, _, part = text.partition(".")
    if part:
        text = whole + _QUARTERS[part] if part in _QUARTERS else text
    text = text.replace("1/2", "½").replace(" ", "")
    return text if 6 <= int(re.match("[0-9]+", text)[0]) <= 20 else None  # type: ignore[index]


def _plate_as_like(cue: str, across: str) -> bool:
    """P 12 may be plate 12: hardly a stamp of ours has a gauge below 13 that is whole."""
    return cue in ("p", "pf") and across.isdigit() and int(across) < 13


def _gauge(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """perf 14, p14, perf 15½ x 15, roulette 11½, gauge 14.2±0.3."""
    parts = found.groupdict()
    parts["across"] = _SPELT_GAUGES.get(parts["across"], parts["across"])
    across, down = _gauge_value(parts["across"]), _gauge_value(parts["down"] or parts["across"])
    if not across or not down or _plate_as_like(parts.get("cue") or "", across):
        return None
    value = across if across == down else f"{across}x{down}"
    if parts.get("error"):
        value += f"±{parts['error']}"
    start = found.end("cue") if parts.get("cue") else found.start()
    gauge = Piece("gauge", value, f"gauge {value.replace('x', ' x ')}", start, found.end())
    cue = parts.get("cue") or ""
    if not cue:
        return [gauge]
    if cue.startswith("roul"):
        kind, state = "separation", "rouletted"
    elif cue.startswith("p"):
        kind, state = "separation", "perforated"
    else:
        kind, state = FILLER, ""
    return filled([span(found, "cue", kind, state, state), gauge])


def _gauge_first(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """14 perf, 15½x14 perforated."""
    value = _gauge_value(found["across"])
    down = _gauge_value(found["down"]) if found["down"] else value
    if not value or not down:
        return None
    value = value if value == down else f"{value}x{down}"
    return [
        Piece("gauge", value, f"gauge {value.replace('x', ' x ')}", found.start(), found.start("cue")),
        span(found, "cue", "separation", "perforated", "perforated"),
    ]


def _gauge_and_crown(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """16 SC: the gauge with a crown's initials."""
    small = found[2] == "sc"
    value = "small_crown" if small else "large_crown_1|large_crown_2"
    name = f"watermark {'small' if small else 'large'} crown"
    return [
        span(found, 1, "gauge", found[1], f"gauge {found[1]}"),
        span(found, 2, "watermark", value, name),
    ]


def _crown_and_gauge(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """SC14, LC16: a crown's initials with the gauge."""
    small = found[1] == "sc"
    value = "small_crown" if small else "large_crown_1|large_crown_2"
    name = f"watermark {'small' if small else 'large'} crown"
    gauge = span(found, 2, "gauge", found[2], f"gauge {found[2]}")
    return [span(found, 1, "watermark", value, name), gauge]


def _plate(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """pl 6, plate 148, pl.1a, plate no 12, reserve plate 15."""
    number = found["number"].replace(" ", "").lstrip("0").replace("o", "0")
    if not number:
        return None
    if number[0] == "r" or found["reserve"]:
        number = "R" + number.lstrip("r")
    if number.isalpha():
        number = number.upper()
    return one(found, "plate", number, f"plate {number}")


_ROMAN = (
    "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x",
    "xi", "xii", "xiii", "xiv", "xv", "xvi", "xvii", "xviii", "xix", "xx",
)  # fmt: skip
_IN_WORDS = (*COUNTED_WORDS, "eleven", "twelve", "thirteen")
_SPELT = {word: str(n) for words in (_ROMAN, _IN_WORDS) for n, word in enumerate(words, 1)}


def _plate_spelt(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """plate six, pl VI."""
    number = _SPELT[found["number"]]
    return one(found, "plate", number, f"plate {number}")


def _cancel_number(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """numeral 46, no 46, no. C51: the cue may prove a mere filler after another cancel."""
    number = found["number"].upper()
    cue = span(found, "cue", "numeral cue", "numeral", "barred numeral")
    return [cue, span(found, "number", "cancel_number", number, f"number {number}")]


def _noted(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """receiving house no 4: a number of a place, and no cancel's."""
    return one(found, NOTED, "", "numbered place")


def _unknown_die(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """die 3, die no 4, die B: a die that the reference does not know, and no cancel's or plate's number."""
    return one(found, UNREAD, "", "")


def _country_number(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """scottish 131, irish 62: the number of a barred numeral of that country."""
    kind, words = _COUNTRIES[found["cue"]]
    return [
        span(found, "cue", "cancel", "numeral", "barred numeral"),
        span(found, "cue", "cancel_type", kind, words),
        span(found, "number", "cancel_number", found["number"], f"number {found['number']}"),
    ]


_SCOTTISH, _IRISH = ("num_scotland_1844", "Scottish"), ("num_ireland_1844", "Irish")
_COUNTRIES = {"scottish": _SCOTTISH, "scotch": _SCOTTISH, "scots": _SCOTTISH, "irish": _IRISH}
_SIZES = {"strip": "strip", "str": "strip", "block": "block", "blk": "block"}


def _multiple(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """strip of 3, blk of 4, irregular block of 5."""
    count = COUNTS.get(found["count"], 0)
    shape = "irregular" if found["irregular"] else _SIZES.get(found["shape"] or "", "irregular")
    if count < (4 if shape == "block" else 3):
        return None
    name = "irregular block" if shape == "irregular" else shape
    return one(found, "multiple", f"{shape}_{count}", f"{name} of {count}")


def _sides_clear(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """Good margins 3 sides, margins on all four sides, clear on two sides."""
    count = COUNTS[found["count"]]
    return one(found, "margins", str(count), f"{count} margin{'s' if count > 1 else ''}")


def _person(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """Mr Green, Miss Black: somebody's name, no colour and no place."""
    return one(found, NOTED, "", found[0])


def _surcharge(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """3d on 3d: the face value and the overprint."""
    if found[1] != found[2]:
        return None
    value = found[1] + "d"
    overprint = Piece("overprint", value.upper(), f"overprinted {value}", found.end(1) + 1, found.end())
    return [Piece("denomination", value, value, found.start(), found.end(1) + 1), overprint]


def _stock_number(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    number = found["number"].replace("-", "").upper()
    stock = span(found, "number", "stock_number", number, f"stock number {number}")
    cue = [Piece(FILLER, "", "", found.start(), found.start("number"))]
    return filled([*cue, stock])


def _number(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    return one(found, NUMBER, found[0], "")


#: "1d blk 4 margins" is black with four margins, not a block of four.
_NOT_A_COUNT = (
    r"(?!\s?(?:margins?|margs?|mgns?|m\b|lge|lg|large|good|clear|full|huge|wide|big|corner|letters"
    r"|dots?|bands?|sheets?|miles?|oz|ounces?|/|½|\.[0-9]|x))"
)

RULES: tuple[Rule, ...] = (
    rule(
        "perforated perforation perf perfs pf p gauge gauging gauges measures measured reads "
        "roul roulette rouletted",
        rf"(?P<cue>perforated|perforation|perfs?|pf|p|gaug(?:e|ing|es)|measure[sd]|reads"
        rf"|roul(?:etted?)?)(?:\s?gauge)?[\s.:]*(?P<across>{_GAUGE}|fourteen|fifteen|sixteen)(?:\s?x\s?(?P<down>{_GAUGE}))?"
        rf"{_PLUS_MINUS}",
        _gauge,
    ),
    rule(DIGITS, rf"(?P<across>{_GAUGE})\s?x\s?(?P<down>{_GAUGE}){_PLUS_MINUS}", _gauge),
    rule(
        DIGITS,
        r"(?P<across>[0-9]{2}(?:\.[0-9]{1,2})?)(?P<down>)\s?(?:±|\+/?-)\s?(?P<error>[0-9]?\.?[0-9]{1,2})",
        _gauge,
    ),
    rule(
        DIGITS,
        rf"(?P<across>{_GAUGE})(?:\s?x\s?(?P<down>{_GAUGE}))?\s?(?P<cue>perf(?:orated|s)?)\.?",
        _gauge_first,
    ),
    rule("sc lc", r"(sc|lc)\s?(14|16)", _crown_and_gauge),
    rule(DIGITS, r"(14|16)\s?(sc|lc)", _gauge_and_crown),
    rule(
        "plate pl plt plates pls plte palte reserve res",
        r"(?P<reserve>res(?:erve|\.)?\s)?(?:plates?|plt?|pls|plte|palte)\.?\s?(?:(?:no\.?|num|number|nr)\s?|[#]\s?)?"
        r"(?P<number>r\s?[0-9]{1,2}|[0-9][0-9o]{0,2}[a-c]?)",
        _plate,
    ),
    rule(DIGITS, r"(?P<number>1[abc])(?P<reserve>)", _plate, "bare plate"),
    rule("p", r"p\.?\s?(?P<number>1[abc])(?P<reserve>)", _plate),
    rule("plate", r"(?P<reserve>reserve\s)?plate\s(?P<number>a)", _plate),
    rule(
        "plate pl plt",
        rf"(?:plate|plt?)\.?\s?(?:no\.?\s?)?(?P<number>{'|'.join(_SPELT)})",
        _plate_spelt,
    ),
    rule(
        "numeral numerals no num nr number #",
        r"(?P<cue>numerals?\s?(?:no\.?|number)?|num|no|nr|number|[#])\.?\s?"
        rf"(?!{A_DAY})(?P<number>[a-f]?[0-9]{{1,3}})",
        _cancel_number,
    ),
    rule(
        "receiving house box page",
        r"(?:receiving\s)?(?:house|box|page)\s(?:no\.?|number)\s?[0-9]{1,3}",
        _noted,
    ),
    rule(
        "die",
        r"die\s?(?:no\.?\s?|number\s)?(?:[0-9]{1,3}|[a-d]|[a-z]{2}\s[0-9]{1,2})",
        _unknown_die,
    ),
    rule(
        " ".join(_COUNTRIES),
        rf"(?P<cue>{'|'.join(_COUNTRIES)})\s(?!{A_DAY})(?P<number>[0-9]{{1,3}})"
        r"(?!\s(?:x|margins?|covers?|letters?|stamps?|items?|pieces?|examples?|oz))",
        _country_number,
    ),
    rule(
        "strip str block blk irregular irreg",
        rf"(?P<irregular>irreg(?:ular)?\s?)?(?P<shape>strip|str|block|blk)?\s?(?:of\s)?(?P<count>{COUNT})"
        rf"{_NOT_A_COUNT}",
        _multiple,
    ),
    rule(
        "margins margin good clear large full wide",
        r"(?:(?:good|clear|large|full|wide)\s)?(?:margins?|clear)\s(?:(?:on|to|at)\s)?(?:all\s)?"
        r"(?P<count>[1-4]|one|two|three|four)\ssides?",
        _sides_clear,
    ),
    rule(
        "mr mrs miss messrs dr rev revd sir lady capt esq",
        r"(?:mrs?|miss|messrs|dr|revd?|sir|lady|capt)\.?\s[a-z'-]{2,}(?:\s(?:&|and)\s(?:co|sons?|bros))?",
        _person,
    ),
    rule(DIGITS, r"([0-9]{1,2})d\son\s([0-9]{1,2})d", _surcharge),
    rule(
        "stock item lot",
        r"(?:stock|item|lot)\s?(?:no\.?|number|[#])?\s?(?P<number>[a-z]{0,2}-?[0-9]{1,6})",
        _stock_number,
    ),
    rule(
        LETTERS,
        r"(?P<number>[a-g][0-9]{2}|(?:e|ec|n|ne|nw|s|se|sw|w|wc)[0-9]{1,2})",
        _stock_number,
        "code",
    ),
    rule(  # a hyphen makes it one: of many figures, or behind the letters that a laptop's numbers begin
        # with, beyond T, the last row of check letters
        LETTERS,
        r"(?P<number>(?!pl|no|nr|ms)[a-z]{1,3}-[0-9]{3,6}|[u-z][a-z]-[0-9]{1,2})",
        _stock_number,
        "code",
    ),
    rule(LETTERS, r"(?P<number>[a-z]{1,3}-?[0-9]{1,6})", _stock_number, "stock number"),
    rule(DIGITS, r"[0-9]+", _number, "bare number"),
)
