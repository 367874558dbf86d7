"""What is typed to mend one field of a piece, read into the field's values; and shown the same way.

Pure text to values: no journal and no screen. A reader raises InputError in one sentence naming what
was not understood and how it is written; what stands nowhere else belongs under "words".
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from counter.describe.wording import MARGINS, cancel_words, fault_words, multiple_words, plain_term
from counter.judge.observation import Reading
from counter.judge.reading import read_line
from counter.judge.reading.line import Line
from counter.judge.reading.phrases import Match, longest, slips_at
from counter.reference.library import Library
from counter.values.dates import read_date
from counter.values.errors import InputError
from counter.values.item import Certificate, Fault, Item, stamps_in
from counter.values.letters import read_letters
from counter.values.money import pounds, read_pence

Values = Mapping[str, Any]
"""Fields of an item and what they become."""

_RUN = re.compile(r"[A-Za-z]{2}-[A-Za-z]{2}")
_WAYS = ("inverted", "sideways", "reversed")
#: Kinds of observation that are faults of a piece; of some kinds only these values.
_FAULTS = {
    "fault": None,
    "repair": {"repaired", "painted"},
    "condition": {"sulphided", "foxed", "toned"},
}
_ROUND = " ,.:()-"
_DENIED = {"no", "not", "without", "never"}


def parts_of(text: str) -> list[str]:
    """What stands between semicolons, empty parts left out."""
    return [part.strip() for part in text.split(";") if part.strip()]


def read_asking(text: str, library: Library, item: Item) -> Values:
    """A price in pounds; nothing at all is no price."""
    pence = read_pence(text, "an asking price")
    if not pence:
        raise InputError("An asking price is more than nothing; write - to take the price off.")
    return {"asking": pence}


def show_asking(item: Item) -> str:
    """The price as it is written."""
    return "" if item.asking is None else pounds(item.asking)


# Faults


def read_faults(text: str, library: Library, item: Item) -> Values:
    """Faults between semicolons, each a term with where it is: "thin at top; crease lower right"."""
    return {"faults": tuple(read_fault(part, library) for part in parts_of(text))}


def show_faults(item: Item) -> str:
    """The faults as the line of stock says them."""
    return "; ".join(map(fault_words, item.faults))


def read_fault(part: str, library: Library) -> Fault:
    """One fault: its term of the reference, and the words around it as where it is. Raises InputError."""
    line = Line(part, library.vocabulary)
    found = _term(line, library)
    if found is None:
        terms = ", ".join(map(plain_term, library.postal.faults))
        raise InputError(f"{part} is not a fault by its term: write one of {terms}, then where it is.")
    first, match = found
    if {word.text for word in line.tokens[:first]} & _DENIED:
        raise InputError(f"{part} says there is none: write only the faults there are, or - for none.")
    before = part[: line.tokens[first].start].strip(_ROUND)
    after = part[line.tokens[match.end - 1].end :].strip(_ROUND)
    return Fault(match.means[0].value, ", ".join(each for each in (before, after) if each))


def _term(line: Line, library: Library) -> tuple[int, Match] | None:
    """The first fault named, well spelled before mistyped, and where its own word begins.

    Of "corner crease" the term is crease: "corner" says where, and must not be lost.
    """
    for find in (longest, slips_at):
        for at in range(len(line.tokens)):
            match = _fault_at(line, at, find)
            if not match:
                continue
            own = plain_term(match.means[0].value).split()
            words = line.tokens
            starts = (
                start for start in range(match.end - 1, at, -1) if words[start - 1].text not in own
            )
            for start in starts:
                shorter = _fault_at(line, start, find)
                if shorter and (shorter.end, shorter.means) == (match.end, match.means):
                    return start, match
            return at, match
    return None


def _fault_at(line: Line, at: int, find: Callable[[Line, int], Match | None]) -> Match | None:
    match = None if line.tokens[at].sign else find(line, at)
    if match is None or match.means[0].kind not in _FAULTS:
        return None
    only = _FAULTS[match.means[0].kind]
    return match if only is None or match.means[0].value in only else None


# Margins, letters and the size of the multiple


def read_margins(text: str, library: Library, item: Item) -> Values:
    """Margins of each stamp between strokes, or once for all: "4", "4 / 4 / touched"."""
    parts = [part.strip() for part in re.split(r"[/;,]", text) if part.strip()]
    margins = tuple(_margin(part, library) for part in parts)
    _no_more_than_stamps(len(margins), item.multiple, "margins")
    return {"margins": margins}


def show_margins(item: Item) -> str:
    """Each stamp's margins, the word itself left out where it is plain."""
    words = (MARGINS.get(each, plain_term(each)) for each in item.margins)
    return " / ".join(each.removesuffix(" margins").removesuffix(" margin") for each in words)


def _margin(part: str, library: Library) -> str:
    term = part.lower().replace(" ", "_")
    if term in library.postal.margins or term in MARGINS:
        return term
    for typed in (part, f"{part} margins", f"{part} margin"):
        reading = read_line(typed, library.vocabulary)
        if reading.first("margins") and not reading.unread:
            return reading.first("margins")
    raise InputError(
        f"{part} is not a word for margins: write 4, 3, 2, 1, 0, close, touched or cut into."
    )


