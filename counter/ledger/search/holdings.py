"""The three things an index is made of, and how they are taken apart for keeping in a file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from counter.ledger.search.postings import Postings
from counter.ledger.search.shelf import Shelf
from counter.ledger.search.vocabulary import Vocabulary


@dataclass
class Holdings:
    """The lines, the lines of each token, and the distinct words."""

    shelf: Shelf = field(default_factory=Shelf)
    postings: Postings = field(default_factory=Postings)
    vocabulary: Vocabulary = field(default_factory=Vocabulary)

    def parts(self) -> Iterator[tuple[str, str, Any]]:
        """Everything as plain values: whose, what, the values. Each part is taken over quickly."""
        for whose, each in self._each().items():
            for name, part in each.parts():
                yield whose, name, part

    def take(self, whose: str, name: str, part: Any) -> None:
        """Take over a part that `parts` gave; all of them, in order, into new holdings."""
        self._each()[whose].take(name, part)

    def _each(self) -> dict[str, Shelf | Postings | Vocabulary]:
        return {"shelf": self.shelf, "postings": self.postings, "vocabulary": self.vocabulary}
