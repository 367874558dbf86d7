"""For each token the lines that have it: a short list while few do, one row of bits when many."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any

from counter.search.bits import bits_of

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
            self._many[token] = bits_of(few)
            del self._few[token]

    def remove(self, token: int, slot: int) -> None:
        """Note that a line has a token no longer."""
        if token in self._many:
            self._many[token] &= ~(1 << slot)
        else:
            self._few[token].remove(slot)

    def add_many(self, slots: dict[int, list[int]]) -> None:
        """Add whole lists at once, as a slice of a first building does."""
        for token, more in slots.items():
            if token in self._many:
                self._many[token] |= bits_of(more)
            elif len(few := self._few[token]) + len(more) > _FEW:
                self._many[token] = bits_of(few + more)
                del self._few[token]
            else:
                few.extend(more)

    def lines(self, tokens: Iterable[int]) -> int:
        """The lines that have any of these tokens."""
        rows = 0
        few: list[int] = []
        for token in tokens:
            if token in self._many:
                rows |= self._many[token]
            else:
                few += self._few[token]
        return rows | bits_of(few)

    def parts(self) -> Iterator[tuple[str, Any]]:
        """Everything noted as plain values, in parts that are quick to take over."""
        yield "names", self.names
        yield "few", self._few
        many = iter(self._many.items())
        while some := dict(islice(many, 64)):
            yield "many", some

    def take(self, name: str, part: Any) -> None:
        """Take over a part that `parts` gave."""
        if name == "names":
            self.names = part
            self.ids = {each: token for token, each in enumerate(part)}
        elif name == "few":
            self._few = part
        else:
            self._many |= part
