"""Letterings on a sheet: row, column and number of each, what cannot be, and whether they adjoin."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from counter.judge.judgement import Reason
from counter.judge.letters.adjoining import adjoins, shape_of, why_not_adjoining
from counter.reference.stamps import Stamps
from counter.reference.vocabulary import LetteringError
from counter.values.letters import Format, counts, letters_at, mirrored, place, spoken


@dataclass(frozen=True, slots=True)
class Position:
    """One lettering on the sheet; `number` is 0 where the sheet has no such place.

    `beside` are the neighbours' letters by side: left, right, above, below; no entry at an edge.
    """

    letters: str
    row: int
    column: int
    number: int
    beside: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class LetterReading:
    """Letterings read against one sheet.

    `adjoin` is None for a single lettering; `shape` is in plain words; `problems` speak against a
    lettering, `notes` say what letters prove and what to compare.
    """

    sheet: Format
    positions: tuple[Position, ...]
    adjoin: bool | None
    shape: str
    problems: tuple[Reason, ...]
    notes: tuple[Reason, ...] = ()


def judge_letters(
    letterings: Sequence[str],
    sheet: Format,
    stamps: Stamps,
    errors: Mapping[str, LetteringError],
) -> LetterReading:
    """Judge letterings (as `values.letters.read_letters` keeps them) on a sheet, in their order."""
    positions = tuple(_position(each, sheet) for each in letterings)
    problems = [reason for each in positions for reason in _problems(each, sheet, stamps, errors)]
    if len(positions) < 2:
        return LetterReading(sheet, positions, None, "single" if positions else "", tuple(problems))
    squares = [(each.row, each.column) for each in positions]
    possible = all(each.number for each in positions)
    adjoin = possible and adjoins(squares)
    rule = stamps.lettering["adjoining"]
    text = (
        f"could adjoin: {rule.proof.partition(': ')[2]}"
        if adjoin
        else why_not_adjoining(squares, sheet.columns)
    )
    note = Reason(rule.id, text, rule.source, rule.confidence, "for" if adjoin else "neutral")
    return LetterReading(
        sheet,
        positions,
        adjoin,
        shape_of(squares) if possible else "not adjoining",
        (*problems, *_twice(letterings, stamps)),
        (note,) if possible else (),
    )


def _position(letters: str, sheet: Format) -> Position:
    row, column = counts(letters)
    found = place(letters, sheet)
    beside = neighbours(letters, sheet) if found else {}
    return Position(letters, row, column, found.number if found else 0, beside)


def neighbours(letters: str, sheet: Format) -> dict[str, str]:
    """The letters left, right, above and below, where the sheet goes on."""
    row, column = counts(letters)
    four = len(letters) == 4
    around = {
        "left": (row, column - 1),
        "right": (row, column + 1),
        "above": (row - 1, column),
        "below": (row + 1, column),
    }
    return {
        side: letters_at(*at, four)
        for side, at in around.items()
        if 1 <= at[0] <= sheet.rows and 1 <= at[1] <= sheet.columns
    }


def _problems(
    position: Position, sheet: Format, stamps: Stamps, errors: Mapping[str, LetteringError]
) -> Iterable[Reason]:
    rule = stamps.lettering["impossible_letterings"]
    name = spoken(position.letters)
    for what, count, most in (
        ("row", position.row, sheet.rows),
        ("column", position.column, sheet.columns),
    ):
        if count > most:
            text = (
                f"{name} cannot be: there is no {what} {chr(64 + count)}, a sheet of {sheet.name} "
                f"ends at {what} {chr(64 + most)}"
            )
            yield Reason(rule.id, text, rule.source, rule.confidence, "against", "strong", "letters")
    if not mirrored(position.letters):
        yield _not_mirrored(position.letters, stamps, errors)


def _not_mirrored(letters: str, stamps: Stamps, errors: Mapping[str, LetteringError]) -> Reason:
    known = errors.get(letters)
    if known:
        name = f"{spoken(letters)} is {known.text}"
        return Reason(
            "lettering_error", name, known.source, known.confidence, "neutral", "none", "letters"
        )
    rule = stamps.lettering["upper_corners_reversed"]
    row, column = counts(letters)
    text = (
        f"{spoken(letters)} does not mirror: above {spoken(letters[-2:])} must stand "
        f"{spoken(letters_at(row, column)[::-1])}; misread, or a made-up piece"
    )
    return Reason(rule.id, text, rule.source, rule.confidence, "against", "strong", "letters")


def _twice(letterings: Sequence[str], stamps: Stamps) -> Iterable[Reason]:
    rule = stamps.lettering["adjoining"]
    for each in sorted({each for each in letterings if letterings.count(each) > 1}):
        text = f"{spoken(each)} is named twice: one sheet has it once"
        yield Reason(rule.id, text, rule.source, rule.confidence, "against", "strong", "letters")
