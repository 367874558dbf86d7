"""The quote in hand: lines with their prices, one discount over them, the total to the penny."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from decimal import Decimal

from counter.values.errors import InputError
from counter.values.money import chain_discount, marked, pounds, read_pence, without_discount


@dataclass(frozen=True, slots=True)
class QuoteLine:
    """A stock number, its short description as quoted, and its asking price in pence."""

    number: str
    words: str
    price: int


@dataclass(frozen=True, slots=True)
class RunningQuote:
    """Lines in the order they were put in; a discount is a percentage or a price for the lot.

    `kept` is the number of the kept quote it was taken from, "" for none.
    """

    lines: tuple[QuoteLine, ...] = ()
    percent: Decimal | None = None
    lot_price: int | None = None
    kept: str = ""

    def holds(self, number: str) -> bool:
        """Whether the stock number is already in the quote."""
        return any(line.number == number for line in self.lines)

    def add(self, line: QuoteLine) -> RunningQuote:
        """One more line; a price for the lot no longer holds when the lot changes."""
        if self.holds(line.number):
            raise InputError(f"{line.number} is in the quote already.")
        return replace(self, lines=(*self.lines, line), lot_price=None)

    def remove(self, number: str) -> RunningQuote:
        """The quote without that line."""
        left = tuple(line for line in self.lines if line.number != number)
        return replace(self, lines=left, lot_price=None)

    def discounted(self, words: str) -> RunningQuote:
        """With the discount as typed: "10%", "15%+5%", "£45" for the lot, or "" for none.

        Two percentages are taken one after the other, as one exact figure. Raises InputError.
        """
        typed = words.strip()
        if not typed:
            return replace(self, percent=None, lot_price=None)
        if typed.endswith("%"):
            left = Decimal(1)
            for each in re.split(r"(?<=%)[\s+]+", typed):
                left *= (100 - _percent(each)) / 100
            return replace(self, percent=100 - left * 100, lot_price=None)
        return self.for_lot(read_pence(typed, "a price for the lot"))

    def for_lot(self, price: int) -> RunningQuote:
        """With one price in pence for all of it. Raises InputError when it is more than the lines."""
        if price > self.before:
            raise InputError(
                f"{pounds(price)} for the lot is more than the lines come to ({pounds(self.before)})."
            )
        return replace(self, percent=None, lot_price=price)

    def from_kept(self, number: str) -> RunningQuote:
        """The same quote, known to be kept under that number."""
        return replace(self, kept=number)

    @property
    def before(self) -> int:
        """The asking prices together, in pence."""
        return sum(line.price for line in self.lines)

    @property
    def total(self) -> int:
        """What the customer pays, in pence."""
        if self.lot_price is not None:
            return self.lot_price
        if self.percent is not None:
            return chain_discount(self.before, [self.percent])
        return self.before

    @property
    def prices(self) -> tuple[int, ...]:
        """Each line's share of the total; they add up to it exactly."""
        return without_discount([line.price for line in self.lines], self.before - self.total)

    def discount_words(self) -> str:
        """How the discount is said: "less 10 %", "for the lot", or ""."""
        if self.percent is not None:
            return f"less {self.percent.normalize():f} %"
        return "for the lot" if self.lot_price is not None else ""

    def to_read(self) -> str:
        """The quote in plain text for the customer: no costs, no margins."""
        width = max((len(pounds(line.price)) for line in self.lines), default=0)
        rows = [f"{pounds(line.price):>{width}}  {line.number}  {line.words}" for line in self.lines]
        total = f"{pounds(self.total):>{width}}  total"
        if self.total != self.before:
            total += f" ({marked(self.before)} {self.discount_words()})"
        return "\n".join([*rows, total])


def _percent(typed: str) -> Decimal:
    figure = typed.removesuffix("%").strip().removeprefix("-").strip()
    if not re.fullmatch(r"[0-9]{1,3}(\.[0-9]{1,2})?", figure) or Decimal(figure) > 100:
        raise InputError(f"{typed} is not a discount; write it like 10% (0 to 100) or £45 for the lot.")
    return Decimal(figure)


def quote_to_row(quote: RunningQuote) -> dict[str, object]:
    """The quote as plain JSON values, for keeping it as an unfinished note."""
    return {
        "lines": [[line.number, line.words, line.price] for line in quote.lines],
        "percent": None if quote.percent is None else str(quote.percent),
        "lot_price": quote.lot_price,
        "kept": quote.kept,
    }


def quote_from_row(row: dict[str, object]) -> RunningQuote:
    """The quote of a row made by `quote_to_row`; raises TypeError or ValueError on anything else."""
    lines = tuple(QuoteLine(*line) for line in row["lines"])  # type: ignore[attr-defined]
    percent, lot = row["percent"], row["lot_price"]
    return RunningQuote(
        lines,
        None if percent is None else Decimal(str(percent)),
        lot if isinstance(lot, int) else None,
        str(row.get("kept", "")),
    )
