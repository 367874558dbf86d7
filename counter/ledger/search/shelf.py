"""The lines themselves by their place in the rows of bits, with what filters them: price, status."""

from __future__ import annotations

from array import array
from bisect import bisect_left, insort

from counter.ledger.search.bits import at_most
from counter.ledger.search.prepared import Prepared

_PRICE_DIGITS = 31  # pence up to some twenty million pounds


class Shelf:
    """Lines by place ("slot"); a dropped line's slot is used again."""

    def __init__(self) -> None:
        self.numbers: list[str] = []
        self.lines: list[str] = []
        self.tokens: list[bytes] = []
        self.places: list[bytes] = []
        self.slots: dict[str, int] = {}
        self.alive = 0
        self.by_status: dict[str, int] = {}
        self._keys: dict[str, int] = {}
        self._sorted_keys: list[str] = []
        self._keys_sorted = True
        self._free: list[int] = []
        self._priced = 0
        self._price_rows = [bytearray() for _ in range(_PRICE_DIGITS)]
        self._price_digits: list[int] | None = None

    @property
    def size(self) -> int:
        """One above the highest slot ever used."""
        return len(self.numbers)

    def place(self, entry: Prepared, tokens: array[int], *, sort_later: bool = False) -> int:
        """Take a new line in and say its slot; the number must not be on the shelf."""
        slot = self._slot()
        self.numbers[slot], self.lines[slot] = entry.number, entry.line
        self.tokens[slot] = tokens.tobytes()
        self.places[slot] = array("I", entry.places).tobytes()
        self.slots[entry.number] = slot
        self._add_key(entry.key, slot, sort_later)
        bit = 1 << slot
        self.alive |= bit
        self.by_status[entry.status] = self.by_status.get(entry.status, 0) | bit
        if entry.price is not None:
            self._priced |= bit
            self._set_price(slot, entry.price)
        return slot

    def _slot(self) -> int:
        if self._free:
            return self._free.pop()
        for column in (self.numbers, self.lines):
            column.append("")
        for row in (self.tokens, self.places):
            row.append(b"")
        return len(self.numbers) - 1

    def remove(self, number: str, key: str) -> tuple[int, array[int]]:
        """Take a line off; gives its slot and its tokens. Raises KeyError when it is not there."""
        slot = self.slots.pop(number)
        keep = ~(1 << slot)
        self.alive &= keep
        self.by_status = {status: row & keep for status, row in self.by_status.items()}
        self._priced &= keep
        self._unset_price(slot)
        if self._keys.get(key) == slot:
            del self._keys[key]
            self._sort_keys()
            del self._sorted_keys[bisect_left(self._sorted_keys, key)]
        tokens = self.tokens_at(slot)
        self.numbers[slot], self.lines[slot] = "", ""
        self.tokens[slot] = self.places[slot] = b""
        self._free.append(slot)
        return slot, tokens

    def tokens_at(self, slot: int) -> array[int]:
        """The token ids of a line."""
        tokens = array("I")
        tokens.frombytes(self.tokens[slot])
        return tokens

    def places_at(self, slot: int) -> array[int]:
        """From where to where in the line the first tokens stand: two figures a token."""
        places = array("I")
        places.frombytes(self.places[slot])
        return places

    def numbered(self, key: str, begun: bool) -> list[int]:
        """The slots whose stock number is this key, or begins with it; the exact one first."""
        exact = [self._keys[key]] if key in self._keys else []
        if not begun:
            return exact
        self._sort_keys()
        first = bisect_left(self._sorted_keys, key)
        near = self._sorted_keys[first : first + 64]
        return exact + [self._keys[each] for each in near if each.startswith(key) and each != key]

    def priced_between(self, least: int | None, most: int | None) -> int:
        """The lines whose price lies within the bounds; a line without a price lies in none."""
        if least is None and most is None:
            return self.alive
        if self._price_digits is None:
            self._price_digits = [int.from_bytes(row, "little") for row in self._price_rows]
        rows = self._priced if most is None else at_most(self._price_digits, self._priced, most)
        if least is not None:
            rows &= ~at_most(self._price_digits, self._priced, least - 1)
        return rows

    def _add_key(self, key: str, slot: int, sort_later: bool) -> None:
        if key in self._keys:
            return  # two numbers that differ in signs only: the first keeps the key
        self._keys[key] = slot
        if sort_later or not self._keys_sorted:
            self._sorted_keys.append(key)
            self._keys_sorted = False
        else:
            insort(self._sorted_keys, key)

    def _sort_keys(self) -> None:
        if not self._keys_sorted:
            self._sorted_keys.sort()
            self._keys_sorted = True

    def _set_price(self, slot: int, price: int) -> None:
        byte, bit = slot >> 3, 1 << (slot & 7)
        left = min(price, (1 << _PRICE_DIGITS) - 1)
        while left:
            row = self._price_rows[left.bit_length() - 1]
            left ^= 1 << (left.bit_length() - 1)
            if len(row) <= byte:
                row.extend(bytes(byte + 1 - len(row)))
            row[byte] |= bit
        self._price_digits = None

    def _unset_price(self, slot: int) -> None:
        byte, keep = slot >> 3, 255 ^ (1 << (slot & 7))
        for row in self._price_rows:
            if len(row) > byte:
                row[byte] &= keep
        self._price_digits = None
