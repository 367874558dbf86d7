"""Two stamps side by side: what parts them, how to see it, and the shortest proof of each against the other."""

from __future__ import annotations

from dataclasses import dataclass

from counter.judge.identify.case import case_of
from counter.judge.identify.likelihood import STATES, states
from counter.judge.identify.model import Model
from counter.judge.identify.reasons import given_words, standing_of
from counter.judge.identify.shares import weigh
from counter.judge.identify.variants import Variant
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps

#: What is compared, as a record of a stamp is read.
_KINDS = (
    *("denomination", "colour", "process", "separation", "gauge", "watermark", "watermark_way"),
    *("corners", "letters", "lines", "hair_lines", "paper", "die", "alphabet", "dots", "plate"),
    *("height", "background", "overprint", "phosphor", "printer", "country", "reign", "series", "date"),
)
#: What the eye sees at once needs no look of its own.
_AT_SIGHT = 2.0


@dataclass(frozen=True, slots=True)
class Compared:
    """One character of both stamps: `left` and `right` in words ("" where not established). `parts` is
    true when no stamp of the one shows what the other does; `seconds` is how long it takes to see, and
    `how` says how (0 and "" where nothing is to be looked at)."""

    kind: str
    label: str
    left: str
    right: str
    parts: bool
    seconds: float
    how: str
    sources: tuple[str, str]


@dataclass(frozen=True, slots=True)
class SideBySide:
    """Two candidates by id and name, their rows, the row that parts them first (None: nothing on the
    stamp does), and the shortest proof that it is the one and not the other, in a sentence each."""

    left: str
    right: str
    names: tuple[str, str]
    rows: tuple[Compared, ...]
    first: Compared | None
    proof_of_left: str
    proof_of_right: str
    told: tuple[str, ...]


def side_by_side(left: str, right: str, reading: Reading, stamps: Stamps) -> SideBySide:
    """Compare two issues (or what passes for one), as the likeliest stamp of each for what was seen.

    Raises KeyError for an unknown id.
    """
    model, seen = case_of(reading, stamps)
    shares = weigh(seen, model).variants
    ours, theirs = (_likeliest(name, shares, model) for name in (left, right))
    every = (_compared(kind, ours, theirs, model) for kind in _KINDS)
    rows = tuple(row for row in every if row.left or row.right)
    parting = sorted((row for row in rows if row.parts), key=lambda row: row.seconds)
    first = parting[0] if parting else None
    return SideBySide(
        left,
        right,
        (ours.issue.name, theirs.issue.name),
        rows,
        first,
        _proof(left, first.left if first else "", first, stamps),
        _proof(right, first.right if first else "", first, stamps),
        tuple(_told(ours, theirs) or _told(theirs, ours)),
    )


def _likeliest(name: str, shares: tuple[float, ...], model: Model) -> Variant:
    start, end = model.spans[name]
    return model.variants[max(range(start, end), key=lambda place: shares[place])]


def _compared(kind: str, ours: Variant, theirs: Variant, model: Model) -> Compared:
    words = (given_words(kind, ours, model), given_words(kind, theirs, model))
    parts = _parts(kind, ours, theirs, model)
    looks = [look for look in model.stamps.errors.looks if look.kind == kind and not look.wets]
    seconds = min((look.seconds for look in looks), default=_AT_SIGHT)
    character = model.stamps.errors.characters[kind]
    return Compared(
        kind,
        character.words,
        *words,
        parts,
        seconds,
        looks[0].ask if looks else character.recheck,
        (standing_of(ours.issue, kind)[0], standing_of(theirs.issue, kind)[0]),
    )


def _parts(kind: str, ours: Variant, theirs: Variant, model: Model) -> bool:
    """Whether what one shows is never seen on the other; a date of use and plates not printed part none."""
    if kind == "colour":
        return _colours_part(ours, theirs, model)
    if kind == "plate":
        if not (ours.characters.number_on_stamp and theirs.characters.number_on_stamp):
            return False
        numbers = model.stamps.plate_numbers
        mine, other = numbers[ours.issue.id], numbers[theirs.issue.id]
        return bool(mine and other) and not mine & other
    if kind == "gauge":
        mine, other = frozenset(ours.characters.gauges), frozenset(theirs.characters.gauges)
        return bool(mine and other) and not mine & other
    if kind not in STATES:
        return False
    mine, other = frozenset(states(kind, ours)), frozenset(states(kind, theirs))
    return bool(mine and other) and not mine & other


def _colours_part(ours: Variant, theirs: Variant, model: Model) -> bool:
    """Whether their colours are of other families: shades of one family part no two stamps."""
    mine, other = (
        {family for each in one.stamp.colours for family in model.palette.families(each)}
        for one in (ours, theirs)
    )
    return bool(mine and other) and not mine & other


def _proof(name: str, shows: str, first: Compared | None, stamps: Stamps) -> str:
    known = stamps.errors.how_many.get(name)
    if known and known.proof:
        return known.proof
    if first is None:
        return "nothing on the stamp alone proves it; a dated use or its plating may"
    return f"{first.label}: {shows}"


def _told(ours: Variant, theirs: Variant) -> list[str]:
    """What the trade says of telling the one from the other."""
    return [each.tell for each in ours.issue.confused_with if each.issue == theirs.issue.id]
