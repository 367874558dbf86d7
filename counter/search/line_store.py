"""The lines themselves by their place in the rows of bits, with what filters them: price, status."""

from __future__ import annotations

from array import array
from bisect import bisect_left, bisect_right, insort
from collections.abc import Iterator
from typing import Any

from counter.search.bits import at_most
from counter.search.document import StockDocument

_PRICE_DIGITS = 31  # pence up to some twenty million pounds


_A_PART = 2_000  # lines: taken over in some milliseconds


def _packed(places: list[int]) -> bytes:
    """Places as two bytes each; what lies further in a line than that is not emphasised."""
    return array("H", places if not places or max(places) < 65536 else []).tobytes()


class LineStore:
    """Lines by place ("slot"); a dropped line's slot is used again."""

    def __init__(self) -> None:
        self.numbers: list[str] = []
        self.lines: list[str] = []
        self.tokens: list[bytes] = []
        self.places: list[bytes] = []
        self.keys: list[str] = []
        self.slots: dict[str, int] = {}
        self.alive = 0
        self.by_status: dict[str, int] = {}
        self._keys: dict[str, int] = {}
        self._starts: set[str] = set()
        self._sorted_keys: list[str] = []
        self._keys_sorted = True
        self._free: list[int] = []
        self._priced = 0
        self._price_rows = [bytearray() for _ in range(_PRICE_DIGITS)]
        self._price_digits: list[int] | None = None

    def place(self, entry: StockDocument, tokens: array[int], *, sort_later: bool = False) -> int:
        """Take a new line in and say its slot; the number must not be on the shelf."""
        slot = self._slot()
        self.numbers[slot], self.lines[slot] = entry.number, entry.line
        self.keys[slot] = entry.key
        self.tokens[slot] = tokens.tobytes()
        self.places[slot] = _packed(entry.places)
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
        for column in (self.numbers, self.lines, self.keys):
            column.append("")
        for row in (self.tokens, self.places):
            row.append(b"")
        return len(self.numbers) - 1

    def remove(self, number: str) -> tuple[int, array[int]]:
        """Take a line off; gives its slot and its tokens. Raises KeyError when it is not there."""
        slot = self.slots.pop(number)
        key = self.keys[slot]
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
        self.numbers[slot] = self.lines[slot] = self.keys[slot] = ""
        self.tokens[slot] = self.places[slot] = b""
        self._free.append(slot)
        return slot, tokens

    def parts(self) -> Iterator[tuple[str, Any]]:
        """Everything on the shelf as plain values, in parts that are quick to take over."""
        self._sort_keys()
        for at in range(0, len(self.numbers), _A_PART):
            part = slice(at, at + _A_PART)
            columns = (self.numbers, self.lines, self.tokens, self.places, self.keys)
            yield "lines", [column[part] for column in columns]
        for at in range(0, len(self._sorted_keys), 4 * _A_PART):
            yield "keys", self._sorted_keys[at : at + 4 * _A_PART]
        prices = [bytes(row) for row in self._price_rows]
        yield "shelf", (self.by_status, self._free, self._priced, prices)

    def take(self, name: str, part: Any) -> None:
        """Take over a part that `parts` gave; all of them, in order, on an empty shelf."""
        if name == "lines":
            first = len(self.numbers)
            columns: list[list[Any]] = [self.numbers, self.lines, self.keys]
            columns[2:2] = [self.tokens, self.places]
            for column, more in zip(columns, part, strict=True):
                column.extend(more)
            for slot, (number, key) in enumerate(zip(part[0], part[4], strict=True), first):
                if number:
                    self.slots[number] = slot
                    self._keys.setdefault(key, slot)
                    self._starts.add(key.rstrip("0123456789"))
        elif name == "keys":
            self._sorted_keys += part
        else:
            self.by_status, self._free, self._priced, prices = part
            self._price_rows = [bytearray(row) for row in prices]
            for row in self.by_status.values():
                self.alive |= row

    def tokens_at(self, slot: int) -> array[int]:
        """The token ids of a line."""
        tokens = array("I")
        tokens.frombytes(self.tokens[slot])
        return tokens

    def places_at(self, slot: int) -> array[int]:
        """From where to where in the line the first tokens stand: two figures a token."""
        places = array("H")
        places.frombytes(self.places[slot])
        return places

    def numbered(self, key: str) -> list[int]:
        """The slot whose stock number has this key."""
        return [self._keys[key]] if key in self._keys else []

    def numbered_from(self, start: str) -> list[int]:
        """The slots of the first stock numbers that begin with this key and go on."""
        self._sort_keys()
        first = bisect_right(self._sorted_keys, start)
        near = self._sorted_keys[first : first + 64]
        return [self._keys[key] for key in near if key.startswith(start)]

    def numbered_bare(self, figures: str) -> list[int]:
        """The slots whose stock number is these figures after the letters of a laptop."""
        found = (self._keys.get(start + figures) for start in self._starts)
        return [slot for slot in found if slot is not None]

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
        self._starts.add(key.rstrip("0123456789"))
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
