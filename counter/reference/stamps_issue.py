"""An issue: what was printed, when, how, and the characters it can be told by."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

#: Written where an overprinted or perfinned stamp is, in that respect, whatever it was put on.
AS_BASIC = "as the basic stamp"

#: "imitation" is no issued stamp at all: a reprint or a forgery that passes for one.
Standing = Literal["issued", "scarce", "trial", "rarity", "not_issued", "certificate", "imitation"]


@dataclass(frozen=True, slots=True)
class Dated:
    """A date as bounds, whole ISO days; `memory` when it rests on recollection. "" is open."""

    earliest: str = ""
    latest: str = ""
    memory: bool = False


@dataclass(frozen=True, slots=True)
class OtherDate:
    """A different date given by another source."""

    date: str
    source: str


@dataclass(frozen=True, slots=True)
class Confusion:
    """What an issue is taken for (an issue, a lookalike, or plain words) and how it is told."""

    tell: str
    issue: str = ""
    lookalike: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class Emblem:
    """What a country's regional stamps show beside the head."""

    country: str
    words: str
    source: str
    confidence: str


@dataclass(frozen=True, slots=True)
class Abnormal:
    """A plate known only from registration sheets, or never put to press, and why."""

    plate: str
    why: str


@dataclass(frozen=True, slots=True)
class ValueRow:
    """One line of an issue of several values; `d` old pence, `p` new pence."""

    value: str
    colours: tuple[str, ...]
    issued: str
    d: Decimal | None = None
    p: Decimal | None = None
    chalky: str = ""
    dies: str = ""
    types: str = ""
    paper: str = ""
    watermark: str = ""
    watermarks: str = ""
    issued_other: str = ""


@dataclass(frozen=True, slots=True)
class Stamp:
    """One denomination in one colour. Empty colours: not given. `watermarks` and `issued` only
    where they differ from the issue's own; `recalled` when no source was read for that day.
    `countries` are those of a regional stamp."""

    value: str
    colours: tuple[str, ...] = ()
    issued: str = ""
    watermarks: tuple[str, ...] = ()
    recalled: bool = False
    countries: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Characters:
    """What an issue may show, in the words of an observation. An empty tuple: not established.

    `gauges` are written horizontal x vertical ("15½x15"); `plates` and `plates_unused` are
    ranges ("78-125", "R1-R6"); `letters` is how many corner letters a stamp carries;
    `rows` and `columns` are the sheet that the letters count.
    """

    stamps: tuple[Stamp, ...]
    standing: Standing
    reigns: tuple[str, ...]
    processes: tuple[str, ...]
    series: tuple[str, ...]
    separations: tuple[str, ...]
    gauges: tuple[str, ...]
    watermarks: tuple[str, ...]
    corners: tuple[str, ...]
    letters: int
    issued: Dated
    superseded: Dated
    rows: int = 0
    columns: int = 0
    watermark_ways: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    dies: tuple[str, ...] = ()
    alphabets: tuple[str, ...] = ()
    plates: tuple[str, ...] = ()
    plates_unused: tuple[str, ...] = ()
    number_on_stamp: bool = False
    dots: tuple[str, ...] = ()
    overprints: tuple[str, ...] = ()
    phosphor: tuple[str, ...] = ()
    printers: tuple[str, ...] = ()
    hair_lines: tuple[str, ...] = ()
    heights: tuple[str, ...] = ()
    backgrounds: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Issue:
    """An issue as its sources give it. Dates are the sources' own words, ISO first.

    `gauge_h` is along top and bottom, `gauge_v` along the sides, written as text ("15½"; "" is
    imperforate or not given). `fields_from_memory` names fields that no source was read for.
    `name` is the short name shown in lists. `ink` is an ink id or AS_BASIC.
    """

    id: str
    name: str
    reign: str
    series: str
    denomination: str
    date_first_issued: str
    print_process: str
    separation: str
    watermark: str
    check_letters: str
    ink: str
    source: str
    confidence: str
    characters: Characters
    date_superseded: str = ""
    date_valid_from: str = ""
    date_first_issued_other: tuple[OtherDate, ...] = ()
    date_superseded_other: tuple[OtherDate, ...] = ()
    portrait: str = ""
    inscription: str = ""
    colours: tuple[str, ...] = ()
    values: tuple[ValueRow, ...] = ()
    printer: str = ""
    separation_note: str = ""
    perf_gauge: str = ""
    gauge_h: str = ""
    gauge_v: str = ""
    gauge_note: str = ""
    watermark_note: str = ""
    watermark_orientation: str = ""
    paper: str = ""
    gum: str = ""
    blued_paper: bool | None = None
    letter_grid: str = ""
    upper_corners: str = ""
    white_lines: str = ""
    alphabets: tuple[str, ...] = ()
    dies: tuple[str, ...] = ()
    plates: tuple[str, ...] = ()
    plates_not_regular: tuple[Abnormal, ...] = ()
    plates_never_put_to_press: tuple[str, ...] = ()
    plates_never_used: tuple[str, ...] = ()
    plates_never_completed: tuple[str, ...] = ()
    plates_made_but_unused: tuple[str, ...] = ()
    plates_made_but_unused_at_end: tuple[str, ...] = ()
    plate_number_on_stamp: bool | None = None
    plate_number_where: str = ""
    hair_lines: str = ""
    corner_dots: int | None = None
    silk_threads: int | None = None
    sheet_rows: int | None = None
    sheet_columns: int | None = None
    format: str = ""
    design_height_mm: str = ""
    head_background: str = ""
    back_marks: str = ""
    phosphor: str = ""
    overprint: str = ""
    ink_notes: str = ""
    confused_with: tuple[Confusion, ...] = ()
    emblems: tuple[Emblem, ...] = ()
    notes: str = ""
    also: tuple[str, ...] = ()
    fields_from_memory: tuple[str, ...] = ()

    @property
    def trade_standing(self) -> tuple[str, str]:
        """Source and confidence of its confusions and notes: read for the line-engraved stamps,
        trade knowledge for all others."""
        if self.characters.processes == ("line_engraved",):
            return self.source, self.confidence
        return "common practice", "common practice"
