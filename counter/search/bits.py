"""Sets of lines as bits of one whole number, and sums over them held a binary digit at a time.

Line 5 belongs to a set when bit 5 is 1, so that "and" and "or" of two sets of 100,000 lines are
one operation each. A score for every line at once is a list of such sets: the first holds each
score's lowest binary digit, the next the second, and so on (a bit-sliced index; the choice of the
best k follows O'Neil and Quass, "Improved query performance with variant indexes", 1997).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

_SET_BYTE = re.compile(rb"[^\0]", re.DOTALL)
_BITS = [tuple(bit for bit in range(7, -1, -1) if byte >> bit & 1) for byte in range(256)]


def bits_of(slots: Sequence[int]) -> int:
    """The set of these line places."""
    if not slots:
        return 0
    first = min(slots) >> 3
    row = bytearray((max(slots) >> 3) - first + 1)
    for slot in slots:
        row[(slot >> 3) - first] |= 1 << (slot & 7)
    return int.from_bytes(row, "little") << (first << 3)


def slots_of(bits: int) -> Iterator[int]:
    """The line places of a set, latest first."""
    row = bits.to_bytes((bits.bit_length() + 7) >> 3, "big")
    last = len(row) - 1
    for found in _SET_BYTE.finditer(row):
        at = found.start()
        base = (last - at) << 3
        for bit in _BITS[row[at]]:
            yield base + bit


def plus(sums: Sequence[int], worth: Sequence[int]) -> list[int]:
    """Add to every line's sum its worth, both bit-sliced."""
    result, carry = [], 0
    for place in range(max(len(sums), len(worth))):
        a = sums[place] if place < len(sums) else 0
        b = worth[place] if place < len(worth) else 0
        half = a ^ b
        result.append(half ^ carry if carry else half)
        carry = (a & b) | (half & carry) if carry else a & b
    if carry:
        result.append(carry)
    return result


def best(sums: Sequence[int], among: int, wanted: int) -> tuple[int, int]:
    """The lines with the highest sums: (surely among the best, ties for the places left)."""
    sure, ties = 0, among
    for digit in reversed(sums):
        upper = ties & digit
        count = (sure | upper).bit_count()
        if count > wanted:
            ties = upper
        elif count < wanted:
            sure |= upper
            ties ^= upper
        else:
            return sure | upper, 0
    return sure, ties


def at_most(digits: Sequence[int], among: int, bound: int) -> int:
    """The lines whose bit-sliced figure is at most the bound."""
    if bound < 0:
        return 0
    if bound >> len(digits):
        return among
    below, level = 0, among
    for place in range(len(digits) - 1, -1, -1):
        high = level & digits[place]
        if bound >> place & 1:
            below |= level ^ high
            level = high
        else:
            level ^= high
    return below | level
