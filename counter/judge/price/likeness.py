"""How like two pieces are, for price: the same thing, more or less, or no comparison at all.

The shares are the house's own habit ("common practice"): what differs makes a comparable count less.
Issue, denomination, size of multiple, kind of attachment and used or unused must agree. What
condition does to price is not likeness: the schedule adjusts it, and a large adjustment counts less.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from counter.judge.cover.finding import WORDS
from counter.judge.price.schedule import Condition
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


def made_up(item: Item) -> bool:
    """Whether the cover check, as kept with the piece, speaks against the stamp belonging to it."""
    return bool(item.cover and item.cover.finding.startswith(WORDS["contradicts"]))


def attachment(item: Item) -> str:
    """loose, piece, front or cover; a stamp of which nothing is noted is taken as loose, and so is
    one on a cover it does not belong to."""
    if made_up(item):
        return "loose"
    if item.attachment in ("cover", "entire"):
        return "cover"
    return item.attachment or "loose"


def same_thing(subject: Item, other: Item) -> bool:
    """Whether one may stand beside the other at all, size of multiple apart."""
    states = {state(subject), state(other)} - {""}
    denominations = {subject.denomination, other.denomination} - {""}
    return (
        bool(subject.issue)
        and subject.issue == other.issue
        and len(denominations) < 2
        and len(states) < 2
        and (attachment(subject) in _ON_COVER) == (attachment(other) in _ON_COVER)
    )


def likeness(subject: Item, other: Item, conditions: tuple[Condition, Condition]) -> Likeness:
    """How much a comparable that is the same thing counts."""
    found: list[tuple[str, Fraction]] = [
        *_plate(subject, other),
        *_known("cancel", subject.cancel, other.cancel, Fraction(7, 10), Fraction(9, 10)),
        *_known("colour", subject.colour, other.colour, Fraction(3, 4), Fraction(1)),
        *_journey(subject, other),
    ]
    if attachment(subject) != attachment(other):
        found.append((f"{attachment(other)}, not {attachment(subject)}", Fraction(1, 2)))
    if bool(subject.treatments) != bool(other.treatments):
        found.append(("treated" if other.treatments else "not treated", Fraction(3, 4)))
    if bool(subject.certificate) != bool(other.certificate):
        found.append(("certificate" if other.certificate else "no certificate", Fraction(3, 4)))
    found += _adjustment(conditions)
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
    """On cover the rest of the cover counts: where it went, and whether the stamp is tied."""
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


def _adjustment(conditions: tuple[Condition, Condition]) -> list[tuple[str, Fraction]]:
    """The further the condition had to be adjusted, the less a price says."""
    ours, theirs = (condition.factor for condition in conditions)
    if ours == theirs:
        return []
    near = min(ours, theirs) / max(ours, theirs) if max(ours, theirs) else Fraction(0)
    share = max((1 + near) / 2, Fraction(1, 2))
    return [("better condition" if theirs > ours else "worse condition", share)]
