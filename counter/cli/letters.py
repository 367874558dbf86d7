"""`counter letters`: where check letters stand on the sheet, and whether stamps could adjoin."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from dataclasses import asdict
from pathlib import Path
from typing import Any

from counter.cli.call import Call, Reply
from counter.judge.letters import LetterReading, PlateSheet, drawn, judge_letters, sheet_map
from counter.reference.stamps_issue import Issue
from counter.values.errors import InputError
from counter.values.letters import letters_of_number, read_format, read_letters


def arguments(parser: ArgumentParser) -> None:
    """One lettering or several, and the sheet they are from."""
    parser.add_argument(
        "letters", metavar="LETTERS", nargs="*", help="KC, CKKC for four, or a number on the sheet: 123"
    )
    parser.add_argument(
        "--sheet", default="20x12", metavar="ROWSxCOLUMNS", help="20x12 if left out; the ½d is 20x24"
    )
    parser.add_argument("--map", action="store_true", help="draw the sheet")
    parser.add_argument("--plate", metavar="N", default="", help="the sheet of a plate with your stock")
    parser.add_argument(
        "--of", metavar="ISSUE", default="penny_black_1840", help="the issue of it, by id"
    )
    parser.add_argument(
        "--enter", metavar="FILE", help="enter pieces from lines: pl 9: KC 4m red, MF 3m black thin"
    )
    parser.add_argument(
        "--seen", metavar="LINE", help="which plates of the issue remain: KC alphabet II 1864 numeral"
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """JSON: {positions: [{letters, row, column, number}], adjoin, shape, problems}.

    `number` is null for letters the sheet does not have; `adjoin` is null for a single lettering. With
    --plate {issue, plate, rows, columns, held: {letters: [stock number]}, doubled, missing, outside,
    joined: [{numbers, letters, words}]}; with --enter {entered: [stock number]} beside it;
    with --seen {issue, left: [plate], out: [{plate, why, source}], look_next}.
    """
    if chosen.seen is not None:
        return _left(chosen, call)
    if chosen.plate or chosen.enter:
        return _plate(chosen, call)
    sheet = read_format(chosen.sheet)
    letterings = [
        letters_of_number(int(each), sheet) if re.fullmatch("[0-9]{1,9}", each) else read_letters(each)
        for each in " ".join(chosen.letters).replace(",", " ").split() or [""]
    ]
    library = call.library
    read = judge_letters(letterings, sheet, library.stamps, library.vocabulary.lettering_errors)
    data = {
        "positions": [
            {
                "letters": each.letters,
                "row": each.row,
                "column": each.column,
                "number": each.number or None,
            }
            for each in read.positions
        ],
        "adjoin": read.adjoin,
        "shape": read.shape,
        "problems": [each.text for each in read.problems],
    }
    lines = _lines(read)
    if chosen.map:
        lines += ["", *drawn(sheet_map(letterings, sheet))]
    return Reply(data, "\n".join(lines))


def _issue(chosen: Namespace, call: Call) -> Issue:
    issue = call.library.stamps.issues.get(chosen.of)
    if issue is None:
        raise InputError(f"There is no issue {chosen.of!r}; an id looks like penny_black_1840.")
    return issue


def _left(chosen: Namespace, call: Call) -> Reply:
    from counter.judge.cover.plates_left import plates_left
    from counter.judge.reading import read_line

    issue = _issue(chosen, call)
    reading = read_line(chosen.seen, call.library.vocabulary)
    found = plates_left(issue.id, reading, call.library.stamps)
    lines = [f"{issue.name}: {len(found.left)} plates remain: {', '.join(found.left)}"]
    lines += (f"not {each.plate}: {each.why} [{each.source}]" for each in found.out)
    lines.append(f"Look next: {found.look_next}.")
    return Reply({"issue": issue.id, **asdict(found)}, "\n".join(lines))


def _plate(chosen: Namespace, call: Call) -> Reply:
    from counter.desk.stock.plate_entry import enter_pieces, plate_of_stock, read_plate_lines

    issue = _issue(chosen, call)
    data: dict[str, Any] = {}
    lines: list[str] = []
    if chosen.enter:
        items = read_plate_lines(_text_of(chosen.enter), issue, call.library)
        kept = enter_pieces(call.desk, items)
        data["entered"] = [each.number for each in kept]
        lines.append(f"Entered {len(kept)} pieces: {kept[0].number} to {kept[-1].number}.")
        chosen.plate = chosen.plate or kept[0].plate
    found = plate_of_stock(call.desk, issue, chosen.plate)
    data |= {
        "issue": found.issue,
        "plate": found.plate,
        "rows": found.sheet.rows,
        "columns": found.sheet.columns,
        "held": {letters: list(numbers) for letters, numbers in found.held.items()},
        "doubled": list(found.doubled),
        "missing": list(found.missing),
        "outside": list(found.outside),
        "joined": [asdict(each) for each in found.joined],
    }
    return Reply(data, "\n".join([*lines, *_sheet_lines(issue.name, found)]))


def _text_of(file: str) -> str:
    try:
        return Path(file).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as wrong:
        raise InputError(f"{file} cannot be read as text: {wrong}.") from wrong


def _sheet_lines(name: str, found: PlateSheet) -> list[str]:
    lines = [f"{name}, plate {found.plate}", *found.drawn()]
    lines.append(
        f"{len(found.held)} of {found.sheet.stamps} places held, {len(found.doubled)} more than once, "
        f"{len(found.missing)} missing"
    )
    lines += (f"{' and '.join(each.numbers)}: {each.words}" for each in found.joined)
    return lines


def _lines(read: LetterReading) -> list[str]:
    lines = []
    for each in read.positions:
        number = f", number {each.number} of {read.sheet.stamps}" if each.number else ""
        beside = ", ".join(f"{letters} {side}" for side, letters in each.beside.items())
        lines.append(f"{each.letters}: row {each.row}, column {each.column}{number}")
        lines.extend([f"  beside it: {beside}"] if beside else [])
    if read.adjoin is not None:
        lines.append(read.shape)
    lines.extend(each.text for each in (*read.problems, *read.notes))
    return lines
