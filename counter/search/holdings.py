"""The three things an index is made of, and how they are taken apart for keeping in a file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from counter.search.line_store import LineStore
from counter.search.postings import Postings
from counter.search.vocabulary import Vocabulary


@dataclass
class IndexData:
    """The lines, the lines of each token, and the distinct words."""

    shelf: LineStore = field(default_factory=LineStore)
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

    def _each(self) -> dict[str, LineStore | Postings | Vocabulary]:
        return {"shelf": self.shelf, "postings": self.postings, "vocabulary": self.vocabulary}
