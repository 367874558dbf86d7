"""Plates: one record each, and the numbers that a range such as "R1-R6" stands for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from counter.reference.loader import DataFault, Tables, build

_RANGE = re.compile(r"(R?)(\d+)-\1(\d+)")


@dataclass(frozen=True, slots=True)
class Plate:
    """A printing plate (or a run of plates recorded together, "12-131").

    `series` says which stamp it printed: numbers began again more than once, so a number alone
    is not enough. `status` is "used", "never put to press" and the like; "" where the record is
    of a plate known to have been used. `not_before` is the earliest use that may be believed.
    """

    series: str
    plate: str
    denomination: str
    source: str
    confidence: str
    status: str = ""
    alphabet: str = ""
    alphabet_source: str = ""
    die: str = ""
    white_lines: str = ""
    separation: tuple[str, ...] = ()
    watermark: tuple[str, ...] = ()
    plate_number_on_stamp: bool | None = None
    registered: str = ""
    registered_source: str = ""
    completed: str = ""
    completed_source: str = ""
    repaired: str = ""
    letters_finished: str = ""
    put_to_press: str = ""
    put_to_press_source: str = ""
    taken_off_press: str = ""
    taken_off_press_source: str = ""
    defaced: str = ""
    used_from: str = ""
    first_issued: str = ""
    first_issued_source: str = ""
    perforated_16_from: str = ""
    perforated_14_from: str = ""
    earliest_known_use: str = ""
    earliest_known_use_source: str = ""
    not_before: str = ""
    not_before_source: str = ""
    not_before_basis: str = ""
    approx_first_use: str = ""
    approx_confidence: str = ""
    states: int | None = None
    states_note: str = ""
    re_entries: tuple[str, ...] = ()
    double_letters: tuple[str, ...] = ()
    recut_corner: tuple[str, ...] = ()
    features: tuple[str, ...] = ()
    cross_colour: str = ""
    also_printed_red: bool | None = None
    sheets_printed: int | None = None
    sheets_printed_source: str = ""
    sheets_printed_both_states: int | None = None
    sheets_printed_red: str = ""
    sheets_printed_red_source: str = ""
    sheets_disputed: str = ""
    sheets_disputed_source: str = ""
    sheets_estimated: bool | None = None
    sheets_issued: int | None = None
    sheets_issued_computed: int | None = None
    stamps_issued: int | None = None
    stamps_issued_both_states: int | None = None
    quantity_source: str = ""
    scarcity_rank: int | None = None
    scarcity_note: str = ""
    note: str = ""
    also: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """Series and number, the only name that is never ambiguous."""
        return f"{self.series}, plate {self.plate}"

    @property
    def used(self) -> bool:
        """Whether stamps from it were put on sale."""
        return not self.status or self.status.startswith("used")


@lru_cache(maxsize=1024)
def numbers_of(words: str) -> tuple[str, ...]:
    """The plate numbers of one entry: "78-80" gives 78, 79, 80; "R1-R2" gives R1, R2."""
    found = _RANGE.fullmatch(words)
    if not found:
        return (words,)
    return tuple(f"{found[1]}{number}" for number in range(int(found[2]), int(found[3]) + 1))


def expand(entries: Iterable[str]) -> tuple[str, ...]:
    """Every number of several entries, in their order."""
    return tuple(number for entry in entries for number in numbers_of(entry))


def read_plates(tables: Tables) -> tuple[Plate, ...]:
    """Every `[[plate]]` of every file; a row with `each` stands for one record a number."""
    plates: dict[str, Plate] = {}
    for file, content in tables.items():
        for row in content.get("plate", ()):
            for one in _single(row):
                where = f"{file}.toml [[plate]] {one.get('series')} {one.get('plate')}"
                plate = build(Plate, one, where)
                if plate.id in plates:
                    raise DataFault(f"{where}: the plate appears twice")
                plates[plate.id] = plate
    return tuple(plates.values())


def _single(row: dict[str, Any]) -> Iterator[dict[str, Any]]:
    if "each" not in row:
        yield row
        return
    shared = {key: value for key, value in row.items() if key != "each"}
    for number in expand(row["each"]):
        yield {**shared, "plate": number}
