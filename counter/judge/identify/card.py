"""The card of an issue: everything the reference says of it, line by line, each with its source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from counter.judge.identify.reasons import standing_of
from counter.reference.stamps import Stamps
from counter.reference.stamps_days import FirstDay
from counter.reference.stamps_issue import Issue
from counter.values.dates import day_words


@dataclass(frozen=True, slots=True)
class CardLine:
    """One line: a label, its words, a source id (or "common practice", "memory"), how sure.

    `also` are the sources of what else the line says, such as another date.
    """

    label: str
    text: str
    source: str
    confidence: str
    also: tuple[str, ...] = ()


def card_of(issue_id: str, stamps: Stamps) -> tuple[CardLine, ...]:
    """The card of an issue from its dates to its confusions; raises KeyError for an unknown id."""
    issue = stamps.weighed(issue_id)
    return (
        *_fields(issue, _SEEN_FIRST),
        *_watermark(issue, stamps),
        *_fields(issue, _LETTERED),
        *_plates(issue),
        *_fields(issue, _FURTHER),
        *_values(issue, stamps),
        *_emblems(issue),
        *_confusions(issue, stamps),
        *_lookalikes(issue, stamps),
        *_watermark_seen(issue, stamps),
        *_varieties(issue, stamps),
        *_notes(issue),
    )


_SEEN_FIRST = (("dates", "date_first_issued"), ("separation", "separation"))
_LETTERED = (
    ("letters", "check_letters"),
    ("upper corners", "upper_corners"),
    ("white lines", "white_lines"),
    ("die", "dies"),
    ("alphabet", "alphabets"),
)
_FURTHER = (
    ("plate number", "plate_number_where"),
    ("paper", "paper"),
    ("gum", "gum"),
    ("colours", "colours"),
    ("process", "print_process"),
    ("printer", "printer"),
    ("portrait", "portrait"),
    ("inscription", "inscription"),
    ("overprint", "overprint"),
    ("phosphor", "phosphor"),
    ("background", "head_background"),
    ("hair lines", "hair_lines"),
    ("value", "denomination"),
)
_SAYS_NOTHING = ("", "not applicable", "none on the stamp")


def _fields(issue: Issue, fields: tuple[tuple[str, str], ...]) -> Iterator[CardLine]:
    for label, name in fields:
        value = getattr(issue, name)
        text = _text(issue, name, ", ".join(value) if isinstance(value, tuple) else value)
        if text not in _SAYS_NOTHING:
            source, confidence = _standing(issue, name)
            also = _other_sources(issue) if name == "date_first_issued" else ()
            yield CardLine(label, text, source, confidence, also)


def _text(issue: Issue, name: str, text: str) -> str:
    """A field with what belongs on the same line."""
    if name == "date_first_issued":
        return _dates(issue)
    if name == "separation":
        gauge = issue.perf_gauge if issue.perf_gauge not in issue.separation else ""
        more = (gauge, issue.gauge_note, issue.separation_note)
        return "; ".join(part for part in (text, *more) if part)
    if name == "check_letters" and issue.letter_grid:
        return f"{text}; {issue.letter_grid}"
    return text


def _dates(issue: Issue) -> str:
    text = _days(issue.date_first_issued)
    if issue.date_valid_from:
        text += f", valid from {_days(issue.date_valid_from)}"
    if issue.date_superseded:
        text += f", to {_days(issue.date_superseded)}"
    others = [f"from {_days(each.date)}" for each in issue.date_first_issued_other]
    others += [f"to {_days(each.date)}" for each in issue.date_superseded_other]
    return "; ".join((text, *(f"another source: {each}" for each in others)))


def _other_sources(issue: Issue) -> tuple[str, ...]:
    others = (*issue.date_first_issued_other, *issue.date_superseded_other)
    return tuple(dict.fromkeys(each.source for each in others))


def _days(text: str) -> str:
    """Dates as they are said; what a source adds to one, "1843-01-25 (stock destroyed)", stays."""
    return " ".join(map(day_words, text.split(" ")))


def _standing(issue: Issue, name: str) -> tuple[str, str]:
    if any(field.split(" ")[0] == name for field in issue.fields_from_memory):
        return "memory", "memory"
    return issue.source, issue.confidence


def _values(issue: Issue, stamps: Stamps) -> Iterator[CardLine]:
    """Each value: its colours and first days, by the records of the days where there are any."""
    days = stamps.first_days.get(issue.id, ())
    told = {row.value for row in days}
    yield from _value_rows(issue, told)
    yield from first_day_lines(days)


def first_day_lines(days: Iterable[FirstDay]) -> Iterator[CardLine]:
    """The first days, a line a value and colour for each source they rest on."""
    groups: dict[tuple[str, tuple[str, ...], str, str], list[FirstDay]] = {}
    for each in days:
        key = (each.value, each.colours[:1], each.source, each.confidence)
        groups.setdefault(key, []).append(each)
    for (value, _, source, confidence), each_of in groups.items():
        colours = dict.fromkeys(colour for each in each_of for colour in each.colours)
        said = "; ".join(_day_words(each) for each in each_of)
        also = dict.fromkeys(other.source for each in each_of for other in each.others)
        yield CardLine(value, f"{', '.join(colours)}: {said}", source, confidence, tuple(also))


def _day_words(each: FirstDay) -> str:
    """One first day with what parts it from the others of its value."""
    countries = ", ".join(name.replace("_", " ").title() for name in each.countries)
    extra = (
        countries,
        each.watermark.replace("_", " "),
        each.band,
        each.paper,
        each.sold_in,
        f"withdrawn {_days(each.withdrawn)}" if each.withdrawn else "",
        "; ".join(f"another source: {_days(other.date)}" for other in each.others),
        each.note,
    )
    told = "; ".join(part for part in extra if part)
    return f"{_days(each.issued)} ({told})" if told else _days(each.issued)


def _emblems(issue: Issue) -> Iterator[CardLine]:
    for each in issue.emblems:
        yield CardLine(each.country.replace("_", " "), each.words, each.source, each.confidence)


def _value_rows(issue: Issue, told: Iterable[str]) -> Iterator[CardLine]:
    """The rows of values that no record of a first day tells of."""
    source, confidence = standing_of(issue, "colour")
    for row in issue.values:
        if row.value in told and not (row.dies or row.types or row.chalky):
            continue
        text = f"{', '.join(row.colours)}; {_days(row.issued)}"
        extra = {
            "chalk-surfaced from": row.chalky,
            "dies": row.dies,
            "types": row.types,
            "paper": row.paper,
            "watermark": (row.watermark or row.watermarks).replace("_", " "),
            "another date": _days(row.issued_other),
        }
        more = "".join(f"; {label} {value}" for label, value in extra.items() if value)
        yield CardLine(row.value, text + more, source, confidence)


def _watermark(issue: Issue, stamps: Stamps) -> Iterator[CardLine]:
    if not issue.watermark:
        return
    source, confidence = _standing(issue, "watermark")
    marks = [stamps.watermarks[name] for name in issue.characters.watermarks]
    text = " or ".join(mark.name for mark in marks) or issue.watermark
    for note in (issue.watermark_orientation, issue.watermark_note):
        text += f"; {note}" if note else ""
    yield CardLine("watermark", text, source, confidence)


def _watermark_seen(issue: Issue, stamps: Stamps) -> Iterator[CardLine]:
    """How each of the issue's watermarks looks from the back, and what it is mistaken for."""
    for mark in (stamps.watermarks[name] for name in issue.characters.watermarks):
        seen = mark.from_the_back or mark.how_to_see or mark.description
        if seen:
            yield CardLine(mark.name, seen, mark.source, mark.confidence)
        if mark.caution:
            yield CardLine("beware", mark.caution, mark.source, mark.confidence)
        if mark.note:
            yield CardLine("note", mark.note, mark.source, mark.confidence)


