"""The index over the stock: put, drop, find. Searched at every key, changed at every note."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator
from itertools import chain, islice
from threading import RLock
from typing import Any

from counter.describe.names import Names
from counter.search.bits import best, bits_of, plus, slots_of
from counter.search.document import StockDocument, prepare
from counter.search.hit import Hit
from counter.search.holdings import IndexData
from counter.search.query import Query, Term, number_key, read_question
from counter.search.rank import ranked
from counter.search.term_match import Meaning, Meanings
from counter.values.item import Item

_POOL = 32  # so many of the best are looked at one by one


class StockIndex:
    """Every line of stock, ready to be searched. Safe to fill in one thread and ask in another."""

    def __init__(self, names: Names) -> None:
        self.names = names
        self._held = IndexData()
        self._meanings = Meanings(self._held.postings, self._held.vocabulary, names)
        self._known_meanings: dict[Term, list[Meaning]] = {}
        self._sums: list[tuple[Meaning, list[int]]] = []
        self._dropped: set[str] = set()
        self.changes = 0  # since it was built or restored
        self.whole = False  # once all the stock is in
        self._lock = RLock()

    def __len__(self) -> int:
        return len(self._held.shelf.slots)

    def __contains__(self, number: str) -> bool:
        return number in self._held.shelf.slots

    def line(self, number: str) -> str:
        """The short line of a stock number; raises KeyError when it is not kept."""
        return self._held.shelf.lines[self._held.shelf.slots[number]]

    def put(self, item: Item) -> None:
        """Take an item in, or in place of what its number had before."""
        entry = prepare(item, self.names)
        with self._lock:
            self.drop(item.number)
            self._dropped.discard(item.number)
            ids = array("I", map(self._token, entry.tokens))
            slot = self._held.shelf.place(entry, ids)
            for token in set(ids):
                self._held.postings.add(token, slot)
            self._forget()

    def drop(self, number: str) -> None:
        """Take a number out; a number that is not there is no trouble."""
        with self._lock:
            self._dropped.add(number)
            if number not in self._held.shelf.slots:
                return
            slot, tokens = self._held.shelf.remove(number)
            for token in set(tokens):
                self._held.postings.remove(token, slot)
            self._forget()

    def follow(self, number: str, item: Item | None) -> None:
        """Take in a change of the stock: what a number is now, or None when it is taken out."""
        if item is None:
            self.drop(number)
        else:
            self.put(item)

    def put_many(self, items: Iterable[Item], chunk: int = 400) -> Iterator[int]:
        """Take many in, a slice at a time: gives the count so far after each slice.

        Nothing happens until it is iterated, so that a worker can build in slices and stop. A number
        that was put or dropped one by one stays as it is: that was noted later than this list.
        """
        rest, done = iter(items), 0
        while part := list(islice(rest, chunk)):
            entries = [prepare(item, self.names) for item in part]
            with self._lock:
                self._place_many(entries)
            done += len(part)
            yield done

    def _place_many(self, entries: list[StockDocument]) -> None:
        slots: dict[int, list[int]] = {}
        for entry in entries:
            if entry.number in self._held.shelf.slots or entry.number in self._dropped:
                continue
            ids = array("I", map(self._later, entry.tokens))
            slot = self._held.shelf.place(entry, ids, sort_later=True)
            for token in set(ids):
                slots.setdefault(token, []).append(slot)
        self._held.postings.add_many(slots)
        self._forget()

    def parts(self) -> list[tuple[str, str, Any]]:
        """Everything in the index as plain values, for keeping in a file."""
        with self._lock:
            return list(self._held.parts())

    def restore(self, parts: Iterable[tuple[str, str, Any]]) -> Iterator[int]:
        """Take over what `parts` gave, in place of what is here once all is in; lines so far."""
        fresh = IndexData()
        for part in parts:
            fresh.take(*part)
            yield len(fresh.shelf.slots)
        with self._lock:
            self._held = fresh
            self._meanings = Meanings(fresh.postings, fresh.vocabulary, self.names)
            self._forget()

    def _token(self, token: str) -> int:
        self._held.vocabulary.add(token)
        return self._held.postings.id_of(token)

    def _later(self, token: str) -> int:
        """As `_token`, but the vocabulary is put in order when it is next asked."""
        known = self._held.postings.ids.get(token)
        if known is not None:
            return known
        self._held.vocabulary.add(token, sort_later=True)
        return self._held.postings.id_of(token)

    def _forget(self) -> None:
        self.changes += 1
        self._known_meanings.clear()
        self._sums.clear()

    def find(self, text: str, limit: int = 20) -> list[Hit]:
        """The lines that fit what was typed, best first. Never raises, whatever was typed.

        Words that no line has are passed over; bounds ("under 100", "reserved") are kept strictly.
        """
        with self._lock:
            question = read_question(text, self._is_number)
            among = self._within(question)
            meanings = [each for asked in question.asked for each in self._mean(asked)]
            if not meanings:
                bounded = question.price_min, question.price_max, *question.statuses
                return self._first(among, limit) if any(each is not None for each in bounded) else []
            pool = self._pool(meanings, among, max(_POOL, limit))
            return ranked(self._held.shelf, meanings, pool, limit)

    def _is_number(self, key: str, begun: bool) -> bool:
        shelf = self._held.shelf
        return bool(shelf.numbered(key) or (begun and shelf.numbered_from(key)))

    def _within(self, question: Query) -> int:
        among = self._held.shelf.priced_between(question.price_min, question.price_max)
        if question.statuses:
            rows = (self._held.shelf.by_status.get(each, 0) for each in question.statuses)
            wanted = 0
            for row in rows:
                wanted |= row
            among &= wanted
        return among

    def _mean(self, asked: Term) -> list[Meaning]:
        found = self._known_meanings.get(asked)
        if found is None:
            found = self._known_meanings[asked] = self._weighed(asked)
        return found

    def _weighed(self, asked: Term) -> list[Meaning]:
        shelf, word = self._held.shelf, asked.tokens[0]
        exact, near, size = 0, 0, len(shelf.slots)
        if word.startswith("#"):
            exact = bits_of(shelf.numbered(word[1:]))
            near = bits_of(shelf.numbered_from(word[1:])) if asked.open else 0
            return [self._meanings.weigh(asked.text, {}, size, exact, near)]
        if word.isdecimal():
            exact = bits_of(shelf.numbered(number_key(word)))
            near = bits_of(shelf.numbered_bare(number_key(word)))
        return [
            self._meanings.weigh(text, tokens, size, exact, near)
            for text, tokens in self._meanings.graded(asked)
            if tokens or exact or near
        ]

    def _pool(self, meanings: list[Meaning], among: int, wanted: int) -> list[int]:
        """The slots of the best lines by weight; lines in stock before others of the same weight."""
        sums: list[int] = []
        for place, meaning in enumerate(meanings):
            if place < len(self._sums) and self._sums[place][0] is meaning:
                sums = self._sums[place][1]
                continue
            sums = plus(sums, meaning.worth)
            del self._sums[place:]
            self._sums.append((meaning, sums))
        some = 0
        for digit in sums:
            some |= digit
        first = self._held.shelf.by_status.get("in stock", 0)
        sure, ties = best([first, *sums], among & some, wanted)
        return list(islice(chain(slots_of(sure), slots_of(ties)), wanted))

    def _first(self, among: int, limit: int) -> list[Hit]:
        """Lines asked for by bounds alone: in stock first, the latest first."""
        stocked = among & self._held.shelf.by_status.get("in stock", 0)
        slots = islice(chain(slots_of(stocked), slots_of(among ^ stocked)), limit)
        shelf = self._held.shelf
        return [Hit(shelf.numbers[slot], shelf.lines[slot], 1.0) for slot in slots]
