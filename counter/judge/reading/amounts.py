"""Face values, frankings, prices, weights, sheets and miles."""

from __future__ import annotations

import re
from decimal import Decimal

from counter.judge.reading.line import RUN_TOGETHER
from counter.judge.reading.piece import (
    COUNT,
    COUNTS,
    DIGITS,
    FILLER,
    NOTED,
    Piece,
    Rule,
    filled,
    one,
    rule,
    span,
)
from counter.reference.vocabulary import Vocabulary

HALF = r"(?:½|1/2)"
#: A value in pence or shillings, as one group each: whole, half; shillings, pence.
_PENCE = rf"(?:[0-9]{{1,2}}\s?{HALF}|{HALF}|[0-9](?:\.5)|[0-9]{{1,2}})\s?d"
_VALUE = rf"(?:{_PENCE}|[0-9]{{1,2}}\s?s(?:\s?[0-9]{{1,2}}d)?|[0-9]{{1,2}}/(?:-|[0-9]{{1,2}}))"
_BY_HAND = r"(?:in\s)?(?:manuscript|mss?|m/s)"
_WHOLE_HALF = re.compile(rf"(?:(?P<whole>[0-9]{{1,2}})?\s?(?P<half>{HALF}|\.5)?)\s?(?P<unit>[dp]?)")
_MONEY = r"(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,6})(?:\.[0-9]{1,2})?"
_NOT_MONEY = r"(?!\s?(?:oz|ounces?|miles?|sheets?|mm|margins?|dots?|½|/|-|\.|x\s?[0-9]))"
_BELOW = r"under|below|less\sthan|max(?:imum)?|up\s?to|not\sover|no\smore\sthan|<=?|≤"
_ABOVE = r"over|above|more\sthan|min(?:imum)?|at\sleast|>=?|≥"


