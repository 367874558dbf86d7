"""The Desk: the reference, the ledger and the index of the stock, open together."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime
from functools import cached_property
from time import monotonic
from typing import TYPE_CHECKING

from counter.describe.names import Names
from counter.desk.identify.line_query import Asked
from counter.desk.workspace import Workspace
from counter.reference.library import Library
from counter.search import index_file
from counter.store.entry import Entry
from counter.store.ledger import Ledger
from counter.values.errors import UserError
from counter.values.quote import RunningQuote, quote_from_row

if TYPE_CHECKING:
    from counter.desk.taking_back import LastEntry
    from counter.desk.trade.trading import Trading
    from counter.trade.treatment_log import Baths


class Desk(Workspace):
    """Made by `open_desk`. The stock can be asked while it is still being indexed."""

    def __init__(
        self,
        library: Library,
        ledger: Ledger,
        names: Names,
        *,
        clock: Callable[[], datetime],
        ticks: Callable[[], float] = monotonic,
        farewell: Callable[[], None] = lambda: None,
        demo: bool = False,
    ) -> None:
        super().__init__(library, ledger, names, clock=clock, ticks=ticks)
        self.stock_ready = False
        self._farewell = farewell
        self.demo = demo
        self._filling: Iterator[int] | None = None
        self._sitting = ledger.state.seqs.get(ledger.laptop, 0)  # this laptop's last entry before it
        ledger.watch(self._follow)

    # The stock

    @property
    def stock_size(self) -> int:
        """How many lines the ledger holds, indexed or not."""
        return len(self.ledger.items)

    def index_more(self) -> bool:
        """Index one more slice of the stock; False when all of it can be searched."""
        if self._filling is None:
            self._filling = index_file.fill(self.index, self.ledger, chunk=1_000)
        more = next(self._filling, None) is not None
        self.stock_ready = not more
        return more

    def index_all(self) -> None:
        """Index the whole stock now (the command line has no first frame to think of)."""
        while self.index_more():
            pass

    def read_first(self) -> None:
        """Read what the answer to a typed line needs. Raises UserError when the reference is broken."""
        for subject in ("vocabulary", "treatments"):
            getattr(self.library, subject)

    def warm(self) -> None:
        """Read what is not needed for the first line but for the first key after it."""
        from counter.judge.identify import next_looks
        from counter.judge.observation import Reading

        self.library.read_all()
        next_looks(Reading("", ()), self.library.stamps)

    def _follow(self, entry: Entry) -> None:
        for change in entry.changes:
            if change.table == "items":
                self.index.follow(change.key, self.ledger.items.find(change.key))

    # The line

    def ask(self, text: str) -> Asked:
        """Everything the desk can say to one typed line; each part is worked out when looked at."""
        return Asked(self, text)

    @cached_property
    def trading(self) -> Trading:
        """Buying, pricing, quoting, selling and the book."""
        from counter.desk.trade.trading import Trading

        return Trading(self)

    @cached_property
    def baths(self) -> Baths:
        """Timed treatments, begun and running."""
        from counter.desk.treatments.case import open_baths

        return open_baths(self.ledger, self.library.treatments, self.ticks)

    @property
    def bath_running(self) -> bool:
        """Whether any bath is running: one look at an index."""
        return bool(self.ledger.baths.running())

    def last_entry(self) -> LastEntry | None:
        """What taking back would take back, and whether it is of an earlier sitting or day."""
        from counter.desk.taking_back import last_entry

        return last_entry(self, self._sitting)

    def take_back(self) -> str:
        """Reverse this laptop's last entry by a new one; says what it was. Raises UserError."""
        from counter.desk.taking_back import take_back

        return take_back(self)

    def put_back(self) -> str:
        """Let what was taken back last stand again; says what it is. Raises UserError."""
        from counter.desk.taking_back import put_back

        return put_back(self)

    def kept_quote(self) -> RunningQuote:
        """The quote in hand when the counter was last closed."""
        row = self.draft("quote")
        try:
            return quote_from_row(dict(row)) if row else RunningQuote()
        except (KeyError, TypeError, ValueError):
            return RunningQuote()  # a draft of an older form is not worth a fault

    def close(self) -> None:
        """Keep the index of a large stock, let the next writer in; a demo's folder goes."""
        try:
            index_file.keep(self.index, self.ledger)
            self.ledger.close()
        except UserError as trouble:
            self.ledger.told.append(str(trouble))
        finally:
            self._farewell()
