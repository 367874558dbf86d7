"""The whole reference behind one door; each subject is read when it is first asked for."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, ClassVar

if TYPE_CHECKING:
    from counter.reference.market import MarketFacts
    from counter.reference.money import MoneyFacts
    from counter.reference.postal import Postal
    from counter.reference.stamps import Stamps
    from counter.reference.treatments import Treatments
    from counter.reference.vocabulary import Vocabulary

# Property imports are local on purpose: the first screen must not wait for every subject.


class Library:
    """Every fact by subject. Facts do not change while the program runs: all libraries share them."""

    _read: ClassVar[dict[str, object]] = {}

    def __init__(self) -> None:
        self.__dict__ = self._read

    def read_all(self) -> None:
        """Read every subject now; raises DataFault when one is wrong."""
        for subject in ("vocabulary", "stamps", "treatments", "postal", "money", "market"):
            getattr(self, subject)

    @cached_property
    def money(self) -> MoneyFacts:
        """VAT, the stock book, limits, currencies, pricing habits."""
        from counter.reference.money import read_money_facts

        return read_money_facts()

    @cached_property
    def market(self) -> MarketFacts:
        """Plates, letterings, cancels and features that have a market of their own."""
        from counter.reference.market import read_market

        return read_market(self.stamps)

    @cached_property
    def postal(self) -> Postal:
        """Rates, cancels, marks, cover checks, transit, days and the trade's terms."""
        from counter.reference.postal import read_postal

        return read_postal()

    @cached_property
    def stamps(self) -> Stamps:
        """Issues, plates, watermarks, lettering, lookalikes, inks, commemoratives."""
        from counter.reference.stamps_reader import read_stamps

        return read_stamps()

    @cached_property
    def treatments(self) -> Treatments:
        """Treatments, what each class of stamp tolerates, peroxide by the numbers, hazards."""
        from counter.reference.treatments_reader import read_treatments

        return read_treatments()

    @cached_property
    def vocabulary(self) -> Vocabulary:
        """The words that may be typed and what each of them says."""
        from counter.reference.vocabulary import read_vocabulary

        return read_vocabulary()
