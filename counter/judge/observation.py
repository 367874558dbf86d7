"""What was seen: the observations that the reader makes of typed words and the judges weigh."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

#: What the words say of the thing they name: it is so, it is not so, or it may be.
Said = Literal["is", "is not", "perhaps"]

#: Every kind of observation and how its value is written. Alternatives are joined by "|"
#: ("small_crown|large_crown_1" for a plain "crown"); a measured figure may carry "±".
KINDS: dict[str, str] = {
    # the stamp
    "denomination": "as the reference writes it: ½d 1d 1½d 2½d 1s 2s6d £1; decimal ½p 22p",
    "colour": "a colour of reference/data/vocabulary/colours.toml: red-brown, rose-red, blue",
    "shade": "pale | deep | bright | dull | intense | aniline (of the stamp's colour)",
    "separation": "imperforate | perforated | rouletted",
    "gauge": "14, 15x14, 15½x15; as seen or measured, horizontal first; measured: 14.2±0.3",
    "plate": "6, 148, 1a, R1",
    "letters": "KC (two) or CKKC (four: upper left, upper right, lower left, lower right)",
    "corners": "stars | letters | small_white_letters | large_white_letters | coloured_letters | vr "
    "| none",
    "watermark": "a watermark id of the reference; none seen = no_watermark",
    "watermark_way": "upright | inverted | sideways | reversed",
    "paper": "blued | white | toned | chalky | laid | silk_threads | coloured | thick",
    "paper_colour": "the colour of coloured paper: yellow, blue",
    "lines": "none | present | thin | thick (the 2d's white lines)",
    "hair_lines": "present | none (across the corner squares)",
    "height": "22 | 22.6-23.1 (millimetres of the design of a Seahorse)",
    "background": "lines | crossed (behind the head of a Seahorse)",
    "die": "I | II",
    "alphabet": "I | II | III | IV",
    "reign": "victoria | edward_7 | george_5 | edward_8 | george_6 | elizabeth_2",
    "process": "line_engraved | embossed | surface_printed | recess | photogravure | lithographed",
    "dots": "14 | 16 (corner dots of the 1d lilac)",
    "overprint": "the words overprinted, upper case, no stops: IR OFFICIAL, 3D",
    "phosphor": "bands | two_bands | centre_band | side_band | all_over | graphite | none",
    "nature": "what else than a stamp in ordinary use it is: perfin | reprint | imprimatur | proof...",
    "printer": "De La Rue | Harrison | Somerset House | Waterlow | Bradbury Wilkinson",
    "series": "a series of the reference: machin | wilding | castle | jubilee | official...",
    "subject": "words of a commemorative's subject",
    "tell": "a named tell of an issue or two: an id of the reference's tells: secret_dots, bantam",
    "country": "of a regional stamp: scotland | wales | northern_ireland | guernsey | jersey | "
    "isle_of_man",
    "variety": "an error or variety by its trade name: an id of the reference's varieties",
    "other_kind": "what it is when it is no adhesive postage stamp: an id of the reference's other kinds "
    "or stationery",
    # cancel and cover
    "cancel": "maltese_cross | numeral | cds | duplex | squared_circle | pen | ... (ids of the cancel "
    "vocabulary); uncancelled = none",
    "cancel_colour": "red | black | blue | brown | green | violet | yellow | orange | magenta | ruby",
    "cancel_number": "46",
    "cancel_type": "the closer kind, an id of the postal reference: duplex_spoon, num_scotland_1844",
    "attachment": "cover | front | piece | loose | entire | stationery",
    "tied": "tied | not_tied",
    "town": "the town's name as typed",
    "date": "ISO, whole or part: 1840-05-12, 1840-05, 1841",
    "backstamp": "ISO date, or the words present | none",
    "backstamp_town": "the town of the backstamp",
    "stampless": "yes",
    "weight": "ounces as a decimal: 0.5; or grams: 20g",
    "sheets": "1",
    "miles": "120",
    "charge": "the charge written or struck on it, in words of a denomination: 8d, 1s4d",
    "franking": "the franking in words of a denomination: 2d",
    "mark": "charge mark or handstamp: paid | unpaid_2 | more_to_pay | late_fee | registered | ...",
    "mark_colour": "the colour of a charge mark or backstamp: red | black | blue...",
    "service": "printed | postcard",
    "destination": "the place abroad",
    "to_town": "the town in the kingdom that the letter went to",
    # the piece
    "multiple": "single | pair | strip_3 | block_4 | irregular_5",
    "orientation": "horizontal | vertical (of a pair or strip)",
    "margins": "4 | 3 | 2 | 1 | 0, or a margin term id of the reference",
    "fault": "a fault term id of the reference: thin, tear, crease, pulled_perf...",
    "gum": "unused_og | hinged | no_gum | used | unused",
    "writing": "iron_gall | copying_pencil | pencil | none (on the piece)",
    "repair": "repaired | painted | suspected | none",
    "certificate": "yes | no",
    "condition": "other condition words: fine | spacefiller | sulphided | foxed | toned | tape",
    "quantity": "how many there are of it: 12",
    # the shop
    "price": "pence: a sum beside the stamp's own value",
    "stock_number": "the number as kept, upper case",
    "price_max": "pence",
    "price_min": "pence",
    "status": "in stock | on approval | reserved | sold | returned | withdrawn",
}


@dataclass(frozen=True, slots=True)
class Observation:
    """One thing read from the ask line (or answered on a form).

    `kind` is a key of KINDS, `value` is written as KINDS says, `words` says it plainly for the
    line under the input, `start`/`end` are the character span it was read from (0, 0 if answered
    on a form). `slip` is true when the words had to be corrected to be understood. `said` is whether
    the thing is asserted, denied or doubted; `stamp` the letters of the one stamp of a multiple it
    speaks of ("": of all of them, or not said).
    """

    kind: str
    value: str
    words: str
    start: int = 0
    end: int = 0
    slip: bool = False
    said: Said = "is"
    stamp: str = ""

    @property
    def told(self) -> str:
        """The words with what the line says of them: "not blued paper", "perhaps plate 6"."""
        words = f"{self.stamp}: {self.words}" if self.stamp else self.words
        if self.said == "is not":
            return f"not {words}"
        return f"perhaps {words}" if self.said == "perhaps" else words


@dataclass(frozen=True, slots=True)
class Second:
    """Another reading of some words, nearly as likely: what it would say, and the whole line written so
    that it is read in that way."""

    words: str
    text: str


@dataclass(frozen=True, slots=True)
class Unread:
    """A run of the line that was not understood: shown as such, never dropped."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Reading:
    """The whole line, read: every character belongs to an observation, an unread run, or is a space
    or a filler word (`fillers`: spans of words such as "with", "and").

    `noted` are words understood and not used, such as "docket in brown"; they stand among the fillers.
    `second` is what else some of the words may have meant, the nearest first.
    """

    text: str
    observations: tuple[Observation, ...]
    unread: tuple[Unread, ...] = ()
    fillers: tuple[tuple[int, int], ...] = ()
    noted: tuple[Unread, ...] = ()
    second: tuple[Second, ...] = ()

    def every(self, kind: str) -> tuple[Observation, ...]:
        """Every observation of a kind in the order typed, whether asserted, denied or doubted."""
        return tuple(seen for seen in self.observations if seen.kind == kind)

    def all(self, kind: str) -> tuple[Observation, ...]:
        """Every asserted observation of a kind, in the order typed."""
        return self._said(kind, "is")

    def denied(self, kind: str) -> tuple[str, ...]:
        """The values of a kind that the line says it is not."""
        return tuple(seen.value for seen in self._said(kind, "is not"))

    def doubted(self, kind: str) -> tuple[str, ...]:
        """The values of a kind that the line says it may be."""
        return tuple(seen.value for seen in self._said(kind, "perhaps"))

    def _said(self, kind: str, said: Said) -> tuple[Observation, ...]:
        return tuple(seen for seen in self.observations if seen.kind == kind and seen.said == said)

    def first(self, kind: str) -> str:
        """The value of the first asserted observation of a kind, or "" when there is none."""
        return next((seen.value for seen in self.all(kind)), "")

    def differing(self, kind: str) -> tuple[str, ...]:
        """The values of a kind where the line names more than one, as of two stamps; else ()."""
        named = tuple(dict.fromkeys(seen.value for seen in self.all(kind)))
        return named if len(named) > 1 else ()