def _pence_value(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """½d 1/2d 2½d "2 1/2d" 1d 22p ½p; a bare ½ or 2½ is pence."""
    parts = _WHOLE_HALF.fullmatch(found[0])
    if not parts:
        return None
    whole, half = int(parts["whole"] or 0), bool(parts["half"])
    if not (whole or half) or (half and whole > 4 and parts["unit"] != "p"):
        return None
    value = f"{whole or ''}{'½' if half else ''}{parts['unit'] or 'd'}"
    return one(found, "denomination", value, value)


def _shillings(found: re.Match[str], vocabulary: Vocabulary) -> list[Piece] | None:
    """1s 2s6d 2s6 "2s 6d" 1/- 2/6; pence after a slash or a space must make a British value."""
    groups = found.groupdict()
    far = groups.get("far")
    shillings, pence = int(found["s"]), int((far or groups.get("d") or "0").replace("-", "0"))
    value = f"{shillings}s" + (f"{pence}d" if pence else "")
    if not shillings or pence > 11 or (far and value not in vocabulary.slanting):
        return None
    return one(found, "denomination", value, value)


def _pounds(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """£1 and £5 are stamps, unless a value stands beside them; any other sum is a price."""
    if found[1] in ("1", "5"):
        return one(found, "denomination", f"£{found[1]}", f"£{found[1]}")
    return _price(found, _pence(found[1]))


_TENS = ("ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_SUMS = {word: tens * 10 for tens, word in enumerate(_TENS, 1)} | {"hundred": 100, "a hundred": 100}
_SUMS |= {"fiver": 5, "tenner": 10, "two": 2, "three": 3, "four": 4, "six": 6, "seven": 7, "eight": 8}
_SUMS |= {"fifteen": 15, "twelve": 12, "two hundred": 200, "nine": 9}


def _spoken_sum(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """85 quid, sixty pounds, a tenner."""
    said = found["sum"]
    return _price(found, _pence(said) if said[0].isdigit() else _SUMS[said] * 100)


def _price(found: re.Match[str], pence: int) -> list[Piece] | None:
    return one(found, "price", str(pence), f"price {_price_words(pence)}") if pence else None


def _half_pence(text: str) -> int | None:
    """A value in half pence: "1s" is 24."""
    parts = re.fullmatch(r"([0-9]{1,2})\s?[s/]\s?(-|[0-9]{1,2})?(½)?d?", text)
    if parts:
        pence = int(parts[2]) if parts[2] and parts[2] != "-" else 0
        return int(parts[1]) * 24 + pence * 2 + bool(parts[3])
    if found := _WHOLE_HALF.fullmatch(text):
        return int(found["whole"] or 0) * 2 + bool(found["half"])
    return None


def _franking(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """franked 2d; franked 2 x 1d; franked 1d + 2d; 3 x 1d; 4d franking."""
    total = 0
    for part in re.split(r"\s?(?:\+|&|and)\s?", found["sum"]):
        times, _sign, value = part.rpartition("x")
        each = _half_pence(value.strip())
        if each is None:
            return None
        total += each * int(times or 1)
    if not total:
        return None
    value = _value(total)
    franking = span(found, "sum", "franking", value, f"franked {value}")
    return (
        filled([span(found, "cue", FILLER, ""), franking]) if "cue" in found.groupdict() else [franking]
    )


def _so_many(found: re.Match[str], vocabulary: Vocabulary) -> list[Piece] | None:
    """3 x 1d: how many, what they frank, and the face value of one."""
    half_pence, count = _half_pence(found["value"]), int(found["count"])
    if not half_pence or not count:
        return None
    value, total = _value(half_pence), _value(half_pence * count)
    start, middle, end = found.start(), found.start("value"), found.end()
    pieces = [Piece("quantity", str(count), f"{count} of them", start, middle)]
    if count < 10:
        pieces.append(Piece("franking", total, f"franked {total}", start, middle))
    return [*pieces, Piece("denomination", value, value, middle, end)]


def _quantity(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """12 x, x 2, 5 @, a dozen."""
    count = {"dozen": 12, "half a dozen": 6}.get(found["count"]) or COUNTS.get(found["count"], 0)
    return one(found, "quantity", str(count), f"{count} of them") if count else None


def _charge(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """manuscript 8, charged 1s4d, 7d in ms: what the addressee or sender paid in cash."""
    half_pence = _half_pence(found["sum"])
    if not half_pence:
        return None
    value = _value(half_pence)
    charge = span(found, "sum", "charge", value, f"charge {value}")
    fillers = [span(found, each, FILLER, "") for each in ("cue", "tail") if found.groupdict().get(each)]
    return filled([*fillers, charge])


def _rate(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """The 8d rate: what a letter cost, and no stamp's value."""
    return one(found, NOTED, "rate", "rate")


def _value(half_pence: int) -> str:
    shillings, rest = divmod(half_pence, 24)
    pence = f"{rest // 2 or ''}{'½' if rest % 2 else ''}"
    return (f"{shillings}s" if shillings else "") + (f"{pence}d" if pence else "")


def _pence(text: str) -> int:
    return int(Decimal(text.replace(",", "")) * 100)


def _price_words(pence: int) -> str:
    return f"£{pence // 100:,}" + (f".{pence % 100:02}" if pence % 100 else "")


def _at_most(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    pence = _pence(found["sum"])
    return one(found, "price_max", str(pence), f"{_price_words(pence)} or less")


def _at_least(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    pence = _pence(found["sum"])
    return one(found, "price_min", str(pence), f"{_price_words(pence)} or more")


def _between(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """50-100, £50-£100; two years or two gauges are no prices."""
    least, most = _pence(found["low"]), _pence(found["high"])
    bare = "£" not in found[0] and found[0][0].isdigit()
    if least >= most or (bare and (most <= 17_00 or (least >= 1600_00 and most <= 1999_00))):
        return None
    return [
        Piece(
            "price_min",
            str(least),
            f"{_price_words(least)} or more",
            found.start(),
            found.end("low"),
        ),
        Piece("price_max", str(most), f"{_price_words(most)} or less", found.end("low"), found.end()),
    ]


_PARTS = {"½": "0.5", "1/2": "0.5", "¼": "0.25", "1/4": "0.25", "¾": "0.75", "3/4": "0.75"}


def _weight(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    ounces = Decimal(found["whole"] or 0) + Decimal(_PARTS.get(found["part"] or "", "0"))
    if not ounces:
        return None
    return one(found, "weight", f"{ounces.normalize():f}", f"{ounces.normalize():f} oz")


def _grams(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    """20 g, 60g, 20 grams: kept in grams, since an ounce is no whole number of them."""
    grams = int(found[1])
    return one(found, "weight", f"{grams}g", f"{grams} g") if grams else None


def _beyond(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    """Over half an ounce: no weight that a rate could be told from."""
    return one(found, NOTED, "", found[0])


def _counted(kind: str, word: str) -> Rule:
    def make(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
        count = COUNTS.get(found[1], None) or (int(found[1]) if found[1].isdigit() else 0)
        unit = word if count == 1 else f"{word}s"
        return one(found, kind, str(count), f"{count} {unit}") if count else None

    shape = rf"({COUNT}|[0-9]{{1,4}})\s?-?(?:{word}s?|{'mls' if word == 'mile' else 'shts?'})"
    return rule(f"{DIGITS} one two three four five six seven eight nine ten twelve", shape, make)


def _run_together(found: re.Match[str], vocabulary: Vocabulary) -> list[Piece] | None:
    """1dred: the value, where a word follows that is read by itself."""
    if not vocabulary.stands_alone(found["word"]):
        return None
    value = found["value"]
    return [span(found, "value", "denomination", value, value)]


RULES: tuple[Rule, ...] = (
    Rule((DIGITS,), RUN_TOGETHER, _run_together),
    rule(DIGITS, rf"[0-9]{{1,2}}\s?{HALF}\s?d|{HALF}\s?d|[0-9]\.5\s?d|[0-9]{{1,2}}\s?d", _pence_value),
    rule(DIGITS, rf"[0-9]{{1,2}}\s?{HALF}p|{HALF}p|[0-9]{{1,3}}p|[0-9]{{1,2}}½p", _pence_value),
    rule(DIGITS, rf"(?:[1-9]\s?)?{HALF}(?!\s?(?:oz|ounce|an\sounce|x))", _pence_value),
    rule(DIGITS, r"(?P<s>[0-9]{1,2})\s?s", _shillings),
    rule(DIGITS, r"(?P<s>[0-9]{1,2})s/(?P<d>[0-9]{1,2})d", _shillings),
    rule(DIGITS, r"(?P<s>[0-9]{1,2})s(?:(?P<d>[0-9]{1,2})d?|\s(?P<far>[0-9]{1,2})d)", _shillings),
    rule(DIGITS, r"(?P<s>[0-9]{1,2})/(?P<far>-|[0-9]{1,2})d?", _shillings),
    rule("£", rf"£\s?({_MONEY})", _pounds),
    rule(DIGITS, rf"(?P<sum>{_MONEY})\s?(?:quid|squid|pounds?|nicker|gbp)", _spoken_sum),
    rule(" ".join(_SUMS), rf"(?P<sum>{'|'.join(_SUMS)})\s(?:quid|pounds?|nicker)", _spoken_sum),
    rule("a fiver tenner", r"(?:a\s)?(?P<sum>fiver|tenner)", _spoken_sum),
    rule(DIGITS, r"(?P<count>[0-9]{1,3})\s?(?:x|@|off)(?!\s?[0-9]{2})", _quantity),
    rule("x", r"x\s?(?P<count>[0-9]{1,3})", _quantity),
    rule("a dozen half", r"(?:a\s)?(?P<count>half\sa\sdozen|dozen)", _quantity),
    rule(
        "franked franking paying",
        rf"(?P<cue>franked|franking|paying)\s+(?:with\s|by\s|at\s|of\s)?\s*"
        rf"(?P<sum>(?:[0-9]\s?x\s?)?{_VALUE}(?:\s?(?:\+|&|and)\s?(?:[0-9]\s?x\s?)?{_VALUE})*)",
        _franking,
    ),
    rule(
        DIGITS,
        rf"(?P<sum>(?P<count>[0-9]{{1,3}})\s?x\s?(?P<value>{_VALUE}))",
        _so_many,
    ),
    rule(
        DIGITS,
        rf"(?P<sum>[2-9]\s?x\s?{_VALUE}(?:\s?(?:\+|&|and)\s?(?:[0-9]\s?x\s?)?{_VALUE})+)",
        _franking,
    ),
    rule(
        DIGITS,
        rf"(?P<sum>{_VALUE})\s(?P<cue>franking)(?!\s(?:(?:of|with|by|at)\s)?{_VALUE})",
        _franking,
    ),
    rule(
        "manuscript ms mss m charged charge rated rate",
        r"(?P<cue>(?:manuscript|mss?\.?|m/s)(?:\s(?:charged?|rated?)(?:\sof)?)?"
        rf"|(?:charged?|rated?)(?:\sat)?)\s+(?P<sum>[0-9]{{1,2}}/[0-9]{{0,2}}½|{_VALUE}"
        rf"|[0-9]{{1,2}}\s?½?)(?P<tail>\s(?:{_BY_HAND}|rate))?",
        _charge,
    ),
    rule(DIGITS, rf"{_VALUE}\s(?:rate|postage)s?", _rate),
    rule(
        DIGITS,
        rf"(?P<sum>{_VALUE})\s(?P<cue>{_BY_HAND})(?!\s(?:cancel|cross|mark|date|line|town|note|endors))",
        _charge,
    ),
    rule(
        "under below less max maximum up upto not no < ≤",
        rf"(?:{_BELOW})\s*£?\s*(?P<sum>{_MONEY})(?:\s(?:quid|pounds?)|{_NOT_MONEY})",
        _at_most,
    ),
    rule(
        "over above more min minimum at > ≥",
        rf"(?:{_ABOVE})\s*£?\s*(?P<sum>{_MONEY})(?:\s(?:quid|pounds?)|{_NOT_MONEY})",
        _at_least,
    ),
    rule("from", rf"from\s*£\s*(?P<sum>{_MONEY}){_NOT_MONEY}", _at_least),
    rule("£ 0", rf"£?\s?(?P<sum>{_MONEY})\s?(?:max|or\sless|and\sunder|or\sunder)", _at_most),
    rule("£ 0", rf"£?\s?(?P<sum>{_MONEY})\s?(?:min|or\smore|and\sover|or\sover)", _at_least),
    rule("£", rf"£\s?(?P<low>{_MONEY})\s?(?:-|to)\s?£?\s?(?P<high>{_MONEY})", _between),
    rule(
        "between from",
        rf"(?:between|from)\s*£?\s?(?P<low>{_MONEY})\s?(?:and|to|-)\s?£?\s?(?P<high>{_MONEY})",
        _between,
    ),
    rule(DIGITS, r"(?P<low>[0-9]{2,5})\s?-\s?£?(?P<high>[0-9]{2,5})", _between),
    rule(
        DIGITS,
        r"(?P<whole>[0-9]{1,2}(?:\.[0-9]{1,2})?)?\s?(?P<part>½|1/2|¼|1/4|¾|3/4)?\s?(?:ozs?|ounces?)",
        _weight,
    ),
    rule(DIGITS, r"([0-9]{1,4})\s?(?:g(?!\s[a-z](?![a-z]))|grams?|grammes?|gms?)", _grams),
    rule(
        "over above exceeding more just",
        r"(?:just\s)?(?:over|above|exceeding|more\sthan)\s(?:half\san?|½|1/2|[0-9]{1,2}|an?|one|two)\s?(?:oz|ounces?)",
        _beyond,
    ),
    _counted("sheets", "sheet"),
    _counted("miles", "mile"),
)
