"""Invented prices: the kind's own price, brought to a piece's condition by the house schedule."""

from __future__ import annotations

from decimal import Decimal
from random import Random

from counter.judge.price.schedule import Schedule
from counter.judge.price.things import wear_of
from counter.values.item import Item

#: The invented dealer marks torn stamps his own way.
TEARS = {
    "fault-tear": Decimal("0.55"),
    "fault-closed-tear": Decimal("0.55"),
    "fault-tear-and-crease": Decimal("0.5"),
}
_ATTACHED = {"cover": 3, "entire": 3, "front": 2, "piece": 1}


def asking(rng: Random, item: Item, pounds: int, schedule: Schedule) -> int:
    """What the dealer asks, in pence, rounded as a dealer marks a piece."""
    step = schedule.step("multiple", item.multiple)
    exact = 100 * pounds * schedule.condition(wear_of(item)).factor
    exact *= step.factor if step else 1
    exact *= _ATTACHED.get(item.attachment, 1)
    if item.gum in ("unused_og", "hinged"):
        exact *= 3
    return marked(int(exact * rng.randint(85, 115) / 100))


def marked(pence: int) -> int:
    """A round price: to 50p under £10, to £1 under £50, to £5 under £300, to £10 above."""
    for limit, unit in ((100, 25), (1000, 50), (5000, 100), (30000, 500)):
        if pence < limit:
            return max(unit, (pence + unit // 2) // unit * unit)
    return (pence + 500) // 1000 * 1000
