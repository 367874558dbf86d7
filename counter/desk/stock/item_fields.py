"""The fields of a piece that a person may mend: their words, how each is read and shown."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from msgspec.structs import replace

from counter.desk.stock import item_field_parsers as read
from counter.reference.library import Library
from counter.values.errors import InputError
from counter.values.item import CoverFacts, Item

Choices = tuple[tuple[str, str], ...]
Read = Callable[[str, Library, Item], read.Values]

#: What a person may set by hand; the other states follow a sale.
_BY_HAND: Choices = (("in stock", "in stock"), ("reserved", "reserved"), ("withdrawn", "withdrawn"))
_GUM: Choices = (
    ("used", "used"),
    ("unused_og", "unused, original gum"),
    ("hinged", "mounted, original gum"),
    ("no_gum", "unused without gum"),
    ("unused", "unused, gum not looked at"),
)
_ON: Choices = (
    ("loose", "loose"),
    ("piece", "on piece"),
    ("front", "on front"),
    ("cover", "on cover"),
    ("entire", "on entire"),
)
_TIED: Choices = (("tied", "tied"), ("not_tied", "not tied"))
_ON_PAPER = ("piece", "front", "cover", "entire")


@dataclass(frozen=True, slots=True)
class EditableField:
    """A field that may be mended: its words, how it is read and shown, and what it fills.

    `names` are the item's fields it fills (they are emptied together); `adds` when + before the
    words adds to what is there; with `choices` only their values answer.
    """

    key: str
    label: str
    hint: str
    names: tuple[str, ...]
    read: Read
    show: Callable[[Item], str]
    choices: Choices = ()
    adds: bool = False

    def said(self, item: Item) -> str:
        """What the piece has in it, in words; "" when nothing is noted."""
        return dict(self.choices).get(self.show(item), self.show(item))


def _text(name: str, label: str, hint: str) -> EditableField:
    def taken(text: str, library: Library, item: Item) -> read.Values:
        return {name: text.strip()}

    return EditableField(name, label, hint, (name,), taken, lambda item: str(getattr(item, name)))


def _chosen(name: str, label: str, hint: str, choices: Choices) -> EditableField:
    def taken(text: str, library: Library, item: Item) -> read.Values:
        return {name: _choice(text, label, choices)}

    return EditableField(
        name, label, hint, (name,), taken, lambda item: str(getattr(item, name)), choices
    )


def _of_cover(name: str, label: str, hint: str, choices: Choices = ()) -> EditableField:
    """A field of the cover the piece is on."""

    def taken(text: str, library: Library, item: Item) -> read.Values:
        value = text.strip()
        if choices:
            value = _choice(text, label, choices)
        elif name == "date":
            value = read.read_posted(text, library, item)
        given: dict[str, Any] = {name: value}
        return {"cover": replace(item.cover or CoverFacts(), **given)}

    def shown(item: Item) -> str:
        return str(getattr(item.cover, name)) if item.cover else ""

    return EditableField(f"cover.{name}", label, hint, (), taken, shown, choices)


def _choice(text: str, label: str, choices: Choices) -> str:
    wanted = text.strip().lower()
    for value, said in choices:
        if wanted in (value, said):
            return value
    offered = ", ".join(said for _, said in choices)
    raise InputError(f"{text} is not an answer to {label}: choose {offered}.")


def _plate(text: str, library: Library, item: Item) -> read.Values:
    words = text.strip().removeprefix("plate ").removeprefix("pl ").strip()
    if len(words) > 12 or " " in words:
        raise InputError(f"{text} is not a plate: write its number, as 6, 1a or R1.")
    return {"plate": words}


_SEMICOLONS = "Between semicolons; + before the words adds to what is there."
# fmt: off
EDITABLE: tuple[EditableField, ...] = (
    EditableField("asking", "asking price", "In pounds: 45 or 1,250.50.", ("asking",),
             read.read_asking, read.show_asking),
    _text("kept", "kept", "Where it is: red album p. 4."),
    _chosen("status", "status", "Sold and on approval follow the sale.", _BY_HAND),
    EditableField("faults", "faults", f"Terms with where: thin at top; crease lower right. {_SEMICOLONS}",
             ("faults",), read.read_faults, read.show_faults, adds=True),
    EditableField("margins", "margins", "4, 3, close, touched, cut into; each stamp's between strokes.",
             ("margins",), read.read_margins, read.show_margins),
    EditableField("letters", "check letters", "KC; CKKC for four letters; KC KD or KC-KF for a strip.",
             ("letters",), read.read_letterings, read.show_letterings),
    EditableField("plate", "plate", "Its number: 6, 1a, R1.", ("plate",), _plate, lambda item: item.plate),
    EditableField("watermark", "watermark seen", "As seen: small crown; small crown inverted.",
             ("watermark",), read.read_watermark, read.show_watermark),
    EditableField("multiple", "multiple", "single, pair, strip of 3, block of 4, irregular block of 5.",
             ("multiple",), read.read_multiple, read.show_multiple),
    EditableField("cancel", "cancel", "red MX; black numeral 46; cds; pen; uncancelled.",
             ("cancel", "cancel_colour", "cancel_number"), read.read_cancel, read.show_cancel),
    _chosen("gum", "gum", "", _GUM),
    EditableField("certificate", "certificate", "Whose; date; number; what it says.", ("certificate",),
             read.read_certificate, read.show_certificate),
    _text("colour", "colour", "As seen, where the issue does not say it: lake-red."),
    _text("words", "words", "What no other field says."),
    _text("reference", "reference", "Your own."),
    EditableField("photographs", "photographs", f"Paths of the files. {_SEMICOLONS}", ("photographs",),
             read.read_photographs, read.show_photographs, adds=True),
    _text("remarks", "remarks", "For yourself: no customer's line shows them."),
    _chosen("attachment", "on", "Loose, or what it is on.", _ON),
    _of_cover("date", "posted", "1840-05-12, 12 May 1840, 1840-05 or 1840."),
    _of_cover("town", "from", "Where it was posted."),
    _of_cover("to", "to", "Where it went."),
    _of_cover("tied", "stamp", "Whether the cancel runs on to the cover.", _TIED),
    _of_cover("marks", "marks", "What else is struck or written on it."),
)
# fmt: on
FIELD = {each.key: each for each in EDITABLE}


def editable_fields(item: Item) -> tuple[EditableField, ...]:
    """The fields worth asking for: those of a cover only where there is one."""
    on_paper = item.cover is not None or item.attachment in _ON_PAPER
    return tuple(each for each in EDITABLE if on_paper or not each.key.startswith("cover."))
