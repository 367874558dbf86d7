"""The shop's own small records: cash in and out of the box, days closed."""

from __future__ import annotations

from dataclasses import dataclass

from counter.store.records import rules
from counter.store.records.shape import Shape, ruled

CASH_KINDS = ("float", "expense", "banked", "drawn", "put in", "difference", "day closed")


@dataclass(frozen=True, slots=True)
class Cash:
    """Cash in the box that is neither purchase nor sale; out of it is negative.

    A closed day is kept here too: `pence` is then what was counted, `expected_pence` what should be.
    """

    id: str = ruled(rules.name)
    date: str = ruled(rules.day)
    kind: str = ruled(rules.one_of(*CASH_KINDS))
    pence: int = ruled(rules.signed_pence)
    expected_pence: int | None = ruled(rules.or_none(rules.signed_pence), None)
    words: str = ruled(rules.words, "")


CASH: Shape[Cash] = Shape(Cash, "cash line")
