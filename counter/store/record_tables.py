"""TinyDB tables that give records: each row a record of its kind, with indexes for the hot questions.

Records and indexes are made at the first question that needs them. A row is replaced and never changed,
so a record made of it holds as long as the row stands; an index is told of every row replaced.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from threading import RLock
from typing import Any, ClassVar, Generic, TypeVar

from tinydb.queries import QueryLike

from counter.store.entry import Row
from counter.store.tables import MemoryRows, NotedTable
from counter.values.errors import UserError
from counter.values.record import Record, read_record

R = TypeVar("R", bound=Record)
_NONE: dict[str, None] = {}


#: A period of more months than this is looked for in all the records.
_MONTHS = 36


class Index:
    """The keys of a table's rows by what `asked` gives of a row; made when first asked for."""

    def __init__(self, asked: Callable[[Row], Iterable[str]]) -> None:
        self._asked = asked
        self._keys: dict[str, dict[str, None]] | None = None

    def of(self, value: str, rows: dict[str, Row]) -> list[str]:
        """The keys of the rows with that value, in the order they came to have it."""
        return list(self._made(rows).get(value, _NONE))

    def values(self, rows: dict[str, Row]) -> list[str]:
        """Every value that a row has."""
        return list(self._made(rows))

    def _made(self, rows: dict[str, Row]) -> dict[str, dict[str, None]]:
        if self._keys is None:
            keys: dict[str, dict[str, None]] = {}
            for key, row in rows.items():
                for value in self._asked(row):
                    keys.setdefault(value, {})[key] = None
            self._keys = keys
        return self._keys

    def follow(self, key: str, before: Row | None, after: Row | None) -> None:
        """A row was replaced."""
        if self._keys is None:
            return
        was = list(self._asked(before)) if before else []
        now = list(self._asked(after)) if after else []
        for value in was:
            if value not in now and (keys := self._keys.get(value)):
                keys.pop(key, None)
                if not keys:
                    del self._keys[value]
        for value in now:
            self._keys.setdefault(value, {})[key] = None

    def forget(self) -> None:
        """The table is another one now."""
        self._keys = None


class RecordTable(NotedTable, Generic[R]):
    """A TinyDB table for questions, whose documents are records. What is noted goes through the ledger.

    `kind` and `what` are the record and its name in a sentence; `keeps` whether records once made stay
    (not those of the stock: 100,000 of them are made quickly and would fill the memory twice).
    """

    NAME: ClassVar[str]
    kind: type[R]
    what: ClassVar[str]
    keeps: ClassVar[bool] = True

    def __init__(self, storage: MemoryRows, busy: RLock) -> None:
        super().__init__(storage, self.NAME)
        self._store = storage
        self._busy = busy
        self._kept: dict[str, tuple[Row, R]] = {}
        self._indexes: list[Index] = []

    def document_class(self, row: Row, key: str) -> R:  # type: ignore[override]  # a class, to TinyDB
        """The record of a row."""
        if not self.keeps:
            return read_record(self.kind, row)
        kept = self._kept.get(key)
        if kept is None or kept[0] is not row:
            kept = self._kept[key] = (row, read_record(self.kind, row))
        return kept[1]

    @property
    def live(self) -> dict[str, Row]:
        """The rows as they stand: for indexes, and where a record would be made for one field."""
        return self._store.rows.get(self.NAME, {})

    def find(self, key: str) -> R | None:
        """The record of a key; None when there is none."""
        plain: Any = self  # TinyDB allows keys that are text, its types do not
        found: R | None = plain.get(doc_id=key)
        return found

    def of(self, key: str) -> R:
        """The record of a key. Raises UserError when there is none."""
        found = self.find(key)
        if found is None:
            raise UserError(f"There is no {self.what} {key}.")
        return found

    def each(self) -> Iterator[R]:
        """Every record, in the order they first came; notes taken meanwhile are no trouble."""
        return (self.document_class(row, key) for key, row in list(self.live.items()))

    def records(self) -> list[R]:
        """All of them at once."""
        with self._busy:
            return self.all()  # type: ignore[return-value]

    def search(self, cond: QueryLike) -> list[R]:  # type: ignore[override]  # documents are records
        """The records of the rows that a TinyDB query holds true of."""
        with self._busy:
            return super().search(cond)  # type: ignore[return-value]

    def holds(self, key: str) -> bool:
        """Whether there is such a key."""
        return self.find(key) is not None

    def index(self, asked: Callable[[Row], Iterable[str]]) -> Index:
        """An index of this table from now on."""
        self._indexes.append(Index(asked))
        return self._indexes[-1]

    def having(self, index: Index, value: str) -> list[R]:
        """The records that an index gives for a value."""
        with self._busy:
            return [self.of(key) for key in index.of(value, self.live)]

    def in_months(self, by_month: Index, since: str, until: str) -> Iterator[R]:
        """The records of the months of a period, by an index of months; of a long one, all there are."""
        year, month = int(since[:4]), int(since[5:7])
        months = (int(until[:4]) - year) * 12 + int(until[5:7]) - month + 1
        if months > _MONTHS:
            return iter(self.records())
        names = (divmod(year * 12 + month - 1 + place, 12) for place in range(months))
        return (each for y, m in names for each in self.having(by_month, f"{y:04d}-{m + 1:02d}"))

    def follow(self, table: str, key: str, before: Row | None, after: Row | None) -> None:
        """A row of some table was replaced."""
        if table == self.NAME:
            for index in self._indexes:
                index.follow(key, before, after)
            if after is None:
                self._kept.pop(key, None)

    def forget(self) -> None:
        """The rows are others now: the journal was added up anew."""
        self._kept.clear()
        for index in self._indexes:
            index.forget()


def field_of(name: str) -> Callable[[Row], Iterable[str]]:
    """What an index asks for that goes by one field; a row without it is left out."""

    def asked(row: Row) -> Iterable[str]:
        value = row.get(name)
        return (value,) if value else ()

    return asked
