"""A typed line about a cover, turned into what is seen of it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from typing import Any, Literal, cast

from counter.judge.cover.case import FIRST_USE
from counter.judge.cover.cover_facts import CancelMark, CoverSeen, Franked
from counter.judge.cover.postage_scale import OUNCES
from counter.judge.observation import Observation, Reading
from counter.reference.postal import Postal
from counter.reference.postal_numerals import is_code_abroad, plain_name
from counter.values.dates import When, read_date
from counter.values.errors import InputError
from counter.values.postage import Postage, read_number, read_postage
from counter.values.typed import words_of

_DATERS = ("cds", "registered", "ship_and_tpo")
#: A figure right after words of a charge is what was to be paid, unless it begins a date or a weight.
_CHARGED = re.compile(
    r"\b(?:unpaid|to pay|charged?)\s+(?P<pence>\d{1,2}½?)\s*d?\b"
    r"(?!\s*(?:[./]|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|oz|ounce|sheet|mile|g\b|st\b|nd\b|th\b))",
    re.IGNORECASE,
)
_WAY = re.compile(r"\b(?:via|per|by way of|by)\s+(?:the\s+)?([a-z]+(?:\s+[a-z]+){0,2})", re.IGNORECASE)
#: What stands before the date of the letter itself, as against that of a strike.
_HEADED = re.compile(
    r"\b(?:letter|contents?|headed|datelined?|written|inside)\s+"
    r"(?:(?:is|are|inside|headed|dated|of|on|from|reads|written)\s+)*$",
    re.IGNORECASE,
)
_CASH_MARKS = frozenset({"free", "paid", "paid_1", "unpaid", "unpaid_2", "uniform_4d_ms", "addl_half"})
_CROSS_NUMBERS = frozenset(map(str, range(1, 13)))


def cover_seen(
    reading: Reading, postal: Postal, franked: Sequence[Franked] = (), due: Franked | None = None
) -> CoverSeen:
    """What a line says of a cover; what it does not say stays empty. Never raises.

    `franked` are its stamps in the line's order, `due` its postage due labels.
    """
    first = franked[0] if franked else Franked()
    backstamps = [seen.value for seen in reading.all("backstamp")]
    dates = [when for seen in reading.all("date") if (when := _date(seen.value))]
    marks, charge = charges_read(reading)
    alone = due is not None and not franked
    written = _written(reading)
    journey = _journey(reading, postal)
    posted = [when for when in dates if when is not written] or dates
    stampless = bool(reading.first("stampless")) or alone or _without_stamp(reading, franked, posted)
    if stampless and reading.first("multiple") == "single":
        journey["sheets"] = journey["sheets"] or 1  # a single letter is one sheet
    return CoverSeen(
        stamps=first.stamps,
        value=first.value,
        count=first.count,
        beside=tuple(franked[1:]),
        due=due,
        stampless=stampless,
        when=_when(posted),
        second=_second(dates, marks),
        written=written if posted is not dates else None,
        arrivals=tuple(when for text in backstamps if (when := _date(text))),
        backstamp="none" if "none" in backstamps else ("present" if backstamps else ""),
        franking=_franking_said(reading),
        multiple=reading.first("multiple") or "single",
        letters=tuple(seen.value for seen in reading.all("letters")),
        plates=tuple(dict.fromkeys(seen.value for seen in reading.all("plate"))),
        faults=_faults(reading),
        attachment=reading.first("attachment"),
        certificate=reading.first("certificate") == "yes",
        answers=answers_said(reading.text, postal),
        marks=marks,
        mark_colour=reading.first("mark_colour"),
        charge=charge,
        tied=_tied(reading),
        **cancels_read(reading, postal),
        **journey,
    )


def _franking_said(reading: Reading) -> Postage | None:
    """The whole franking where the line gives it; 2 x 1d counts some stamps of it."""
    counts = {each.start for each in reading.all("quantity")}
    said = (each.value for each in reading.all("franking") if each.start not in counts)
    return postage_or_none(next(said, ""))


def _without_stamp(reading: Reading, franked: Sequence[Franked], dates: Sequence[When]) -> bool:
    """Whether a line names no stamp, nor what a stamp would have, and tells of a letter that went
    without one: a charge, a mark of the cash years, a date before any adhesive."""
    named = any(each.stamps or each.value for each in franked)
    cancelled = any(seen.value not in _DATERS for seen in reading.every("cancel"))
    if named or cancelled or any(reading.every(kind) for kind in ("franking", "tied", "cancel_number")):
        return False
    charged = reading.first("charge") or _CHARGED.search(reading.text)
    marks = {seen.value for seen in reading.all("mark")} & _CASH_MARKS
    return bool(charged or marks or any(when.latest.isoformat() < FIRST_USE for when in dates))


def _written(reading: Reading) -> When | None:
    """The date that a line gives the letter itself: "letter headed 4 June 1840"."""
    found = [each for each in reading.all("date") if _HEADED.search(reading.text[: each.start])]
    return _date(found[0].value) if found else None


def answers_said(text: str, postal: Postal) -> dict[str, str]:
    """Answers to checks that the remarks in a line give: "fold through stamp" and the like."""
    return {check: value for check, value, _ in _remarks(text, postal)}


def remark_words(text: str, postal: Postal) -> tuple[str, ...]:
    """The words of a line that belong to such remarks."""
    return tuple(word for _, _, said in _remarks(text, postal) for word in said)


def _remarks(text: str, postal: Postal) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    line = f" {' '.join(words_of(text))} "
    for padded, check, value, words in _sayings(postal):
        if padded in line:
            yield check, value, words


@lru_cache(maxsize=4)
def _sayings(postal: Postal) -> tuple[tuple[str, str, str, tuple[str, ...]], ...]:
    """Every remark that answers a check, each word between spaces, with check, answer and words."""
    return tuple(
        (f" {' '.join(words_of(said))} ", check.id, answer.value, words_of(said))
        for check in postal.checks.values()
        for answer in check.answers
        for said in answer.said
    )


def _tied(reading: Reading) -> Literal["", "tied", "not_tied"]:
    """Tied where every word says so: of two stamps one of which does not tie, one is not joined."""
    said = {seen.value for seen in reading.all("tied")}
    if "not_tied" in said or "tied" in reading.denied("tied"):
        return "not_tied"
    return "tied" if "tied" in said else ""


def cancels_read(reading: Reading, postal: Postal) -> dict[str, Any]:
    """The cancels on the stamp: a date stamp named beside another kind only dates the cover."""
    noted = reading.all("cancel")
    on_stamp = [seen for seen in noted if seen.value not in _DATERS] or list(noted[:1])
    types = [seen for seen in reading.all("cancel_type") if seen.value in postal.cancels]
    made: list[CancelMark] = []
    for seen in on_stamp:
        mine = [each for each in types if seen.value == postal.cancels[each.value].family]
        type_ = _nearest(seen, mine)
        colour = _nearest(seen, reading.all("cancel_colour"), on_stamp)
        number = _nearest(seen, reading.all("cancel_number"), on_stamp)
        if seen.value == "maltese_cross" and number not in _CROSS_NUMBERS:
            number = ""  # it is another cancel's: crosses were numbered 1 to 12 only
        made.append(CancelMark(seen.value, type_, colour, number))
    one_of_each = _one_of_each(made) or [CancelMark("")]
    first = one_of_each[0]
    return {
        "cancel": first.family or ("numeral" if reading.first("cancel_number") else ""),
        "cancel_type": first.type or ("" if on_stamp else reading.first("cancel_type")),
        "cancel_colour": first.colour or ("" if on_stamp else reading.first("cancel_colour")),
        "cancel_number": first.number or ("" if on_stamp else reading.first("cancel_number")),
        "more_cancels": tuple(one_of_each[1:]),
    }


def _nearest(to: Observation, values: Sequence[Observation], rivals: Sequence[Observation] = ()) -> str:
    """The value that stands nearest to an observation and to none of its rivals."""
    mine = [
        each
        for each in values
        if all(_gap(to, each) <= _gap(rival, each) for rival in rivals if rival is not to)
    ]
    return min(mine, key=lambda each: _gap(to, each)).value if mine else ""


def _gap(one: Observation, other: Observation) -> int:
    return max(other.start - one.end, one.start - other.end, 0)


def _one_of_each(marks: list[CancelMark]) -> list[CancelMark]:
    """One mark a kind, with all that is said of it; "no cancel" says nothing beside a cancel."""
    made: dict[str, CancelMark] = {}
    for mark in marks:
        kind = "machine" if mark.family == "slogan" else mark.family
        before = made.get(kind, mark)
        made[kind] = CancelMark(
            mark.family if mark.family == "slogan" else before.family,
            before.type or mark.type,
            before.colour or mark.colour,
            before.number or mark.number,
        )
    if len(made) > 1:
        made.pop("none", None)
    return list(made.values())


def charges_read(reading: Reading) -> tuple[tuple[str, ...], Postage | None]:
    """The marks, and the figure charged."""
    marks = tuple(seen.value for seen in reading.all("mark"))
    if "registered" in (seen.value for seen in reading.all("cancel")):
        marks = (*marks, "registered")
    charge = postage_or_none(reading.first("charge"))
    said = _CHARGED.search(reading.text) if charge is None else None
    return marks, postage_or_none(f"{said['pence']}d") if said else charge


def _journey(reading: Reading, postal: Postal) -> dict[str, Any]:
    """Where it came from and went; the country of a number used abroad is where it came from."""
    towns, abroad = [seen.value for seen in reading.all("town")], reading.first("destination")
    town, to_town = (towns or [""])[0], reading.first("to_town")
    place = postal.place(town) if town else None
    number = reading.first("cancel_number")
    coded = is_code_abroad(number) and (place is None or place.region == "abroad")
    offices = postal.numerals.offices(number, "abroad") if coded else ()
    names = {plain_name(name) for office in offices for name in office.names}
    if coded and abroad and (to_town or plain_name(abroad) in names):
        town, abroad = town or abroad, ""
    region = "abroad" if coded and not (place and place.region == "london") else ""
    return {
        "town": town,
        "region": region or (place.region if place else ""),
        "to_town": to_town,
        "to_abroad": abroad,
        "via": way_said(reading.text, postal),
        "ounces": weight_or_none(reading.first("weight")),
        "sheets": int(reading.first("sheets")) if reading.first("sheets").isdigit() else None,
        "miles": _number(reading.first("miles")),
        "service": cast(Any, reading.first("service") or "letter"),
    }


def way_said(text: str, postal: Postal) -> str:
    """The way it went, after "via", "per" or "by": only words that a rate abroad is told by."""
    said = _WAY.search(text)
    words = words_of(said[1]) if said else []
    return " ".join(word for word in words[:3] if word in postal.words_of_ways)


def _when(dates: list[When]) -> When | None:
    """The day, where one of the dates is a day; else the first date."""
    return next((when for when in dates if when.exact), dates[0] if dates else None)


def _second(dates: list[When], marks: tuple[str, ...]) -> When | None:
    """The other journey's date, of a letter that went twice."""
    first = _when(dates)
    others = [when for when in dates if when is not first]
    return others[0] if others and "reused_letter" in marks else None


def _date(text: str) -> When | None:
    try:
        return read_date(text)
    except InputError:
        return None


def postage_or_none(text: str) -> Postage | None:
    """The amount of a denomination or franking as kept; None when it is empty or no amount."""
    try:
        return read_postage(text) if text else None
    except InputError:
        return None


def weight_or_none(text: str) -> Fraction | None:
    """Ounces exactly, of a weight as read: "0.5" ounces or "20g"; None when it is empty or none."""
    number = _number(text.removesuffix("g"))
    return number * OUNCES["g"] if number and text.endswith("g") else number


def _number(text: str) -> Fraction | None:
    try:
        number = read_number(text) if text else None
    except InputError:
        return None
    return number or None


def _faults(reading: Reading) -> tuple[str, ...]:
    faults = [seen.value for seen in reading.all("fault")]
    if any(seen.value == "sulphided" for seen in reading.all("condition")):
        faults.append("sulphided")
    return tuple(dict.fromkeys(faults))
