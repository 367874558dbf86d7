"""The numbering of entries: each laptop's run 1, 2, 3... must be whole, and each id must come once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from counter.store.entry import Entry
from counter.store.erase import Erasures


class Sequences:
    """Takes the entries in the order of the journal, then says what is odd about their numbering."""

    def __init__(self) -> None:
        self.count = 0
        self.erased = Erasures()
        self._ids: set[str] = set()
        self._twice: list[str] = []
        self._reverses: list[tuple[str, str]] = []
        self._numbers: dict[str, set[int]] = defaultdict(set)
        self._doubled: dict[str, int] = defaultdict(int)
        self._last_at: dict[str, str] = {}
        self._back = 0

    def take(self, entry: Entry) -> None:
        """The next entry."""
        self.count += 1
        self.erased.take(entry)
        if entry.id in self._ids:
            self._twice.append(entry.id)
        elif entry.seq in self._numbers[entry.laptop]:
            self._doubled[entry.laptop] += 1
        self._ids.add(entry.id)
        self._numbers[entry.laptop].add(entry.seq)
        if entry.reverses is not None:
            self._reverses.append((entry.id, entry.reverses))
        self._back += entry.at < self._last_at.get(entry.laptop, "")
        self._last_at[entry.laptop] = entry.at

    def faults(self) -> Iterator[str]:
        """Entries that are missing or come twice."""
        for name in self._twice:
            yield f"The entry {name} is in the journal twice."
        for name, reversed_ in self._reverses:
            if reversed_ not in self._ids:
                yield f"{name} takes back {reversed_}, which is not in the journal."
        for laptop, numbers in self._numbers.items():
            missing = max(numbers) - len(numbers)
            if missing:
                some = "One entry is" if missing == 1 else f"{missing} entries are"
                yield f"{some} missing before the last of laptop {laptop}."

    def remarks(self) -> Iterator[str]:
        """What is odd but harmless."""
        for laptop, count in self._doubled.items():
            yield f"Laptop {laptop} used {count} sequence numbers twice: a copied folder was merged."
        if self._back:
            yield f"The clock went back {self._back} times; the order of entries is not touched by it."
