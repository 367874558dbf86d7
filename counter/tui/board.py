"""What the panes of the opening screen show: one state, worked out once for each line typed."""

from __future__ import annotations

import re
from functools import cached_property
from typing import TYPE_CHECKING

from counter.values.errors import InputError, UserError
from counter.values.quote import QuoteLine, RunningQuote

if TYPE_CHECKING:
    from counter.desk.covers.session import CoverNotes
    from counter.desk.desk import Desk
    from counter.desk.identify.line_query import Asked, StockLine
    from counter.desk.trade.trading import ReadDeal
    from counter.judge.identify import Candidate, CardLine, Support
    from counter.judge.treat.strip import StripCell
    from counter.values.item import Item

#: A line that begins so is a purchase to note.
BOUGHT = re.compile(r"\s*(?:bt|bot|bought|buy)\s+", re.IGNORECASE)
#: What may be a stock number: one to three letters and a running number.
STOCK_NUMBER = re.compile(r"[a-z]{1,3}-?[0-9]+", re.IGNORECASE)


def bare_number(number: str) -> str:
    """A stock number without hyphen and capitals, as it is compared."""
    return "".join(letter for letter in number.casefold() if letter.isalnum())


class Board:
    """The line typed, the desk (None until it is open), the quote in hand, and what is chosen.

    Everything read from the desk is worked out when the first pane paints and kept until the line
    changes, so that a burst of keys costs one answer.
    """

    def __init__(self) -> None:
        self.desk: Desk | None = None
        self.trouble = ""  # why there is no desk, in one sentence
        self.text = ""
        self.quote = RunningQuote()
        self._thrown: tuple[RunningQuote, RunningQuote, int] | None = None
        self.sale: dict[str, str] = {}  # how the quote in hand is to be sold, as answered so far
        self.chosen_issue = 0
        self.next_look = ""  # the best next look, worked out when the keys rest
        self.supports: tuple[Support, ...] = ()  # what the first candidate rests on, likewise
        self.cover: CoverNotes | None = None  # the cover last checked
        self.side = "stock"  # which list the arrow keys move: "stock" or "stamp"

    def type(self, text: str) -> None:
        """Another line: what was worked out for the old one no longer holds."""
        self.text = text
        self.chosen_issue = 0
        self.next_look, self.supports = "", ()
        self.forget()

    def forget(self) -> None:
        """Work everything out again (the stock or the reference has changed)."""
        for name in ("asked", "stock", "deal"):
            self.__dict__.pop(name, None)

    @property
    def buying(self) -> bool:
        """Whether the line is a purchase to note: it begins with bt."""
        return BOUGHT.match(self.text) is not None

    @property
    def scanned(self) -> str:
        """The bare stock number, where the line is one and nothing else, as a hand scanner types it."""
        typed = self.text.strip()
        if self.asked is None or not STOCK_NUMBER.fullmatch(typed):
            return ""
        read = self.asked.reading.observations
        return bare_number(typed) if [each.kind for each in read] == ["stock_number"] else ""

    @property
    def may_buy(self) -> bool:
        """Whether the line is bt and nothing else: a purchase begun, or two letters."""
        return self.text.strip().lower() == "bt"

    @cached_property
    def deal(self) -> ReadDeal | str | None:
        """The purchase as it would be noted; one sentence while something is missing."""
        if not self.desk or not self.buying:
            return None
        try:
            return self.desk.trading.read_deal(self.text)
        except UserError as trouble:
            return str(trouble)

    @cached_property
    def asked(self) -> Asked | None:
        """The desk's answer to the line; None while the desk opens. Of a purchase, its pieces."""
        if not self.desk:
            return None
        if not self.buying:
            return self.desk.ask(self.text)
        if self.deal and not isinstance(self.deal, str):
            return self.desk.ask(self.deal.pieces[0].words)
        return self.desk.ask(BOUGHT.sub("", self.text, count=1))

    def quote_line(self, number: str, words: str, price: int | None) -> None:
        """Put a stock line into the quote; raises InputError without a price or when it is there."""
        if price is None:
            raise InputError(f"{number} has no price yet; price it first.")
        self.quote = self.quote.add(QuoteLine(number, words, price))

    def throw_out(self, left: RunningQuote) -> None:
        """Lines go out of the quote; `bring_back` has them again while nothing else was done."""
        self._thrown = (self.quote, left, self._entries())
        self.quote = left

    def bring_back(self) -> bool:
        """The quote before lines were thrown out, if neither it nor the ledger has changed since."""
        before, left, entries = self._thrown or (self.quote, None, 0)
        self._thrown = None
        if self.quote != left or entries != self._entries():
            return False
        self.quote = before
        return True

    def _entries(self) -> int:
        return self.desk.ledger.state.entries if self.desk else 0

    def narrowed(self, line: StockLine, room: int) -> tuple[str, tuple[tuple[int, int], ...]]:
        """The words of a stock line for `room` cells, its faults within them, and what is marked."""
        item = self.desk.item(line.number) if self.desk and len(line.words) > room else None
        if item is None or self.desk is None:
            return line.words, line.matched
        from counter.tui.narrow_line import narrowed

        return narrowed(line.words, line.matched, item, self.desk.names, room)

    def describe(self, item: Item) -> str:
        """An item in its short line."""
        from counter.describe.description import short_line

        return short_line(item, self.desk.names) if self.desk else ""

    @cached_property
    def stock(self) -> list[StockLine]:
        """The stock lines that match, best first."""
        return self.asked.stock() if self.asked else []

    @property
    def candidates(self) -> tuple[Candidate, ...]:
        """What it could be, best first: the first, and all that stand at one per cent or more."""
        return self.asked.told if self.asked else ()

    @property
    def faint(self) -> float:
        """The share of everything that stands below one per cent, together."""
        return self.asked.identification.gathered(self.asked.told) if self.asked else 0.0

    @property
    def issue(self) -> str:
        """The id of the chosen candidate, or "" when there is none."""
        found = self.candidates
        return found[self.chosen_issue].issue_id if self.chosen_issue < len(found) else ""

    def card(self) -> tuple[CardLine, ...]:
        """The commemorative sets the line may mean, the traps of the first candidate, the chosen card."""
        if not self.asked:
            return ()
        card = self.asked.card(self.issue) if self.issue else ()
        return (
            self.asked.commemorative_lines() + (self._traps() if self.chosen_issue == 0 else ()) + card
        )

    def _traps(self) -> tuple[CardLine, ...]:
        traps = self.asked.traps if self.asked else ()
        if not traps:
            return ()
        from counter.judge.identify import CardLine

        named, (first, *others) = ", ".join(each.name for each in traps), traps
        also = tuple(dict.fromkeys(each.source for each in others if each.source != first.source))
        return (CardLine("taken for it", named, first.source, first.confidence, also),)

    def short_name(self, issue: str) -> str:
        """An issue as short as the trade says it: "1d red-brown lg cr p14 alph III"."""
        if not self.desk:
            return issue
        from counter.describe.names import name_of
        from counter.tui.narrow_line import SHORTER

        name = name_of(issue, self.desk.names)
        words = " ".join(part for part in (name.denomination, name.colour, name.tail) if part)
        for long, short in SHORTER:
            words = words.replace(long, short)
        return words

    def source_words(self, source: str) -> str:
        """A source as a reader wants it: its title and who published it."""
        library = self.desk.library if self.desk else None
        found = library and (
            library.stamps.sources.get(source) or library.treatments.sources.get(source)
        )
        if not found:
            return source
        return ", ".join(part for part in (found.title, found.publisher, found.year) if part)

    def strip(self) -> tuple[StripCell, ...]:
        """What water, peroxide and spirit would do to the chosen candidate."""
        return self.asked.strip(self.issue) if self.asked and self.issue else ()
