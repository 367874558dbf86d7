"""Commemorative sets as issues: what is told of a set in the shape that every issue has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from counter.reference.stamps_issue import Characters, Dated, Issue, Stamp
from counter.reference.stamps_records import Commemorative
from counter.values.dates import read_date

#: First day of each reign, ISO, and how it is written; commemoratives begin under George V.
_REIGNS = (
    ("1952-02-06", "Elizabeth II", "elizabeth_2"),
    ("1936-12-11", "George VI", "george_6"),
    ("1936-01-20", "Edward VIII", "edward_8"),
    ("", "George V", "george_5"),
)
#: From October 1967 no commemorative has a watermark (rule watermark_end_1967).
_UNWATERMARKED = "1967-10-01"
_PROCESSES = {
    "recess": ("recess", "g5_recess"),
    "surface_printed": ("surface-printed (typographed)", "g5_typo"),
    "photogravure": ("photogravure", "photogravure"),
}


def issues_of(sets: Iterable[Commemorative], held: Iterable[Issue]) -> Iterator[Issue]:
    """The issues of the sets. `held` are the issues with records of their own: a stamp that one of
    them has from a set's day, such as the £1 of 1929, stays with it."""
    taken = {
        (stamp.issued, stamp.value)
        for issue in held
        for stamp in issue.characters.stamps
        if stamp.issued
    }
    for each in sets:
        yield _issue_of(each, {value for value in each.values if (each.date, value) in taken})


def _issue_of(each: Commemorative, taken: set[str]) -> Issue:
    words, ink = _PROCESSES.get(each.process, ("", ""))
    reign, head = next((name, head) for start, name, head in _REIGNS if each.date >= start)
    return Issue(
        id=each.id,
        name=f"{each.subject}, {read_date(each.date).words()}",
        reign=reign,
        series="commemorative set",
        denomination=", ".join(each.values),
        date_first_issued=each.date,
        print_process=words,
        separation="perforated",
        watermark="no_watermark" if each.date >= _UNWATERMARKED else "",
        check_letters="none",
        ink=ink,
        source=each.source,
        confidence=each.confidence,
        characters=_characters(each, taken, head),
        colours=tuple(f"{value} {colour}" for value, colour in each.colours.items()),
        notes=each.note,
        also=each.also,
        fields_from_memory=_recalled(each),
    )


def _recalled(each: Commemorative) -> tuple[str, ...]:
    names = {"date": "date_first_issued", "values": "denomination"}
    return tuple(names.get(name, name) for name in each.fields_from_memory)


def _characters(each: Commemorative, taken: set[str], head: str) -> Characters:
    recalled = "memory" in (each.confidence, each.source) or "date" in each.fields_from_memory
    year = date.fromisoformat(each.date).year + 1
    return Characters(
        stamps=tuple(_stamps(each, taken, recalled)),
        standing="issued",
        reigns=(head,),
        processes=(each.process,) if each.process else (),
        series=("commemorative",),
        separations=("perforated",),
        gauges=(),
        watermarks=("no_watermark",) if each.date >= _UNWATERMARKED else (),
        corners=("none",),
        letters=0,
        issued=Dated(each.date, each.date, recalled),
        superseded=Dated(each.date, f"{year}{each.date[4:]}", memory=True),
    )


def _stamps(each: Commemorative, taken: set[str], recalled: bool) -> Iterable[Stamp]:
    for value in dict.fromkeys(one.partition("x")[0] for one in each.values):
        if value in taken:
            continue
        day, soft = each.date, recalled
        if value in each.later:
            day, soft = each.later[value], True
        colours = (each.colours[value],) if value in each.colours else ()
        yield Stamp(value, colours, day, recalled=soft)