def _plates(issue: Issue) -> Iterator[CardLine]:
    source, confidence = _standing(issue, "plates")
    if issue.plates:
        yield CardLine("plates", ", ".join(issue.plates), source, confidence)
    unused = {
        "never put to press": issue.plates_never_put_to_press,
        "never used": issue.plates_never_used,
        "never completed": issue.plates_never_completed,
        "made but not used": issue.plates_made_but_unused + issue.plates_made_but_unused_at_end,
    }
    for label, numbers in unused.items():
        if numbers:
            yield CardLine(label, ", ".join(numbers), source, confidence)
    for abnormal in issue.plates_not_regular:
        yield CardLine(f"plate {abnormal.plate}", abnormal.why, source, confidence)


def _confusions(issue: Issue, stamps: Stamps) -> Iterator[CardLine]:
    for each in issue.confused_with:
        what = each.words
        if each.issue:
            what = stamps.issues[each.issue].name
        elif each.lookalike:
            what = stamps.lookalikes[each.lookalike].name
        yield CardLine("told from", f"{what}: {each.tell}", *issue.trade_standing)


def _lookalikes(issue: Issue, stamps: Stamps) -> Iterator[CardLine]:
    named = {each.lookalike for each in issue.confused_with}
    for each in stamps.lookalikes.values():
        if issue.id in each.looks_like and each.id not in named:
            text = f"{each.name}: {'; '.join((*each.tell, each.note) if each.note else each.tell)}"
            yield CardLine("lookalike", text, each.source, each.confidence)


def _varieties(issue: Issue, stamps: Stamps) -> Iterator[CardLine]:
    for each in stamps.varieties_of(issue.id):
        place = f" (plate {each.plate})" if each.plate else ""
        text = f"{each.name}{place}: {each.what}; look: {each.look}"
        yield CardLine("variety", text, each.source, each.confidence)


def _notes(issue: Issue) -> Iterator[CardLine]:
    if issue.notes:
        recalled = "notes" in issue.fields_from_memory
        standing = ("memory", "memory") if recalled else issue.trade_standing
        yield CardLine("note", issue.notes, *standing)
    if issue.ink_notes:
        yield CardLine("ink", issue.ink_notes, *issue.trade_standing)
