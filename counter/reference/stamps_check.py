"""Every cross-reference of the stamp records: a broken one names file, record and field."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from counter.reference.loader import DataFault
from counter.reference.sources import check_source
from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import AS_BASIC, Issue
from counter.reference.stamps_plate import expand


def check(stamps: Stamps) -> None:
    """Raise DataFault at the first reference that leads nowhere."""
    _check_sources(stamps)
    files = {
        row["id"]: file for file, content in stamps.tables.items() for row in content.get("issue", ())
    }
    plated: dict[str, set[str]] = {}
    for plate in stamps.plates:
        # 1a, 1b and 1c are states of one plate
        numbers = {number.rstrip("abc") for number in expand((plate.plate,))}
        plated.setdefault(plate.denomination, set()).update(numbers)
        for name in plate.watermark:
            _one(name, stamps.watermarks, f"[[plate]] {plate.id}.watermark", "watermark")
    for issue in stamps.issues.values():
        where = f"{files.get(issue.id, 'commemoratives')}.toml [[issue]] {issue.id}"
        _check_watermarks(issue, stamps, where)
        _check_confusions(issue, stamps, where)
        _check_plates(issue, stamps, plated, where)
        if issue.ink not in ("", AS_BASIC):
            _one(issue.ink, stamps.inks, f"{where}.ink", "ink")
    for lookalike in stamps.lookalikes.values():
        where = f"lookalikes.toml [[lookalike]] {lookalike.id}.looks_like"
        for name in lookalike.looks_like:
            _one(name, stamps.issues, where, "issue")
    _check_days(stamps)
    _check_varieties(stamps)
    for mark in stamps.watermark_rows:
        for name in mark.stands_for:
            where = f"watermarks_other.toml [[watermark]] {mark.id}.stands_for"
            _one(name, stamps.watermarks, where, "watermark")


def _check_varieties(stamps: Stamps) -> None:
    for each in stamps.varieties.values():
        for name in each.issues:
            _one(name, stamps.issues, f"[[variety]] {each.id}.issues", "issue")
        for name in each.fakes:
            _one(name, stamps.lookalikes, f"[[variety]] {each.id}.fakes", "lookalike")


def _check_days(stamps: Stamps) -> None:
    """Every first day is of an issue that lists a stamp of its value."""
    for days in stamps.first_days.values():
        for each in days:
            where = f"[[first_day]] {each.id}"
            _one(each.issue, stamps.issues, f"{where}.issue", "issue")
            values = {stamp.value for stamp in stamps.issues[each.issue].characters.stamps}
            _one(each.value, values, f"{where}.value", "stamp")
            if each.watermark:
                _one(each.watermark, stamps.watermarks, f"{where}.watermark", "watermark")


def _one(name: str, known: Iterable[str], where: str, kind: str) -> None:
    if name not in known:
        raise DataFault(f"{where}: there is no {kind} {name!r}")


def _check_sources(stamps: Stamps) -> None:
    """Every table's `source` and `..._source` must name a source, unless it says it has none."""
    for file, content in stamps.tables.items():
        for key, rows in content.items():
            for number, row in enumerate(rows, 1):
                if not isinstance(row, dict):
                    continue
                name = row.get("id") or row.get("plate") or f"no. {number}"
                for source in _sources_in(row, plate=key == "plate"):
                    check_source(source, stamps.sources, f"{file}.toml [[{key}]] {name}")


def _sources_in(row: dict[str, object], *, plate: bool = False) -> Iterator[str]:
    """The source ids of a row and of the rows inside it; a plate names one for single fields."""
    for key, value in row.items():
        shape = type(value)
        if shape is str:
            if key == "source" or (plate and key.endswith("_source")):
                yield str(value)
        elif isinstance(value, dict):
            yield from _sources_in(value)
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            for each in value:
                yield from _sources_in(each)


