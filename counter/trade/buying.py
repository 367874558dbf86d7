"""Buying: one journal entry for what came in, what was paid, from whom; the rest may follow later."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from msgspec.structs import replace

from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.money import Foreign, Payment, way_to_pay
from counter.store.records.person import Person
from counter.store.records.purchase import SELLERS, Purchase, Share, Split
from counter.trade.cash_limit import ask_alike, check_cash
from counter.trade.filing import late_words
from counter.trade.people import like_words, person_for
from counter.trade.settings import Settings
from counter.trade.terms import Terms, rate_words
from counter.trade.vat_scheme import NOT_ELIGIBLE, eligible, scheme_when_bought, warn_of_limit
from counter.values.days import read_day
from counter.values.errors import InputError, UserError
from counter.values.item import Item
from counter.values.money import pounds, share
from counter.values.record import read_record

_MAY_FOLLOW = ("seller", "address", "seller_kind", "payment", "invoice_number", "place", "remarks")


@dataclass(frozen=True, slots=True)
class Deal:
    """What is being bought, in pence. Pieces carry no number yet.

    Several pieces are split by `expected` selling prices, by hand with `shares`, or (both empty)
    later. `parts` are what was paid by each way, if by several. `total_pence` is the sterling that
    counts; `foreign` says what it was turned from. `reason` is why a registered dealer uses no scheme,
    `vat_pence` the VAT shown on the paper, `stock_number` the seller's own.
    """

    day: str
    total_pence: int
    pieces: tuple[Item, ...]
    words: str = ""
    payment: str = ""
    seller: str = ""
    seller_kind: str = ""
    scheme: str = ""
    expected: tuple[int, ...] = ()
    shares: tuple[int, ...] = ()
    parts: tuple[tuple[str, int], ...] = ()
    foreign: Foreign | None = None
    invoice_number: str = ""
    place: str = ""
    reason: str = ""
    vat_pence: int = 0
    stock_number: str = ""


@dataclass(frozen=True, slots=True)
class Bought:
    """A noted (or about to be noted) purchase with its pieces, and what the dealer should be told."""

    purchase: Purchase
    items: tuple[Item, ...]
    changes: tuple[Change, ...]
    told: tuple[str, ...] = ()


def note_purchase(settings: Settings, deal: Deal) -> Bought:
    """Note the purchase and its pieces in one entry. Raises UserError; then nothing changed."""
    bought = prepare_purchase(settings, deal)
    settings.ledger.note("purchase noted", bought.changes)
    return bought


def prepare_purchase(settings: Settings, deal: Deal, exchange_sale: str = "") -> Bought:
    """The rows of a purchase, not noted yet (a part exchange notes them with its sale)."""
    _check(deal)
    ledger, terms = settings.ledger, settings.on(deal.day)
    seller, changes = person_for(ledger, deal.seller, deal.day)
    kind = deal.seller_kind or (seller.kind if seller else "")
    costs, basis = _costs(deal)
    warned = _law_minds(ledger, terms, deal, seller, kind)
    schemes = [
        scheme_when_bought(terms, piece.scheme or deal.scheme, kind, cost)
        for piece, cost in zip(deal.pieces, costs, strict=True)
    ]
    told = [warn_of_limit(terms, *each) for each in zip(schemes, costs, strict=True)]
    number = ledger.next_number("purchases")  # only now: a refused line must leave no gap
    items = _numbered(ledger, deal, number, list(zip(costs, schemes, strict=True)))
    purchase = Purchase(
        id=number,
        date=deal.day,
        total_pence=deal.total_pence,
        words=deal.words,
        items=tuple(each.number for each in items),
        payment=deal.payment,
        payments=tuple(Payment(deal.day, way, pence) for way, pence in deal.parts),
        foreign=deal.foreign,
        seller=seller.id if seller else "",
        seller_kind=kind,
        scheme=deal.scheme,
        invoice_number=deal.invoice_number,
        self_invoiced=kind in ("private", "unregistered business"),
        place=deal.place,
        remarks=deal.reason,
        vat_pence=deal.vat_pence,
        seller_stock_number=deal.stock_number,
        split=_split(deal, items, basis),
        exchange_sale=exchange_sale,
    )
    changes += [put(purchase), *map(put, items)]
    told += [
        warned,
        rate_words(deal.foreign, deal.day),
        *late_words(settings, deal.day),
        *like_words(ledger, seller),
    ]
    return Bought(purchase, tuple(items), tuple(changes), tuple(filter(None, told)))


def _numbered(
    ledger: Ledger, deal: Deal, purchase: str, terms: Sequence[tuple[int | None, str]]
) -> list[Item]:
    """The pieces under stock numbers of their own, each at its cost and scheme."""
    return [
        replace(
            piece,
            number=ledger.next_number("items"),
            cost=cost,
            purchase=purchase,
            scheme=scheme,
            status="in stock",
            noted=deal.day,
        )
        for piece, (cost, scheme) in zip(deal.pieces, terms, strict=True)
    ]


def _law_minds(ledger: Ledger, terms: Terms, deal: Deal, seller: Person | None, kind: str) -> str:
    """What the law wants looked at before a purchase is noted; what is to be told. Raises UserError."""
    if terms.registered and deal.scheme == "none" and not deal.reason.strip():
        raise UserError(
            f"You are registered for VAT on {deal.day}: give the reason why this goes under no scheme."
        )
    if deal.vat_pence and kind == "import" and eligible(terms, kind) and deal.scheme != "ordinary":
        raise InputError(
            "Under the import option the VAT paid at import is part of the price and is not reclaimed."
        )
    if deal.vat_pence and (kind not in NOT_ELIGIBLE or deal.vat_pence > deal.total_pence):
        raise InputError(
            "VAT within the price is noted of goods bought with VAT shown or imported alone."
        )
    cash = sum(pence for way, pence in deal.parts if way == "cash")
    cash = deal.total_pence if deal.payment == "cash" and not deal.parts else cash
    ask_alike(ledger, terms, seller, cash, received=False)
    return check_cash(ledger, terms, seller.id if seller else "", cash)


def _check(deal: Deal) -> None:
    read_day(deal.day)
    if deal.total_pence < 0:
        raise InputError("A purchase cannot cost less than nothing.")
    if not deal.pieces:
        raise InputError("Say what was bought before the price, as: 2d blue pl 3 KC £45 cash.")
    if deal.parts and sum(pence for _, pence in deal.parts) != deal.total_pence:
        raise InputError(f"The parts do not come to {pounds(deal.total_pence)}.")
    if deal.payment:
        way_to_pay(deal.payment)
    if deal.seller_kind not in SELLERS:
        raise InputError(f"A seller is one of: {', '.join(SELLERS[1:])}.")


def _costs(deal: Deal) -> tuple[Sequence[int | None], str]:
    """The cost of each piece and the basis; None while a lot is not split."""
    count = len(deal.pieces)
    if count == 1:
        return [deal.total_pence], ""
    if deal.shares:
        if len(deal.shares) != count or sum(deal.shares) != deal.total_pence:
            raise InputError(
                f"The shares come to {pounds(sum(deal.shares))} for {len(deal.shares)} pieces; they "
                f"must come to {pounds(deal.total_pence)} for {count}."
            )
        return list(deal.shares), "by hand"
    if deal.expected:
        if len(deal.expected) != count:
            raise InputError("Give an expected price to every piece, or to none and split later.")
        return list(share(deal.total_pence, deal.expected)), "expected prices"
    return [None] * count, ""


def _split(deal: Deal, items: Sequence[Item], basis: str) -> Split | None:
    if not basis:
        return None
    expected = deal.expected or (None,) * len(items)
    shares = tuple(
        Share(each.number, each.cost or 0, price) for each, price in zip(items, expected, strict=True)
    )
    return Split(deal.day, basis, shares)


def complete_purchase(settings: Settings, number: str, /, **details: str) -> Purchase:
    """Note details that were owed in one entry: seller, address, seller_kind, payment and the like.

    The address is the seller's. When it turns out that VAT is shown on the paper, the pieces leave
    the margin scheme. Raises UserError when one of them was sold under it already, or a detail is none;
    then nothing is noted.
    """
    ledger = settings.ledger
    known = ledger.purchases.of(number)
    if details.get("seller_kind", "") not in SELLERS:
        raise InputError(f"A seller is one of: {', '.join(SELLERS[1:])}.")
    if strange := details.keys() - _MAY_FOLLOW:
        raise InputError(f"{', '.join(strange)} cannot follow; {', '.join(_MAY_FOLLOW)} can.")
    changes: list[Change] = []
    if "seller" in details:
        seller, changes = person_for(ledger, details["seller"], known.date)
        details["seller"] = seller.id if seller else ""
    if "address" in details:
        named = _addressed(ledger, details.get("seller", known.seller), changes, details.pop("address"))
        changes = [put(named)]
    changed: dict[str, Any] = dict(details)
    purchase = replace(known, **changed)
    if known.payment == "owed" and changed.get("payment", "owed") != "owed":
        raise InputError(
            f"{known.id} was owed: say when it was paid, as counter owed {known.id} --paid cash --date DATE."
        )
    own = purchase.seller_kind in ("private", "unregistered business")
    purchase = replace(purchase, self_invoiced=own)
    if purchase.seller_kind != known.seller_kind:
        changes += _schemes_again(settings, purchase)
    changes.append(put(purchase))
    ledger.note("purchase completed", changes)
    return purchase


def pay_purchase(
    settings: Settings, number: str, method: str, day: str, pence: int | None = None
) -> Purchase:
    """Pay what is owed on a purchase on the day it is paid, all when `pence` is None. Raises UserError."""
    known = settings.ledger.purchases.of(number)
    made = [each for each in known.payments if each.method != "owed"]
    by_parts = known.total_pence - sum(each.pence for each in made)
    owed = by_parts if known.payments else known.total_pence if known.payment == "owed" else 0
    if known.cancelled or owed <= 0:
        raise UserError(f"Nothing is owed on {number}.")
    paid = owed if pence is None else pence
    if way_to_pay(method) in ("owed", "exchange") or not 0 < paid <= owed:
        raise InputError(f"Pay between 1p and {pounds(owed)} in cash, by card, transfer or cheque.")
    if read_day(day) < known.date:
        raise UserError(f"{number} is of {known.date}; it cannot have been paid on {day}.")
    cash = paid if method == "cash" else 0
    check_cash(settings.ledger, settings.on(day), known.seller, cash)
    left = [Payment(known.date, "owed", owed - paid)] if paid < owed else []
    payments = (*made, Payment(day, method, paid), *left)
    purchase = replace(known, payments=payments)
    settings.ledger.note("purchase paid", [put(purchase)])
    return purchase


def _addressed(ledger: Ledger, key: str, changes: Sequence[Change], address: str) -> Person:
    """The seller with an address, whether known before or only by these changes."""
    seller = next(
        (read_record(Person, each.row) for each in changes if each.row), ledger.people.find(key)
    )
    if seller is None:
        raise InputError("Say the seller's name first; the address belongs to a person.")
    return replace(seller, address=address)


def _schemes_again(settings: Settings, purchase: Purchase) -> list[Change]:
    changes, terms = [], settings.on(purchase.date)
    for number in purchase.items:
        item = settings.ledger.items.find(number)
        if item is None:
            continue
        scheme = scheme_when_bought(terms, "", purchase.seller_kind, item.cost)
        if scheme != "ordinary" or item.scheme in ("", "ordinary", "none"):
            continue
        if item.status == "sold":
            raise UserError(
                f"{number} was sold under the {item.scheme} scheme; refund that sale and sell it again "
                f"with ordinary VAT, or ask HMRC."
            )
        changes.append(put(replace(item, scheme=scheme)))
    return changes