def read_letterings(text: str, library: Library, item: Item) -> Values:
    """Check letters: "KC", "CKKC", "KC KD", a run "KC-KF"."""
    letters: list[str] = []
    for typed in re.split(r"[\s,;]+", text.strip()):
        run = read_line(f"lettered {typed}", library.vocabulary) if _RUN.fullmatch(typed) else None
        read = [seen.value for seen in run.all("letters")] if run else []
        letters += read or [read_letters(typed)]
    _no_more_than_stamps(len(letters), item.multiple, "letterings")
    return {"letters": tuple(letters)}


def show_letterings(item: Item) -> str:
    """The letters of each stamp."""
    return " ".join(item.letters)


def read_multiple(text: str, library: Library, item: Item) -> Values:
    """single, pair, strip of 3, block of 4, irregular block of 5."""
    typed = text.strip().lower().replace("_", " of ").replace("irregular of", "irregular block of")
    reading = read_line(typed, library.vocabulary)
    multiple = reading.first("multiple")
    if irregular := re.fullmatch(r"irregular block of ([1-9][0-9]{0,2})", typed):
        multiple = f"irregular_{irregular[1]}"
    elif not multiple or reading.unread or len(reading.observations) > 1:
        raise InputError(f"{text} is not a multiple: write single, pair, strip of 3 or block of 4.")
    for kept, what in ((item.letters, "letterings"), (item.margins, "margins")):
        _no_more_than_stamps(len(kept), multiple, what)
    return {"multiple": multiple}


def show_multiple(item: Item) -> str:
    """The multiple in words, a single too."""
    return multiple_words(item.multiple) or "single"


def _no_more_than_stamps(count: int, multiple: str, what: str) -> None:
    stamps = stamps_in(multiple)
    if count > stamps:
        named = multiple_words(multiple) or "single"
        has = "one stamp" if stamps == 1 else f"{stamps} stamps"
        raise InputError(
            f"A {named} has {has}, but {count} {what} are noted: mend the multiple or the {what} first."
        )


# Watermark and cancel


def read_watermark(text: str, library: Library, item: Item) -> Values:
    """A watermark of the reference, and inverted, sideways or reversed when it is."""
    reading = read_line(text, library.vocabulary)
    seen, way = reading.first("watermark"), reading.first("watermark_way")
    turned = f" {way}" if way in _WAYS else ""
    words = [each for each in text.lower().split() if each not in _WAYS]
    if "_".join(words) in library.stamps.watermarks:
        return {"watermark": "_".join(words) + turned}
    if "|" in seen:
        either = " or ".join(map(plain_term, seen.split("|")))
        raise InputError(f"{text} may be {either}: write which it is.")
    if not seen or reading.unread:
        raise InputError(f"{text} is not a known watermark: write it like small crown inverted.")
    return {"watermark": seen + turned}


def show_watermark(item: Item) -> str:
    """The watermark as seen."""
    return plain_term(item.watermark)


def read_cancel(text: str, library: Library, item: Item) -> Values:
    """The cancel with its colour and number: "red MX", "black numeral 46", "uncancelled"."""
    reading = read_line(text, library.vocabulary)
    seen = [(each.kind, each.value) for each in reading.observations]
    if text.strip().lower() == "none":
        seen = [("cancel", "none")]
    elif reading.unread or any(kind not in ("cancel", "cancel_number", *_COLOURS) for kind, _ in seen):
        raise InputError(f"{_left(reading) or text} was not understood as a cancel: {_CANCEL_LIKE}")
    values = {"cancel": "", "cancel_colour": "", "cancel_number": ""}
    for kind, value in reversed(seen):
        values["cancel_colour" if kind in _COLOURS else kind] = value
    return values


_COLOURS = ("cancel_colour", "colour")  # a colour alone is the cancel's here
_CANCEL_LIKE = "write it like red MX, black numeral 46, cds, pen or uncancelled."


def _left(reading: Reading) -> str:
    return " ".join(run.text for run in reading.unread)


def show_cancel(item: Item) -> str:
    """The cancel in short words."""
    return cancel_words(item).removesuffix(" cancel")


# Papers, pictures and dates


def read_certificate(text: str, library: Library, item: Item) -> Values:
    """Whose; date; number; what it says. What follows the third semicolon is all opinion."""
    body, date, number, opinion = ([part.strip() for part in text.split(";", 3)] + [""] * 4)[:4]
    if not body:
        raise InputError("A certificate needs whose it is first: whose; date; number; what it says.")
    return {"certificate": Certificate(body, date, number, opinion)}


def show_certificate(item: Item) -> str:
    """Whose; date; number; opinion."""
    paper = item.certificate
    if paper is None:
        return ""
    return "; ".join((paper.body, paper.date, paper.number, paper.opinion)).rstrip("; ")


def read_photographs(text: str, library: Library, item: Item) -> Values:
    """Paths between semicolons; quotes that a file manager put round them are taken off."""
    return {"photographs": tuple(path for each in parts_of(text) if (path := each.strip("'\"")))}


def show_photographs(item: Item) -> str:
    """The paths."""
    return "; ".join(item.photographs)


def read_posted(text: str, library: Library, item: Item) -> str:
    """The day, month or year a cover was posted, ISO."""
    typed = text.strip()
    try:
        return read_date(typed).text
    except InputError:
        day = read_line(typed, library.vocabulary).first("date")
        if not day:
            raise
        return day