def _check_watermarks(issue: Issue, stamps: Stamps, where: str) -> None:
    if issue.watermark not in ("", AS_BASIC):
        _one(issue.watermark, stamps.watermarks, f"{where}.watermark", "watermark")
    named = set(issue.characters.watermarks)
    for stamp in issue.characters.stamps:
        named.update(stamp.watermarks)
    for name in sorted(named):
        _one(name, stamps.watermarks, f"{where}.characters.watermarks", "watermark")
    for row in issue.values:
        if row.watermark:
            _one(row.watermark, stamps.watermarks, f"{where}.values.watermark", "watermark")


def _check_confusions(issue: Issue, stamps: Stamps, where: str) -> None:
    for confusion in issue.confused_with:
        given = [each for each in (confusion.issue, confusion.lookalike, confusion.words) if each]
        if len(given) != 1:
            raise DataFault(f"{where}.confused_with: give one of issue, lookalike or words")
        if confusion.issue:
            _one(confusion.issue, stamps.issues, f"{where}.confused_with.issue", "issue")
        if confusion.lookalike:
            place = f"{where}.confused_with.lookalike"
            _one(confusion.lookalike, stamps.lookalikes, place, "lookalike")


def _check_plates(issue: Issue, stamps: Stamps, plated: dict[str, set[str]], where: str) -> None:
    """An issue's plates must have records where its denomination has any, and never be both."""
    used = stamps.plate_numbers[issue.id]
    both = used & stamps.unused_plates[issue.id]
    if both:
        raise DataFault(f"{where}.characters.plates: {', '.join(sorted(both))} both used and unused")
    if issue.characters.processes != ("line_engraved",):
        return
    value = issue.characters.stamps[0].value
    numbered = {number for number in used if number[0] in "R0123456789"}
    for number in sorted(numbered):
        if number.rstrip("abc") not in plated[value]:
            raise DataFault(f"{where}.characters.plates: there is no plate record {value} {number}")


def check_error_model(stamps: Stamps) -> None:
    """Raise DataFault when a row names a kind, watermark, lookalike or issue that is not there."""
    _check_how_many(stamps)
    _check_seen_as(stamps)
    errors = stamps.errors
    for look in errors.looks:
        if look.kind not in errors.characters:
            raise DataFault(f"looks.toml [[look]] {look.id}.kind: no character {look.kind!r}")
    for explanation in errors.explanations:
        where = f"explanations.toml [[explanation]] {explanation.kind} {explanation.seen}"
        if explanation.lookalike and explanation.lookalike not in stamps.lookalikes:
            raise DataFault(f"{where}.lookalike: there is no {explanation.lookalike!r}")
        if not (explanation.lookalike or explanation.test):
            raise DataFault(f"{where}: give a lookalike or a test")
        for name in explanation.issues:
            if name not in stamps.issues:
                raise DataFault(f"{where}.issues: there is no issue {name!r}")


def _check_seen_as(stamps: Stamps) -> None:
    for (kind, truly), row in stamps.errors.seen_as.items():
        where = f"seen_as.toml seen_as {kind} {truly}"
        if kind not in stamps.errors.characters:
            raise DataFault(f"{where}.kind: there is no character {kind!r}")
        if sum(each.share for each in row.values()) >= 1:
            raise DataFault(f"{where}.share: the shares add up to 1 or more")
        for each in row.values():
            if kind == "watermark" and not {truly, each.seen} <= stamps.watermarks.keys():
                raise DataFault(f"{where}.seen: {each.seen!r} or {truly!r} is no watermark")


def _check_how_many(stamps: Stamps) -> None:
    errors = stamps.errors
    named = [("how_many", each.issue, each.issue) for each in errors.how_many.values()]
    named += [("tell", each.value, name) for each in errors.tells.values() for name in each.issues]
    for table, row, name in named:
        if name not in stamps.issues and name not in stamps.hypotheses:
            raise DataFault(f"[[{table}]] {row}: there is no issue {name!r}")
    for each in errors.unsaid:
        if each.kind not in errors.characters:
            raise DataFault(f"[[unsaid]] {each.kind}: there is no character {each.kind!r}")
