"""The index over the stock: put, drop, find. Searched at every key, changed at every note."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator
from itertools import chain, islice
from threading import RLock

from counter.ledger.names import Names
from counter.ledger.search.bits import best, bits_of, plus, slots_of
from counter.ledger.search.hit import Hit
from counter.ledger.search.meaning import Meaning, Meanings
from counter.ledger.search.postings import Postings
from counter.ledger.search.prepared import Prepared, prepare
from counter.ledger.search.question import Asked, Question, number_key, read_question
from counter.ledger.search.rank import ranked
from counter.ledger.search.shelf import Shelf
from counter.ledger.search.vocabulary import Vocabulary
from counter.values.item import Item

_POOL = 64  # so many of the best are looked at one by one


class StockIndex:
    """Every line of stock, ready to be searched. Safe to fill in one thread and ask in another."""

    def __init__(self, names: Names) -> None:
        self._names = names
        self._shelf = Shelf()
        self._postings = Postings()
        self._vocabulary = Vocabulary()
        self._meanings = Meanings(self._postings, self._vocabulary, names)
        self._known_meanings: dict[Asked, list[Meaning]] = {}
        self._sums: list[tuple[Meaning, list[int]]] = []
        self._lock = RLock()

    def __len__(self) -> int:
        return len(self._shelf.slots)

    def __contains__(self, number: str) -> bool:
        return number in self._shelf.slots

    def line(self, number: str) -> str:
        """The short line of a stock number; raises KeyError when it is not kept."""
        return self._shelf.lines[self._shelf.slots[number]]

    def put(self, item: Item) -> None:
        """Take an item in, or in place of what its number had before."""
        entry = prepare(item, self._names)
        with self._lock:
            self.drop(item.number)
            ids = array("I", map(self._token, entry.tokens))
            slot = self._shelf.place(entry, ids)
            for token in set(ids):
                self._postings.add(token, slot)
            self._forget()

    def drop(self, number: str) -> None:
        """Take a number out; a number that is not there is no trouble."""
        with self._lock:
            if number not in self._shelf.slots:
                return
            slot, tokens = self._shelf.remove(number, number_key(number))
            for token in set(tokens):
                self._postings.remove(token, slot)
            self._forget()

    def put_many(self, items: Iterable[Item], chunk: int = 400) -> Iterator[int]:
        """Take many in, a slice at a time: gives the count so far after each slice.

        Nothing happens until it is iterated, so that a worker can build in slices and stop.
        """
        rest, done = iter(items), 0
        while part := list(islice(rest, chunk)):
            entries = [prepare(item, self._names) for item in part]
            with self._lock:
                self._place_many(entries)
            done += len(part)
            yield done

    def _place_many(self, entries: list[Prepared]) -> None:
        slots: dict[int, list[int]] = {}
        for entry in entries:
            self.drop(entry.number)
            ids = array("I", map(self._later, entry.tokens))
            slot = self._shelf.place(entry, ids, sort_later=True)
            for token in set(ids):
                slots.setdefault(token, []).append(slot)
        self._postings.add_many(slots, self._shelf.size)
        self._forget()

    def _token(self, token: str) -> int:
        self._vocabulary.add(token)
        return self._postings.id_of(token)

    def _later(self, token: str) -> int:
        """As `_token`, but the vocabulary is put in order when it is next asked."""
        known = self._postings.ids.get(token)
        if known is not None:
            return known
        self._vocabulary.add(token, sort_later=True)
        return self._postings.id_of(token)

    def _forget(self) -> None:
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
            return ranked(self._shelf, meanings, pool, limit)

    def _is_number(self, key: str, begun: bool) -> bool:
        return bool(self._shelf.numbered(key, begun))

    def _within(self, question: Question) -> int:
        among = self._shelf.priced_between(question.price_min, question.price_max)
        if question.statuses:
            rows = (self._shelf.by_status.get(each, 0) for each in question.statuses)
            wanted = 0
            for row in rows:
                wanted |= row
            among &= wanted
        return among

    def _mean(self, asked: Asked) -> list[Meaning]:
        found = self._known_meanings.get(asked)
        if found is None:
            found = self._known_meanings[asked] = self._weighed(asked)
        return found

    def _weighed(self, asked: Asked) -> list[Meaning]:
        size, word = self._shelf.size, asked.tokens[0]
        if word.startswith("#"):
            slots = self._shelf.numbered(word[1:], asked.open)
            return [self._meanings.weigh(asked.text, {}, size, bits_of(slots, size))]
        numbered = 0
        if word.isdecimal():
            numbered = bits_of(self._shelf.numbered(number_key(word), False), size)
        weighed = [
            self._meanings.weigh(text, tokens, size, numbered)
            for text, tokens in self._meanings.graded(asked)
            if tokens or numbered
        ]
        return weighed

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
        first = self._shelf.by_status.get("in stock", 0)
        sure, ties = best([first, *sums], among & some, wanted)
        return list(islice(chain(slots_of(sure), slots_of(ties)), wanted))

    def _first(self, among: int, limit: int) -> list[Hit]:
        """Lines asked for by bounds alone: in stock first, the latest first."""
        stocked = among & self._shelf.by_status.get("in stock", 0)
        slots = islice(chain(slots_of(stocked), slots_of(among ^ stocked)), limit)
        shelf = self._shelf
        return [Hit(shelf.numbers[slot], shelf.lines[slot], 1.0) for slot in slots]
