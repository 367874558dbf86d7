"""What surrounds an issue: watermarks, alphabets, lettering, sheets, lookalikes, separations."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Watermark:
    """A watermark as one file of the facts describes it.

    `stands_for` lists the ids meant when the name is looser than the reference (a "large crown"
    may be either type). `taken_for` are ids of watermarks it is misread as.
    """

    id: str
    name: str
    description: str
    source: str
    confidence: str
    years: str = ""
    used_from: str = ""
    used_to: str = ""
    on: tuple[str, ...] = ()
    used_on: str = ""
    from_the_back: str = ""
    how_to_see: str = ""
    dimensions: str = ""
    paper: str = ""
    inverted: str = ""
    caution: str = ""
    often_misread_as: tuple[str, ...] = ()
    stands_for: tuple[str, ...] = ()
    note: str = ""
    also: tuple[str, ...] = ()
    fields_from_memory: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Alphabet:
    """A set of letter punches of the line-engraved plates."""

    id: str
    when: str
    size: str
    plates: tuple[str, ...]
    tell: str
    poor_test_letters: tuple[str, ...]
    method: str
    source: str
    confidence: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LetteringExample:
    """A worked lettering from a published source; only the fields it speaks of are filled."""

    letters: str = ""
    row: int = 0
    column: int = 0
    number: int = 0
    lower: str = ""
    upper: str = ""
    verdict: str = ""


@dataclass(frozen=True, slots=True)
class LetteringRule:
    """How check letters run on a sheet, what they prove, and the known errors."""

    id: str
    kind: str
    formats: tuple[str, ...]
    source: str
    confidence: str
    rule: str = ""
    rows: int = 0
    columns: int = 0
    stamps: int = 0
    row_letters: str = ""
    column_letters: str = ""
    first: str = ""
    last: str = ""
    lower_left: str = ""
    lower_right: str = ""
    running_number: str = ""
    skipped_letters: str = ""
    examples: tuple[LetteringExample, ...] = ()
    examples_source: str = ""
    test: str = ""
    shapes: str = ""
    proof: str = ""
    position: str = ""
    caution: str = ""
    survival: str = ""
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet format, or the definition of the gauge it was perforated to."""

    id: str
    denomination: str
    source: str
    confidence: str
    rows: int = 0
    columns: int = 0
    stamps: int = 0
    value: str = ""
    row_value: str = ""
    stamp_width_mm: Decimal | None = None
    stamp_height_mm: Decimal | None = None
    stamp_size_note: str = ""
    size_source: str = ""
    margin_inscription_subject: str = ""
    plate_number: str = ""
    gutters: str = ""
    perforation: str = ""
    definition: str = ""
    gauges: tuple[str, ...] = ()
    experimental: tuple[str, ...] = ()
    first_official_date: str = ""
    first_delivery: str = ""
    earliest_dated_copy_recorded_1911: str = ""
    change_16_to_14: str = ""
    last_16: str = ""
    why_changed: str = ""
    done_by: str = ""
    machines: str = ""
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Lookalike:
    """A reprint, forgery, changeling or made-up piece and the tests that show it. `plate` is the number
    an altered figure pretends to, `made_from` the numbers it is made of."""

    id: str
    name: str
    looks_like: tuple[str, ...]
    what: str
    tell: tuple[str, ...]
    source: str
    confidence: str
    date: str = ""
    plate: str = ""
    made_from: tuple[str, ...] = ()
    note: str = ""
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Separation:
    """A separation in use, or a definition, tolerance or warning about measuring one."""

    id: str
    state: str
    source: str
    confidence: str
    text: str = ""
    gauge_h: str = ""
    gauge_v: str = ""
    years: str = ""
    used_on: str = ""
    note: str = ""
    fields_from_memory: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Denomination:
    """A money system or one way of writing a value."""

    id: str
    name: str
    source: str
    confidence: str
    from_date: str = ""
    to_date: str = ""
    pence_per_shilling: int = 0
    shillings_per_pound: int = 0
    pence_per_pound: int = 0
    old_pence_per_new_penny: Decimal | None = None
    symbol: str = ""
    value_d: Decimal | None = None
    value_p: Decimal | None = None
    note: str = ""
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CrossCheck:
    """A rule that two characters of a stamp must keep together."""

    id: str
    rule: str
    source: str
    confidence: str
    note: str = ""
    fields_from_memory: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Commemorative:
    """One commemorative set: its day, subject and values ("4dx6": six designs of the 4d).

    `colours` and `later`, a first day after the set's own, go by value.
    """

    id: str
    date: str
    year: int
    subject: str
    values: tuple[str, ...]
    source: str
    confidence: str
    process: str = ""
    colours: dict[str, str] = field(default_factory=dict)
    later: dict[str, str] = field(default_factory=dict)
    also: tuple[str, ...] = ()
    note: str = ""
    fields_from_memory: tuple[str, ...] = ()

    def speaks_of(self, subject: str) -> bool:
        """Whether its subject holds every word given (case ignored), or the word is its id; words
        after a "|" are the year it must be of."""
        named, _, year = subject.partition("|")
        if year and year != str(self.year):
            return False
        words = self.subject.casefold()
        return named == self.id or all(word in words for word in named.casefold().split())

    @property
    def denominations(self) -> tuple[str, ...]:
        """Each denomination once, however many designs it has."""
        return tuple(dict.fromkeys(value.partition("x")[0] for value in self.values))


@dataclass(frozen=True, slots=True)
class FollowUp:
    """A work not read that would settle what here is uncertain."""

    title: str
    publisher: str
    year: int
    would_settle: str
    author: str = ""
