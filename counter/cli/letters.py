"""`counter letters`: where check letters stand on the sheet, and whether stamps could adjoin."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.judge.letters import LetterReading, drawn, judge_letters, sheet_map
from counter.values.letters import letters_of_number, read_format, read_letters


def arguments(parser: ArgumentParser) -> None:
    """One lettering or several, and the sheet they are from."""
    parser.add_argument(
        "letters", metavar="LETTERS", nargs="+", help="KC, CKKC for four, or a number on the sheet: 123"
    )
    parser.add_argument(
        "--sheet", default="20x12", metavar="ROWSxCOLUMNS", help="20x12 if left out; the ½d is 20x24"
    )
    parser.add_argument("--map", action="store_true", help="draw the sheet")


def run(chosen: Namespace, call: Call) -> Reply:
    """JSON: {positions: [{letters, row, column, number}], adjoin, shape, problems}.

    `number` is null for letters the sheet does not have; `adjoin` is null for a single lettering.
    """
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
