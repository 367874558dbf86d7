"""The book of 20,000 deals over five years: `.venv/bin/python -m tests.benchmarks.book_speed [global]`.

Prints the time of a quarter's lines and totals, a year, a return filed, and what there was on a day.
"""

import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path

from counter.reference.money import read_money_facts
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.money import Payment
from counter.store.records.purchase import Purchase
from counter.store.records.sale import Sale, SaleLine
from counter.trade.accounts_day import standing_on
from counter.trade.filing import file_return, read_filed
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import totals
from counter.trade.year import read_year
from counter.values.item import Item

DEALS = 20_000
QUARTER = ("2026-07-01", "2026-09-30")


def filled(folder: Path, scheme: str) -> Book:
    """A book of as many purchases as sales, from 1 January 2022 on."""
    ledger = Ledger.open(folder, clock=lambda: datetime(2026, 12, 31, 12), laptop="WK")
    house = Settings(ledger, read_money_facts())
    since = "2022-01-01" if scheme == "global" else ""
    house.change_business(registered_from="2010-01-01", scheme=scheme, global_since=since)
    notes, half = [], DEALS // 2
    for place in range(half):
        day = (date(2022, 1, 1) + timedelta(days=place * 1_800 // half)).isoformat()
        item, bought, sold = (f"WK-{kind}{place + 1}" for kind in ("", "P", "S"))
        purchase = Purchase(id=bought, date=day, total_pence=5000, items=(item,), payment="cash")
        piece = Item(item, cost=5000, purchase=bought, scheme=scheme, status="sold", noted=day)
        vat = 667 if scheme == "margin" else None
        line = SaleLine(
            item=item,
            price_pence=9000,
            scheme=scheme,
            cost_pence=5000,
            vat_fraction="1/6",
            vat_pence=vat,
        )
        paid = (Payment(day, "cash", 9000),)
        sale = Sale(id=sold, date=day, lines=(line,), payments=paid, total_pence=9000)
        notes += [("purchase noted", [put(purchase), put(piece)]), ("sold", [put(sale)])]
    ledger.note_many(notes)
    return Book(house, {})


def timed(name: str, work: Callable[[], object]) -> None:
    """Run it twice and print the second time."""
    work()
    begun = time.perf_counter()
    work()
    print(f"{name:<28}{time.perf_counter() - begun:7.2f} s")


def main() -> None:
    scheme = "global" if "global" in sys.argv[1:] else "margin"
    with tempfile.TemporaryDirectory() as place:
        book = filled(Path(place), scheme)
        timed("lines of a quarter", lambda: book.lines(*QUARTER))
        timed("totals of a quarter", lambda: totals(book, *QUARTER))
        timed("a year", lambda: read_year(book, "2026-01-01", "2026-12-31"))
        filed = file_return(book, *QUARTER, "2026-10-20")
        timed("a filed return read again", lambda: read_filed(book, filed))
        timed("what there was on a day", lambda: standing_on(book, "2026-12-31"))
        book.ledger.close()


if __name__ == "__main__":
    main()
