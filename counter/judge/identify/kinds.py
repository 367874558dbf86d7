"""What is no adhesive postage stamp: named as what it is, and no issue is put forward for it."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.judgement import Reason
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_kinds import OtherKind, Stationery

#: Seen only on an adhesive: beside one of these a word such as "receipt" tells how it was used, or
#: what it lies on.
_ADHESIVE = frozenset({"plate", "letters", "corners", "dots", "alphabet", "lines"})
_PERFORATED = frozenset({"watermark", "separation", "gauge", "tied"})


def other_kinds(reading: Reading, stamps: Stamps) -> tuple[OtherKind | Stationery, ...]:
    """The kinds the line names or shows, the values they have narrowed by the one typed."""
    named = [name for each in reading.all("other_kind") for name in each.value.split("|")]
    found = [stamps.other_kinds.get(name) or stamps.stationery[name] for name in named]
    found += [each for each in _embossed(reading, stamps) if each not in found]
    value = reading.first("denomination")
    fits = [
        each
        for each in found
        if not (isinstance(each, Stationery) and value and each.values and value not in each.values)
    ]
    return tuple(dict.fromkeys(fits or found))


def _embossed(reading: Reading, stamps: Stamps) -> Iterator[Stationery]:
    """An embossed stamp of a value that no adhesive was embossed in is cut from stationery."""
    value = reading.first("denomination")
    if reading.first("process") != "embossed" or not value:
        return
    if any(
        stamp.value == value
        for issue in stamps.issues.values()
        if issue.characters.processes == ("embossed",)
        for stamp in issue.characters.stamps
    ):
        return
    for each in stamps.stationery.values():
        if value in each.values and "emboss" in each.printed:
            yield each


def takes_over(reading: Reading, kinds: tuple[OtherKind | Stationery, ...]) -> bool:
    """Whether the line is of such a kind and of no adhesive postage stamp."""
    seen = {each.kind for each in reading.observations if each.said == "is"}
    for each in kinds:
        if isinstance(each, Stationery):
            if not seen & (_ADHESIVE | _PERFORATED):
                return True
        elif not each.postage and (each.kind == "telegraph" or not seen & _ADHESIVE):
            return True
    return False


def beside_a_stamp(
    kinds: tuple[OtherKind | Stationery, ...], stamps: Stamps
) -> tuple[OtherKind | Stationery, ...]:
    """The kinds as they are meant of an adhesive postage stamp: a duty paid with it, what it lies on."""
    used = stamps.other_kinds["postage_used_as_revenue"]
    meant = (used if isinstance(each, OtherKind) and each.kind == "fiscal" else each for each in kinds)
    return tuple(dict.fromkeys(meant))


def kind_reasons(kinds: tuple[OtherKind | Stationery, ...]) -> Iterator[Reason]:
    """Each kind in plain words: what it is, what tells it, whether it ever paid postage."""
    for each in kinds:
        yield Reason(each.id, kind_words(each), each.source, each.confidence)


def kind_words(each: OtherKind | Stationery) -> str:
    """One kind in a sentence or two."""
    if isinstance(each, Stationery):
        tell = f" Told by: {'; '.join(each.tell)}." if each.tell else ""
        return f"{each.name}: postal stationery, no adhesive stamp; {each.printed}.{tell}"
    told = "; ".join(each.told_by)
    note = f" {each.note[:1].upper()}{each.note[1:]}." if each.note else ""
    what = each.postal_use
    if not each.postage:
        what = f"{_what(each.kind)}, not a postage stamp. Postage: {each.postal_use}"
    return f"{each.name}: {what}. Told by: {told}.{note}"


def _what(kind: str) -> str:
    words = {
        "fiscal": "a revenue stamp (fiscal)",
        "telegraph": "a telegraph stamp",
        "railway": "a railway letter stamp",
        "local": "a local carriage label",
        "training": "a training stamp",
        "charity": "a charity seal",
        "savings": "a savings or licence stamp",
        "private post": "a label of a private post",
    }
    return words.get(kind, f"a {kind}")
