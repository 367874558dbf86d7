"""For each token the lines that have it: a short list while few do, one row of bits when many."""

from __future__ import annotations

from collections.abc import Iterable

from counter.ledger.search.bits import bits_of

_FEW = 96


class Postings:
    """Token to lines. `ids` gives a token's id, `names` the token of an id; ids are never reused."""

    def __init__(self) -> None:
        self.names: list[str] = []
        self.ids: dict[str, int] = {}
        self._few: dict[int, list[int]] = {}
        self._many: dict[int, int] = {}

    def id_of(self, token: str) -> int:
        """The id of a token, a new one if it was never met."""
        found = self.ids.get(token)
        if found is None:
            found = self.ids[token] = len(self.names)
            self.names.append(token)
            self._few[found] = []
        return found

    def known(self, token: str) -> int | None:
        """The id of a token that some line has, or None."""
        found = self.ids.get(token)
        return found if found is not None and self.used(found) else None

    def used(self, token: int) -> bool:
        """Whether some line has this token."""
        return token in self._many or bool(self._few.get(token))

    def add(self, token: int, slot: int) -> None:
        """Note that a line has a token it did not have before."""
        if token in self._many:
            self._many[token] |= 1 << slot
            return
        few = self._few[token]
        few.append(slot)
        if len(few) > _FEW:
            self._many[token] = bits_of(few, max(few) + 1)
            del self._few[token]

    def remove(self, token: int, slot: int) -> None:
        """Note that a line has a token no longer."""
        if token in self._many:
            self._many[token] &= ~(1 << slot)
        else:
            self._few[token].remove(slot)

    def add_many(self, slots: dict[int, list[int]], size: int) -> None:
        """Add whole lists at once, as a slice of a first building does."""
        for token, more in slots.items():
            if token in self._many:
                self._many[token] |= bits_of(more, size)
            elif len(few := self._few[token]) + len(more) > _FEW:
                self._many[token] = bits_of(few + more, size)
                del self._few[token]
            else:
                few.extend(more)

    def lines(self, tokens: Iterable[int], size: int) -> int:
        """The lines that have any of these tokens."""
        rows, few = 0, []
        for token in tokens:
            if token in self._many:
                rows |= self._many[token]
            else:
                few += self._few[token]
        return rows | bits_of(few, size) if few else rows
