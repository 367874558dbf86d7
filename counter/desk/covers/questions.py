"""The cover form: every question with what is known so far, the most telling first."""

from __future__ import annotations

from dataclasses import dataclass

from counter.desk.covers.case import CoverCase
from counter.judge.cover.asking import CoverAsk
from counter.judge.cover.cover_facts import CancelMark, CoverSeen, Franked
from counter.judge.cover.postage_scale import weight_words
from counter.values.visible import how_many

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class CoverQuestion:
    """A question: its key, its label for a list, itself in full, how to answer, what is known.

    `known` is the value where there are `choices`, else words. `open` while it would tell something.
    """

    key: str
    label: str
    question: str
    how: str = ""
    known: str = ""
    choices: Choices = ()
    open: bool = False


_TIED: Choices = (("tied", "tied"), ("not_tied", "not tied"))
_SERVICES: Choices = (
    ("letter", "letter"),
    ("printed", "printed papers"),
    ("postcard", "postcard"),
    ("parcel", "parcel"),
    ("first", "first class"),
    ("second", "second class"),
)
_PIECES: Choices = (
    ("entire", "complete letter (entire)"),
    ("cover", "envelope or wrapper"),
    ("front", "front only"),
    ("piece", "piece"),
)
_REGIONS: Choices = (
    ("england_wales", "England or Wales"),
    ("london", "London"),
    ("scotland", "Scotland"),
    ("ireland", "Ireland"),
    ("abroad", "abroad"),
)
#: key: (label, the question, how it is answered)
_PLAIN = {
    "stamp": ("stamp", "Which stamp is on it?", "1d red imperf; stampless"),
    "when": ("date", "What is the date of the postmark?", "12 mar 1842, mar 1842 or 1842"),
    "second": ("other journey", "What is the date of the other journey?", "12 mar 1842, or 1842"),
    "tied": ("tied", "Does any cancel tie the stamp to the cover?", ""),
    "cancel": (
        "cancel",
        "What cancels the stamp: which kind?",
        "mx, numeral 46, duplex, cds, pen, none",
    ),
    "cancel_colour": ("cancel's colour", "What colour is the cancel?", "red, black, blue, brown"),
    "town": (
        "posted at",
        "Which town posted it?",
        "leeds; a small place with its country: wick, scotland",
    ),
    "to": ("sent to", "Where did it go?", "a town, or a country abroad"),
    "franking": ("franking", "What is the whole franking?", "2d, 2 x 1d, 1s"),
    "ounces": (
        "weight, or sheets and miles",
        "What does the letter weigh (or how many sheets and miles)?",
        "½ oz, 20 g, or 2 sheets 120 miles",
    ),
    "service": ("service", "By which service did it go?", ""),
    "marks": (
        "charge and service marks",
        "Which charge or service marks are on it?",
        "manuscript 2, more to pay, paid 1, registered, late fee; none",
    ),
    "arrivals": ("backstamps", "Are there backstamps, and of what dates?", "13 mar 1842, or none"),
    "plates": ("plate", "Which plate is it?", "36, or 1b"),
    "letters": ("check letters", "What letters has the stamp, or the multiple?", "KC, or KC KD pair"),
    "faults": ("faults of the stamp", "Which faults has the stamp?", "thin, tear, crease; none"),
    "attachment": ("how complete", "How much of the letter is there?", ""),
}
_CHOICES = {"tied": _TIED, "service": _SERVICES, "attachment": _PIECES}
#: What the rate asks for, in its order.
OF_THE_RATE = ("when", "ounces", "franking", "service", "to", "marks")


def cover_questions(case: CoverCase, given: frozenset[str] = frozenset()) -> tuple[CoverQuestion, ...]:
    """What would tell most first, then what is known and may be mended. `given` are keys answered:
    they are not asked again."""
    asks = [_asked(case, ask) for ask in case.found.asks if ask.id not in given]
    if not case.seen.stamps and not case.seen.stampless and "stamp" not in given:
        asks.insert(0, _plain(case, "stamp", is_open=True))
    named = {each.key for each in asks}
    plain = [_plain(case, key) for key in _PLAIN if key not in named]
    checks = [_looked(case, check) for check in case.seen.answers]
    return (*asks, *checks, *(each for each in plain if each.known), *(e for e in plain if not e.known))


