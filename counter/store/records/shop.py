"""The shop's own records: cash in and out of the box, days closed, and the settings the dealer edits."""

from __future__ import annotations

from typing import Annotated, ClassVar

from counter.values.record import Day, Name, Record, SignedPence, Words, one_of

CASH_KINDS = ("float", "expense", "banked", "drawn", "put in", "difference", "day closed")


class Cash(Record, frozen=True):
    """Cash in the box that is neither purchase nor sale; out of it is negative.

    A closed day is kept here too: `pence` is then what was counted, `expected_pence` what should be.
    """

    id: Name
    date: Day
    kind: Annotated[str, one_of(*CASH_KINDS)]
    pence: SignedPence
    expected_pence: SignedPence | None = None
    words: Words = ""


class Business(Record, frozen=True):
    """Who trades, whether registered for VAT and since when, and the house's habits.

    `registered_from` empty: not registered. `scheme` is what an eligible piece goes under unless
    told otherwise. `warn_cash_pence` warns well below the law's limit on cash. `profit_percent` of the
    resale is wanted when buying; `floor_percent` of the cost is the least profit when selling.
    `high_value_dealer` is the number of HMRC's registration for large payments in cash.
    `global_until` is the last day of global accounting, where it was left.
    `import_option_from` is the day from which imported collectors' items go under the margin scheme.
    `company_year_end` is month and day ("03-31") where a company trades; empty: a sole trader.
    `cost_code` is ten letters for 1 to 9 and 0, by which a label says a cost to no one else.
    """

    IN_FULL: ClassVar[bool] = True

    name: str = ""
    address: str = ""
    vat_number: str = ""
    registered_from: str = ""
    registered_until: str = ""
    scheme: str = "margin"
    period_months: int = 3
    global_since: str = ""
    global_until: str = ""
    opening_stock_pence: int = 0
    warn_cash_pence: int = 5_000_00
    profit_percent: int = 30
    floor_percent: int = 10
    half_life_months: int = 36
    quote_days: int = 14
    terms: str = ""
    cost_code: str = ""
    high_value_dealer: str = ""
    company_year_end: str = ""
    import_option_from: str = ""

    def in_global(self, day: str) -> bool:
        """Whether global accounting is used on a day."""
        used = self.scheme == "global" or bool(self.global_until)
        left = bool(self.global_until) and day > self.global_until
        return used and self.global_since <= day and not left

    def registered(self, day: str) -> bool:
        """Whether VAT is accounted for on a day."""
        begun = bool(self.registered_from) and self.registered_from <= day
        return begun and (not self.registered_until or day <= self.registered_until)

    def registered_within(self, since: str, until: str) -> bool:
        """Whether VAT is accounted for on some day between two, both included."""
        begun = bool(self.registered_from) and self.registered_from <= until
        return begun and (not self.registered_until or since <= self.registered_until)


class OwnLimit(Record, frozen=True):
    """The dealer's own figure for a limit, in pence, from a day on."""

    amount: int
    since: str


class OwnVatRate(Record, frozen=True):
    """A standard rate of VAT that the dealer noted, from a day on; per cent as exact text."""

    since: str
    percent: str


class OwnExchange(Record, frozen=True):
    """The dealer's rate of a currency from a day on, units to one pound, and where it is from."""

    date: str
    rate: str
    source: str
