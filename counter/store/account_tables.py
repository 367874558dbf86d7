"""The tables of the accounts: costs, fairs, and returns as they were filed."""

from __future__ import annotations

from threading import RLock
from typing import ClassVar, NamedTuple

from counter.store.record_tables import RecordTable
from counter.store.records.accounts import Fair, Filed, Outlay
from counter.store.tables import MemoryRows


class CostTable(RecordTable[Outlay]):
    """Costs beside the stock."""

    NAME = "costs"
    kind = Outlay
    what: ClassVar[str] = "cost"

    def between(self, since: str, until: str) -> list[Outlay]:
        """The costs of a period, both days included."""
        return [each for each in self.records() if since <= each.date <= until]


class FairTable(RecordTable[Fair]):
    """Fairs."""

    NAME = "fairs"
    kind = Fair
    what: ClassVar[str] = "fair"


class ReturnTable(RecordTable[Filed]):
    """Returns as they were filed."""

    NAME = "returns"
    kind = Filed
    what: ClassVar[str] = "return"

    def over(self, since: str, until: str) -> list[Filed]:
        """The returns that hold any day of a period, the oldest first."""
        found = [each for each in self.records() if each.since <= until and since <= each.until]
        return sorted(found, key=lambda each: each.since)


class AccountTables(NamedTuple):
    """The tables of the accounts together."""

    costs: CostTable
    fairs: FairTable
    returns: ReturnTable

    @classmethod
    def over(cls, store: MemoryRows, busy: RLock) -> AccountTables:
        """The tables over the rows of a ledger."""
        return cls(CostTable(store, busy), FairTable(store, busy), ReturnTable(store, busy))
