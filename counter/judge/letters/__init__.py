"""Check letters judged: where they stand, whether they can be, what adjoins, which plates exist."""

from counter.judge.letters.adjoining import adjoins, shape_of
from counter.judge.letters.plate_sheet import OnceJoined, PlateSheet, plate_sheet
from counter.judge.letters.plates import plate_judgement
from counter.judge.letters.positions import LetterReading, Position, judge_letters
from counter.judge.letters.sheet_map import Cell, drawn, sheet_map

__all__ = [
    "Cell",
    "LetterReading",
    "OnceJoined",
    "PlateSheet",
    "Position",
    "adjoins",
    "drawn",
    "judge_letters",
    "plate_judgement",
    "plate_sheet",
    "shape_of",
    "sheet_map",
]
