"""The tables of the books, and the one definition of each question that is asked of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from threading import RLock
from typing import ClassVar

from tinydb import where

from counter.store.entry import Row
from counter.store.record_tables import RecordTable, field_of
from counter.store.records.bath import Bath
from counter.store.records.conflict import HeldRow
from counter.store.records.person import Person
from counter.store.records.purchase import Purchase
from counter.store.records.sale import ENDED, Quote, Sale, SaleLine
from counter.store.records.shop import Cash
from counter.store.tables import MemoryRows
from counter.values.item import Item


class ItemTable(RecordTable[Item]):
    """The stock. Its records are made for each question anew."""

    NAME = "items"
    kind = Item
    what: ClassVar[str] = "stock number"
    keeps: ClassVar[bool] = False

    def __init__(self, storage: MemoryRows, busy: RLock) -> None:
        super().__init__(storage, busy)
        self._by_purchase = self.index(field_of("purchase"))
        self._bare = self.index(lambda row: () if row.get("purchase") else ("bare",))

    def typed(self, number: str) -> Item | None:
        """The piece of a number as it may be typed: case and hyphens do not matter; None for none."""
        exact = self.find(number)
        if exact is not None:
            return exact
        wanted = _bare(number)
        key = next((each for each in list(self.live) if _bare(each) == wanted), None)
        return None if key is None else self.find(key)

    def of_issue(self, issue: str) -> list[Item]:
        """The pieces identified as an issue, sold ones too."""
        return self.search(where("issue") == issue)

    def of_plate(self, plate: str) -> list[Item]:
        """The lettered pieces of a plate number, of whatever issue."""
        lettered = where("letters").test(bool)
        return self.search((where("plate") == plate) & lettered)

    def without_purchase(self, since: str, until: str) -> list[Item]:
        """The pieces noted between two days that came in by no purchase of these books."""
        return [each for each in self.having(self._bare, "bare") if since <= each.noted <= until]

    def of_purchase(self, number: str) -> set[str]:
        """The stock numbers that came in by a purchase, one broken up since included."""
        return set(self._by_purchase.of(number, self.live))

    def latest(self) -> Iterator[str]:
        """The stock numbers, the last noted first."""
        return iter(list(reversed(self.live)))

    def scheme(self, number: str) -> str:
        """How VAT is accounted for on a piece, without making the whole piece; "" for none."""
        return str(self.live.get(number, {}).get("scheme", ""))

    def cost(self, number: str) -> int | None:
        """What a piece cost, in pence, without making the whole piece; None where it is not known."""
        cost = self.live.get(number, {}).get("cost")
        return cost if isinstance(cost, int) else None


def _bare(number: str) -> str:
    return "".join(letter for letter in number.casefold() if letter.isalnum())


class PeopleTable(RecordTable[Person]):
    """Sellers and buyers."""

    NAME = "people"
    kind = Person
    what: ClassVar[str] = "person"

    def named(self, name: str) -> list[Person]:
        """Everybody of that name, in whatever case; nameless since an erasure, nobody finds them."""
        wanted = " ".join(name.split()).casefold()
        return [each for each in self.records() if each.name.casefold() == wanted]


class SaleTable(RecordTable[Sale]):
    """SaleTable, deposits, approvals, other disposals, and refunds as rows of their own."""

    NAME = "sales"
    kind = Sale
    what: ClassVar[str] = "sale"

    def __init__(self, storage: MemoryRows, busy: RLock) -> None:
        super().__init__(storage, busy)
        self._by_piece = self.index(_pieces)
        self._refunds = self.index(field_of("refund_of"))
        self._by_buyer = self.index(field_of("buyer"))
        self._by_month = self.index(_month)
        self._taxed = self.index(
            lambda row: ("taxed",) if row.get("taxed") or row.get("forfeit") else ()
        )

    def taxed(self) -> list[Sale]:
        """The deposits that bore VAT before the sale, or of which some was kept."""
        return self.having(self._taxed, "taxed")

    def with_piece(self, piece: str) -> list[Sale]:
        """Every sale and refund that names a piece, ended ones too."""
        return self.having(self._by_piece, piece)

    def refunded(self, number: str) -> set[str]:
        """The pieces of a sale that came back; one kept for an allowance did not."""
        back = (each for each in self.refunds(number) if not each.allowance)
        return {piece for refund in back for piece in refund.pieces}

    def refunds(self, number: str) -> list[Sale]:
        """The refunds and allowances of a sale."""
        return self.having(self._refunds, number)

    def holding(self, piece: str) -> list[Sale]:
        """The sales, neither ended nor taken back, that a piece is in: one at most, but for a merge."""
        return [
            sale
            for sale in self.with_piece(piece)
            if not sale.refund_of and sale.status not in ENDED and piece not in self.refunded(sale.id)
        ]

    def standing(self) -> Iterator[tuple[Sale, SaleLine]]:
        """Each piece sold for money and not brought back, with its sale."""
        for sale in self.records():
            if sale.refund_of or sale.status != "complete" or not sale.went:
                continue
            back = self.refunded(sale.id)
            yield from ((sale, line) for line in sale.lines if line.item not in back)

    def complete(self, since: str, until: str) -> Iterator[Sale]:
        """The complete sales, other disposals and refunds of a period, both days included."""
        for sale in self.in_months(self._by_month, since, until):
            if since <= sale.date <= until and sale.status == "complete":
                yield sale

    def to(self, person: str) -> list[Sale]:
        """What a person bought, refunds too."""
        return self.having(self._by_buyer, person)


def _month(row: Row) -> Iterable[str]:
    return (row["date"][:7],)


def _pieces(row: Row) -> Iterable[str]:
    return (line["item"] for line in row.get("lines", ()))


class PurchaseTable(RecordTable[Purchase]):
    """PurchaseTable, and which of them the book still wants something of."""

    NAME = "purchases"
    kind = Purchase
    what: ClassVar[str] = "purchase"

    def __init__(self, storage: MemoryRows, busy: RLock, people: PeopleTable, items: ItemTable) -> None:
        super().__init__(storage, busy)
        self._people = people
        self._items = items
        self._by_seller = self.index(field_of("seller"))
        self._by_month = self.index(_month)
        self._returned = self.index(lambda row: ("back",) if row.get("returned") else ())
        self._owed: dict[str, tuple[str, ...]] | None = None
        self._stale: set[str] = set()

    def standing(self, since: str, until: str) -> Iterator[Purchase]:
        """The purchases of a period that did not fall through, both days included."""
        for purchase in self.in_months(self._by_month, since, until):
            if since <= purchase.date <= until and not purchase.cancelled:
                yield purchase

    def with_money_back(self) -> list[Purchase]:
        """The purchases of which a piece went back for money."""
        return self.having(self._returned, "back")

    def from_(self, person: str) -> list[Purchase]:
        """What was bought from a person."""
        return self.having(self._by_seller, person)

    def wanting(self, purchase: Purchase) -> tuple[str, ...]:
        """What the stock book and the purchase invoice still want to know of a purchase, in words."""
        if purchase.cancelled:
            return ()
        seller = self._people.find(purchase.seller)
        kind = purchase.seller_kind or (seller.kind if seller else "")
        wanted = {
            "seller's name": bool(seller and (seller.name or seller.erased)),
            "seller's address": bool(seller and (seller.address or seller.erased)),
            "seller's VAT standing": bool(kind),
            "how it was paid": bool(purchase.payment or purchase.payments),
            "the lot's split": len(purchase.items) < 2 or purchase.split is not None,
            "the seller's invoice number": kind not in ("margin scheme", "VAT shown")
            or bool(purchase.invoice_number),
            "a description": all(map(self._described, purchase.items)),
        }
        return tuple(what for what, known in wanted.items() if not known)

    def _described(self, number: str) -> bool:
        row = self._items.live.get(number, {})
        plated = row.get("denomination") and (row.get("plate") or row.get("letters"))
        return bool(row.get("issue") or row.get("words") or plated)

    def incomplete(self) -> list[tuple[Purchase, tuple[str, ...]]]:
        """Every purchase with something still to complete, and what, the oldest first.

        Worked out once; from then on only for what a note has touched.
        """
        with self._busy:
            if self._owed is None:
                self._owed, self._stale = {}, set(self.live)
            for key in self._stale:
                found = self.find(key)
                owed = self.wanting(found) if found else ()
                if owed:
                    self._owed[key] = owed
                else:
                    self._owed.pop(key, None)
            self._stale.clear()
            rows = self.live
            open_ = ((rows[key]["date"], key) for key in rows if key in self._owed)
            in_order = sorted(open_, key=lambda each: each[0])
            return [(self.of(key), self._owed[key]) for _, key in in_order]

    def follow(self, table: str, key: str, before: Row | None, after: Row | None) -> None:
        """A row was replaced: its own, its seller's or one of its pieces'."""
        super().follow(table, key, before, after)
        if self._owed is None:
            return
        if table == self.NAME:
            self._stale.add(key)
        elif table == "people":
            self._stale.update(self._by_seller.of(key, self.live))
        elif table == "items":
            rows = (row for row in (before, after) if row)
            self._stale.update(row["purchase"] for row in rows if row.get("purchase"))

    def forget(self) -> None:
        """The rows are others now."""
        super().forget()
        self._owed = None


class QuoteTable(RecordTable[Quote]):
    """Prices offered until a day."""

    NAME = "quotes"
    kind = Quote
    what: ClassVar[str] = "quote"

    def __init__(self, storage: MemoryRows, busy: RLock) -> None:
        super().__init__(storage, busy)
        self._by_customer = self.index(field_of("customer"))

    def for_(self, person: str) -> list[Quote]:
        """What was quoted to a person."""
        return self.having(self._by_customer, person)


class CashTable(RecordTable[Cash]):
    """Cash in and out of the box beside trade, and days closed."""

    NAME = "cash"
    kind = Cash
    what: ClassVar[str] = "cash line"

    def on(self, day: str) -> list[Cash]:
        """The lines of a day."""
        return self.search(where("date") == day)


class BathTable(RecordTable[Bath]):
    """Timed treatments."""

    NAME = "baths"
    kind = Bath
    what: ClassVar[str] = "bath"

    def __init__(self, storage: MemoryRows, busy: RLock) -> None:
        super().__init__(storage, busy)
        self._running = self.index(_running)
        self._by_item = self.index(field_of("item"))

    def running(self) -> list[Bath]:
        """The baths whose time runs; asked several times a second."""
        return self.having(self._running, "running")

    def of_item(self, number: str) -> list[Bath]:
        """The timed baths of a piece, ended ones too."""
        return [each for each in self.having(self._by_item, number) if each.stages]


class HeldTable(RecordTable[HeldRow]):
    """Rows that two laptops changed without knowing of each other."""

    NAME = "conflicts"
    kind = HeldRow
    what: ClassVar[str] = "open conflict"


def _running(row: Row) -> Iterable[str]:
    return ("running",) if row.get("stages") and row.get("status", "running") == "running" else ()