def rate_questions(case: CoverCase) -> tuple[CoverQuestion, ...]:
    """What the rate asks for."""
    return tuple(_plain(case, key) for key in OF_THE_RATE)


def _asked(case: CoverCase, ask: CoverAsk) -> CoverQuestion:
    if ask.id == "town" and case.seen.town:
        where = f"Where is {case.seen.town}? The reference does not know it."
        return CoverQuestion("region", "posted in", where, choices=_REGIONS, open=True)
    if ask.id in _PLAIN:
        return _plain(case, ask.id, is_open=True)
    label = case.library.postal.checks[ask.id].label
    return CoverQuestion(ask.id, label, ask.question, choices=ask.choices, open=True)


def _looked(case: CoverCase, name: str) -> CoverQuestion:
    """A check that a person's answer decided."""
    check = case.library.postal.checks[name]
    choices = tuple((each.value, each.text) for each in check.answers)
    return CoverQuestion(name, check.label, check.question, "", case.seen.answers[name], choices)


def _plain(case: CoverCase, key: str, *, is_open: bool = False) -> CoverQuestion:
    label, question, how = _PLAIN[key]
    known = _known(case.seen, key)
    return CoverQuestion(key, label, question, how, known, _CHOICES.get(key, ()), is_open)


def _known(seen: CoverSeen, key: str) -> str:
    """What is known, in words; the value where the answer is one of few."""
    if key in _CHOICES:
        return str(getattr(seen, key))
    told = {
        "stamp": "stampless" if seen.stampless else _stamp_words(seen),
        "when": seen.when.words() if seen.when else "",
        "second": seen.second.words() if seen.second else "",
        "cancel": _cancel_words(seen),
        "cancel_colour": seen.cancel_colour,
        "town": _town_words(seen),
        "to": seen.to_abroad or seen.to_town,
        "franking": seen.franking.words() if seen.franking else "",
        "ounces": _weight_words(seen),
        "marks": _marks_words(seen),
        "arrivals": ", ".join(each.words() for each in seen.arrivals) or seen.backstamp,
        "plates": ", ".join(seen.plates),
        "letters": " ".join(seen.letters)
        + (f" ({seen.multiple})" if seen.multiple != "single" else ""),
        "faults": ", ".join(map(_spaced, seen.faults)),
    }
    return told[key].strip()


def _stamp_words(seen: CoverSeen) -> str:
    first = Franked(seen.stamps, seen.value, seen.count)
    due = (seen.due,) if seen.due else ()
    return " and ".join(filter(None, map(_one_stamp, (first, *seen.beside, *due))))


def _one_stamp(stamp: Franked) -> str:
    names = [each.name for each in stamp.stamps]
    more = f" or {len(names) - 1} more" if len(names) > 1 else ""
    said = f"{names[0]}{more}" if names else (stamp.value.words() if stamp.value else "")
    return f"{stamp.count} x {said}" if said and stamp.count > 1 else said


def _cancel_words(seen: CoverSeen) -> str:
    first = CancelMark(seen.cancel, seen.cancel_type, seen.cancel_colour, seen.cancel_number)
    every = [f"{_spaced(each.family)} {each.number}".strip() for each in (first, *seen.more_cancels)]
    return ", ".join(filter(None, every))


def _marks_words(seen: CoverSeen) -> str:
    charged = (f"charged {seen.charge.words()}",) if seen.charge else ()
    return ", ".join((*map(_spaced, seen.marks), *charged))


def _town_words(seen: CoverSeen) -> str:
    where = _spaced(seen.region).replace("england wales", "England or Wales")
    return f"{seen.town} ({where[:1].upper()}{where[1:]})" if seen.town and seen.region else seen.town


def _weight_words(seen: CoverSeen) -> str:
    said = [weight_words(seen.ounces, "oz")] if seen.ounces else []
    said += [how_many(seen.sheets, "sheet")] if seen.sheets else []
    said += [f"{seen.miles} miles"] if seen.miles else []
    return ", ".join(said)


def _spaced(word: str) -> str:
    return word.replace("_", " ")
