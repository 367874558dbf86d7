"""Cash with one person, added up: the law counts linked payments, received or paid."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from counter.store.ledger import Ledger
from counter.store.records.person import Person
from counter.store.records.purchase import Purchase
from counter.store.records.sale import Sale
from counter.trade.people import like_named
from counter.trade.terms import Terms
from counter.values.days import years_later
from counter.values.errors import UserError
from counter.values.money import pounds


@dataclass(frozen=True, slots=True)
class CashWith:
    """Cash paid to and had from one person in the twelve months before a day, in pence."""

    paid: int
    received: int


def cash_with(ledger: Ledger, person: str, day: str) -> CashWith:
    """What passed in cash over twelve months: our reading of "linked", on the safe side."""
    since = years_later(day, -1)
    paid = sum(_cash(_between(ledger.purchases.from_(person), since, day)))
    received = sum(max(each, 0) for each in _cash(_between(ledger.sales.to(person), since, day)))
    return CashWith(paid, received)


def _between(
    deals: Iterable[Purchase] | Iterable[Sale], since: str, until: str
) -> Iterator[Purchase | Sale]:
    return (each for each in deals if since < each.date <= until)


def _cash(deals: Iterable[Purchase | Sale]) -> Iterator[int]:
    for deal in deals:
        if deal.payments:
            yield from (each.pence for each in deal.payments if each.method == "cash")
        elif isinstance(deal, Purchase) and deal.payment == "cash":
            yield deal.total_pence


def cash_warning(
    ledger: Ledger, terms: Terms, person: str, more: int, *, received: bool = False
) -> str:
    """One sentence when so much more cash reaches the house's warning or the law's limit, else ""."""
    so_far = cash_with(ledger, person, terms.day)
    total = (so_far.received if received else so_far.paid) + more
    limit = terms.limits.get("high-value-dealer")
    if limit is None or total < min(terms.business.warn_cash_pence, limit.amount):
        return ""
    way = "from" if received else "to"
    since = f" (in force since {limit.since})" if limit.since else ""
    return (
        f"Cash {way} this person comes to {pounds(total)} in twelve months; from {limit.words}{since} a "
        f"dealer must be registered with HMRC before such a payment: check with HMRC."
    )


def check_cash(ledger: Ledger, terms: Terms, person: str, cash: int, *, received: bool = False) -> str:
    """Looked at before so much cash is noted: what to be told, "" for nothing. Raises UserError.

    A person must be named from the house's warning on. A single payment that reaches the law's limit
    is refused unless the house is registered for it: it may not be taken before.
    """
    limit = terms.limits.get("high-value-dealer")
    if limit is None or cash <= 0:
        return ""
    warn = min(terms.business.warn_cash_pence, limit.amount)
    if not person and cash >= warn:
        who = "the buyer" if received else "the seller"
        raise UserError(
            f"{pounds(cash)} in cash: name {who}, as is wanted from {pounds(warn)} on; from {limit.words} a "
            f"dealer must be registered with HMRC before such a payment."
        )
    if cash >= limit.amount and not terms.business.high_value_dealer:
        raise UserError(
            f"{pounds(cash)} in cash reaches {limit.words}, and no registration with HMRC as a high value "
            f"dealer is noted: use another way to pay, or note it under high_value_dealer; ask HMRC."
        )
    return cash_warning(ledger, terms, person, cash, received=received) if person else ""


def ask_alike(
    ledger: Ledger, terms: Terms, person: Person | None, cash: int, *, received: bool
) -> None:
    """Raises UserError when a person new to the books may be one already known, and cash adds up.

    Linked payments count for one person: whether two records are one is the dealer's to say.
    """
    if person is None or cash <= 0 or ledger.people.holds(person.id):
        return
    alike = like_named(ledger, person)
    sums = [cash_with(ledger, each.id, terms.day) for each in alike]
    total = cash + sum(each.received if received else each.paid for each in sums)
    limit = terms.limits.get("high-value-dealer")
    if alike and limit and total >= min(terms.business.warn_cash_pence, limit.amount):
        known = ", ".join(f"{each.name} ({each.id})" for each in alike)
        raise UserError(
            f"Cash with people of this name comes to {pounds(total)}: say the number if this is "
            f"{known}, or name and address if it is somebody else."
        )


@dataclass(frozen=True, slots=True)
class CashNear:
    """Somebody with whom cash comes near the warning: their id, and twelve months' cash in pence."""

    person: str
    cash: CashWith


def cash_near(ledger: Ledger, terms: Terms) -> list[CashNear]:
    """Everybody with whom cash reached half of what the house warns from, the most first."""
    since, day = years_later(terms.day, -1), terms.day
    paid, received = dict[str, int](), dict[str, int]()
    for purchase in _between(ledger.purchases.records(), since, day):
        _add(paid, purchase, purchase.seller if isinstance(purchase, Purchase) else "")
    for sale in _between(ledger.sales.records(), since, day):
        _add(received, sale, sale.buyer if isinstance(sale, Sale) else "")
    least = terms.business.warn_cash_pence // 2
    every = dict.fromkeys((*paid, *received))
    sums = {key: CashWith(paid.get(key, 0), received.get(key, 0)) for key in every}
    near = [
        CashNear(key, both) for key, both in sums.items() if max(both.paid, both.received) >= least > 0
    ]
    return sorted(near, key=lambda each: -max(each.cash.paid, each.cash.received))


def _add(sums: dict[str, int], deal: Purchase | Sale, person: str) -> None:
    if person:
        sums[person] = sums.get(person, 0) + sum(max(each, 0) for each in _cash([deal]))
