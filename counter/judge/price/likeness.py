"""How like two pieces are, for price, where no wall stands between them.

The shares are the house's own habit ("common practice"): what differs makes a comparable count less.
Issue, denomination, size of multiple, on or off cover, used or unused must agree. Condition is not
likeness: the schedule carries a price from one to the other, or it says nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from counter.judge.cover.finding import WORDS
from counter.judge.price.things import Thing, made_up
from counter.values.item import CoverFacts, Item

_ON_COVER = {"cover", "entire", "front"}


@dataclass(frozen=True, slots=True)
class Likeness:
    """A share from 0 to 1 and, in words, what keeps it from being 1."""

    share: Fraction
    differences: tuple[str, ...] = ()


def state(item: Item) -> str:
    """used, unused, or "" when neither was noted."""
    if item.gum == "used" or (item.cancel and item.cancel != "none"):
        return "used"
    return "unused" if item.gum or item.cancel == "none" else ""


def attachment(item: Item) -> str:
    """loose, piece, front or cover; a stamp of which nothing is noted is taken as loose, and so is
    one on a cover it does not belong to."""
    if made_up(item):
        return "loose"
    if item.attachment in ("cover", "entire"):
        return "cover"
    return item.attachment or "loose"


def same_thing(subject: Item, other: Item) -> bool:
    """Whether one may stand beside the other at all, walls and size of multiple apart."""
    states = {state(subject), state(other)} - {""}
    denominations = {subject.denomination, other.denomination} - {""}
    return (
        bool(subject.issue)
        and subject.issue == other.issue
        and len(denominations) < 2
        and len(states) < 2
        and (attachment(subject) in _ON_COVER) == (attachment(other) in _ON_COVER)
    )


def likeness(subject: Thing, other: Thing) -> Likeness:
    """How much a comparable that is the same thing counts."""
    ours, theirs = subject.item, other.item
    found: list[tuple[str, Fraction]] = [
        *_plate(ours, theirs),
        *_known("cancel", ours.cancel, theirs.cancel, Fraction(7, 10), Fraction(9, 10)),
        *_known("cancel in", ours.cancel_colour, theirs.cancel_colour, Fraction(9, 10), Fraction(1)),
        *_known("colour", ours.colour, theirs.colour, Fraction(3, 4), Fraction(1)),
        *_journey(ours, theirs),
    ]
    if attachment(ours) != attachment(theirs):
        found.append((f"{attachment(theirs)}, not {attachment(ours)}", Fraction(1, 2)))
    if bool(ours.treatments) != bool(theirs.treatments):
        found.append(("treated" if theirs.treatments else "not treated", Fraction(3, 4)))
    odd = [words for words in other.odd if words not in subject.odd]
    if odd:
        found.append((f"“{' '.join(odd)}”", Fraction(3, 4)))
    share = Fraction(1)
    for _, part in found:
        share *= part
    return Likeness(share, tuple(words for words, _ in found))


def plate_share(subject: Item, other: Item) -> Fraction:
    """What another plate, or one not noted, leaves of a comparable."""
    if subject.plate == other.plate:
        return Fraction(1)
    return Fraction(1, 4) if subject.plate and other.plate else Fraction(3, 5)


def _plate(subject: Item, other: Item) -> list[tuple[str, Fraction]]:
    share = plate_share(subject, other)
    return [(f"plate {other.plate or 'not noted'}", share)] if share < 1 else []


def _journey(subject: Item, other: Item) -> list[tuple[str, Fraction]]:
    """On cover the rest of the cover counts: where it was posted, and whether the stamp is tied."""
    ours, theirs = subject.cover or CoverFacts(), other.cover or CoverFacts()
    return [
        *_known("to", ours.to, theirs.to, Fraction(3, 5), Fraction(4, 5)),
        *_known("stamp", ours.tied, theirs.tied, Fraction(7, 10), Fraction(1)),
        *_finding(subject, other),
    ]


def _finding(subject: Item, other: Item) -> list[tuple[str, Fraction]]:
    """What the cover checks found of one and not of the other."""
    if made_up(subject) != made_up(other):
        return [("does not belong to its cover", Fraction(1, 2))] if made_up(other) else []
    doubted = [
        bool(each.cover and each.cover.finding.startswith(WORDS["caution"]))
        for each in (subject, other)
    ]
    if doubted[0] == doubted[1]:
        return []
    return [("its cover doubted" if doubted[1] else "its cover not doubted", Fraction(3, 4))]


def _known(
    what: str, subject: str, other: str, differs: Fraction, unknown: Fraction
) -> list[tuple[str, Fraction]]:
    if subject == other:
        return []
    if subject and other:
        return [(f"{what} {other.replace('_', ' ')}", differs)]
    return [(f"{what} not noted", unknown)] if unknown < 1 else []
