"""Which of the comparables decide: the same plate first, and groups that sold otherwise parted.

Three of the same plate decide alone. Where they are fewer, other plates (and other cancels, colours,
treatments) speak with less weight, until own sales show that they are another market: then they are
parted by Student's t ("noise"), and shown as other things.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal

from counter.judge.price.comparables import Comparable, Sorted
from counter.judge.price.noise import differ, logarithms
from counter.judge.price.things import Thing
from counter.values.item import Item

#: So many of the same decide (method "report-rule").
FEWEST = 3
_GROUPS: tuple[tuple[str, Callable[[Item], str]], ...] = (
    ("plate", lambda item: item.plate),
    ("cancel in", lambda item: item.cancel_colour),
    ("cancel", lambda item: item.cancel),
    ("colour", lambda item: item.colour),
    ("posted at", lambda item: item.cover.town if item.cover else ""),
    ("treated", lambda item: "treated" if item.treatments else ""),
)


def deciding(subject: Thing, found: Sorted) -> Sorted:
    """The same comparables with those that do not decide silenced and put with the others."""
    same, others = list(found.same), list(found.others)
    plate = subject.item.plate
    own = [each for each in same if each.evidence.item.plate == plate]
    if plate and len(_sold(own)) >= FEWEST:
        left = [each for each in same if each not in own]
        return _parted(own, others, left, f"plate {plate} has enough of its own", subject)
    for name, of in _GROUPS:
        same, left = _by_own_sales(subject, same, of)
        others += [each.silenced(_why(name, of(each.evidence.item))) for each in left]
    return Sorted(tuple(same), tuple(others))


def _why(name: str, value: str) -> str:
    return f"{name} {value.replace('_', ' ') or 'not noted'}: own sales show another market"


def _parted(
    own: list[Comparable], others: list[Comparable], left: list[Comparable], why: str, subject: Thing
) -> Sorted:
    others += [each.silenced(why) for each in left]
    same = own
    for name, of in _GROUPS[1:]:
        same, apart = _by_own_sales(subject, same, of)
        others += [each.silenced(_why(name, of(each.evidence.item))) for each in apart]
    return Sorted(tuple(same), tuple(others))


def _sold(found: Sequence[Comparable]) -> list[Comparable]:
    return [each for each in found if each.evidence.kind == "sold"]


def _by_own_sales(
    subject: Thing, same: list[Comparable], of: Callable[[Item], str]
) -> tuple[list[Comparable], list[Comparable]]:
    """(what stays, what is parted): groups of two sales or more that differ from the subject's own, or
    where it has none from all the rest, the farthest first."""
    left: list[Comparable] = []
    ours = of(subject.item)
    while True:
        groups: dict[str, list[Comparable]] = {}
        for each in same:
            groups.setdefault(of(each.evidence.item), []).append(each)
        own = _sold(groups.get(ours, ()))
        far: list[tuple[Decimal, str]] = []
        for value, group in groups.items():
            rest = own or [each for each in _sold(same) if of(each.evidence.item) != value]
            if value != ours and len(_sold(group)) >= 2:
                far.append((differ(_logs(_sold(group)), _logs(rest)), value))
        most, which = max(far, default=(Decimal(0), ""))
        if most <= 1:
            return same, left
        left += groups[which]
        same = [each for each in same if each not in groups[which]]


def _logs(found: Sequence[Comparable]) -> list[Decimal]:
    return logarithms([each.adjusted for each in found])
