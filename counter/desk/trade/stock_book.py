"""The book of a period in one go: lines, totals, warnings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from counter.desk.trade.trading import Trading
from counter.documents.book_pages import book_csv, book_layout, gaps_layout
from counter.documents.layout import Layout
from counter.store.records.shop import Business
from counter.trade.stock_book import BookLine
from counter.trade.stock_book_totals import Totals, registration_warning, totals


@dataclass(frozen=True, slots=True)
class PeriodRead:
    """The stock book of a period with its totals; `warned` is a sentence or ""."""

    since: str
    until: str
    lines: tuple[BookLine, ...]
    sums: Totals
    warned: str
    business: Business

    @property
    def gaps(self) -> tuple[BookLine, ...]:
        """The lines on which something is missing."""
        return tuple(line for line in self.lines if line.gaps)

    def csv(self) -> str:
        """Every line as CSV text."""
        return book_csv(self.lines)

    def layout(self) -> Layout:
        """The period as a paper to hand over."""
        return book_layout(self.business, self.since, self.until, self.lines, self.sums)

    def gaps_layout(self) -> Layout:
        """What is missing, as a paper of its own."""
        return gaps_layout(self.since, self.until, self.lines)


def read_book(
    trading: Trading, since: str, until: str, told: Callable[[str], None] = lambda _: None
) -> PeriodRead:
    """Work the book of a period out; `told` hears how far it has come (this takes a while)."""
    book = trading.book
    told("Reading purchases and sales …")
    lines = tuple(book.lines(since, until))
    told(f"Adding up {len(lines):,} lines …")
    sums = totals(book, since, until, lines)
    warned = registration_warning(book, until)
    return PeriodRead(since, until, lines, sums, warned, trading.settings.business)
