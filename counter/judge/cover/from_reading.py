"""A typed line about a cover, turned into what is seen of it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any, cast

from counter.judge.cover.cover_facts import CoverSeen, StampDates
from counter.judge.cover.postage_scale import OUNCES
from counter.judge.observation import Reading
from counter.reference.postal import Postal
from counter.values.dates import When, read_date
from counter.values.errors import InputError
from counter.values.postage import Postage, read_number, read_postage
from counter.values.typed import words_of

#: Kinds that tell which stamp it is; the cover's own date and cancel must not choose the stamp that
#: they are then held against.
STAMP_KINDS = frozenset(
    {"denomination", "colour", "shade", "separation", "gauge", "plate", "letters", "corners"}
    | {"watermark", "watermark_way", "paper", "lines", "die", "alphabet", "reign", "process"}
    | {"dots", "overprint", "phosphor", "series", "subject"}
)
_DATERS = ("cds", "registered", "ship_and_tpo")
_CROSS_NUMBERS = frozenset(map(str, range(1, 13)))
_COUNTS = {"single": 1, "pair": 2}


def stamp_only(reading: Reading) -> Reading:
    """The reading with nothing but what tells the stamp."""
    return _keeping(reading, STAMP_KINDS)


def stamp_and_date(reading: Reading) -> Reading:
    """The reading with what tells the stamp, and the date."""
    return _keeping(reading, STAMP_KINDS | {"date"})


def _keeping(reading: Reading, kinds: frozenset[str]) -> Reading:
    return replace(reading, observations=tuple(o for o in reading.observations if o.kind in kinds))


def cover_seen(reading: Reading, postal: Postal, stamps: tuple[StampDates, ...] = ()) -> CoverSeen:
    """What a line says of a cover; what it does not say stays empty. Never raises."""
    several = reading.differing("denomination")
    value = None if several else postage_or_none(reading.first("denomination"))
    multiple = reading.first("multiple") or "single"
    backstamps = [seen.value for seen in reading.all("backstamp")]
    return CoverSeen(
        stamps=stamps,
        value=value,
        count=count_of(multiple, len(reading.all("letters"))),
        stampless=bool(reading.first("stampless")),
        when=_when(reading),
        arrivals=tuple(when for text in backstamps if (when := _date(text))),
        backstamp="none" if "none" in backstamps else ("present" if backstamps else ""),
        franking=postage_or_none(reading.first("franking")),
        multiple=multiple,
        letters=tuple(seen.value for seen in reading.all("letters")),
        plates=tuple(dict.fromkeys(seen.value for seen in reading.all("plate"))),
        faults=_faults(reading),
        attachment=reading.first("attachment"),
        certificate=reading.first("certificate") == "yes",
        several=several,
        answers=answers_said(reading.text, postal),
        **_cancel(reading),
        **_journey(reading, postal),
    )


def answers_said(text: str, postal: Postal) -> dict[str, str]:
    """Answers to checks that the remarks in a line give: "fold through stamp" and the like."""
    return {check: value for check, value, _ in _remarks(text, postal)}


def remark_words(text: str, postal: Postal) -> tuple[str, ...]:
    """The words of a line that belong to such remarks."""
    return tuple(word for _, _, said in _remarks(text, postal) for word in said)


def _remarks(text: str, postal: Postal) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    line = f" {' '.join(words_of(text))} "
    for check in postal.checks.values():
        for answer in check.answers:
            for said in map(words_of, answer.said):
                if f" {' '.join(said)} " in line:
                    yield check.id, answer.value, said


def _cancel(reading: Reading) -> dict[str, Any]:
    """The cancel on the stamp: a date stamp named beside another kind only dates the cover."""
    kinds = [seen.value for seen in reading.all("cancel")]
    on_stamp = [kind for kind in kinds if kind not in _DATERS]
    cancel, number = (on_stamp or kinds or [""])[0], reading.first("cancel_number")
    if cancel == "maltese_cross" and number not in _CROSS_NUMBERS:
        number = ""  # it is another cancel's: crosses were numbered 1 to 12 only
    return {
        "cancel": cancel,
        "cancel_type": reading.first("cancel_type"),
        "cancel_colour": reading.first("cancel_colour"),
        "cancel_number": number,
        "tied": cast(Any, reading.first("tied")),
    }


def _journey(reading: Reading, postal: Postal) -> dict[str, Any]:
    town = reading.first("town")
    place = postal.place(town) if town else None
    marks = tuple(seen.value for seen in reading.all("mark"))
    if "registered" in (seen.value for seen in reading.all("cancel")):
        marks = (*marks, "registered")
    return {
        "town": town,
        "region": place.region if place else "",
        "to_town": reading.first("to_town"),
        "to_abroad": reading.first("destination"),
        "ounces": weight_or_none(reading.first("weight")),
        "sheets": int(reading.first("sheets")) if reading.first("sheets").isdigit() else None,
        "miles": _number(reading.first("miles")),
        "service": cast(Any, reading.first("service") or "letter"),
        "marks": marks,
        "mark_colour": reading.first("mark_colour"),
    }


def _when(reading: Reading) -> When | None:
    """The day, where one of the dates is a day; else the first date."""
    dates = [when for seen in reading.all("date") if (when := _date(seen.value))]
    return next((when for when in dates if when.exact), dates[0] if dates else None)


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


def count_of(multiple: str, lettered: int) -> int:
    """How many stamps a multiple is; without a name as many as were lettered."""
    figure = re.search(r"\d+$", multiple)
    return int(figure[0]) if figure else _COUNTS.get(multiple, max(lettered, 1))


def _faults(reading: Reading) -> tuple[str, ...]:
    faults = [seen.value for seen in reading.all("fault")]
    if any(seen.value == "sulphided" for seen in reading.all("condition")):
        faults.append("sulphided")
    return tuple(dict.fromkeys(faults))
