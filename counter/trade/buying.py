"""Buying: one journal entry for what came in, what was paid, from whom; the rest may follow later."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.money import PAYMENTS, Foreign
from counter.store.records.person import PERSON, Person
from counter.store.records.purchase import PURCHASE, SELLERS, Purchase, Share, Split
from counter.trade.cash_limit import cash_warning
from counter.trade.people import person, person_for
from counter.trade.settings import House
from counter.trade.vat_scheme import scheme_when_bought, warn_of_limit
from counter.values.days import read_day
from counter.values.errors import InputError, UserError
from counter.values.item import Item, item_from_row, item_to_row
from counter.values.money import pounds, share

_MAY_FOLLOW = ("seller", "address", "seller_kind", "payment", "invoice_number", "place", "remarks")


@dataclass(frozen=True, slots=True)
class Deal:
    """What is being bought, in pence. Pieces carry no number yet.

    Several pieces are split by `expected` selling prices, by hand with `shares`, or (both empty)
    later. `total_pence` is the sterling that counts; `foreign` says what it was turned from.
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
    foreign: Foreign | None = None
    invoice_number: str = ""
    place: str = ""


@dataclass(frozen=True, slots=True)
class Bought:
    """A noted (or about to be noted) purchase with its pieces, and what the dealer should be told."""

    purchase: Purchase
    items: tuple[Item, ...]
    changes: tuple[Change, ...]
    told: tuple[str, ...] = ()


def note_purchase(house: House, deal: Deal) -> Bought:
    """Note the purchase and its pieces in one entry. Raises UserError; then nothing changed."""
    bought = prepare_purchase(house, deal)
    house.ledger.note("purchase noted", bought.changes)
    return bought


def prepare_purchase(house: House, deal: Deal, exchange_sale: str = "") -> Bought:
    """The rows of a purchase, not noted yet (a part exchange notes them with its sale)."""
    _check(deal)
    ledger = house.ledger
    seller, changes = person_for(ledger, deal.seller, deal.day)
    kind = deal.seller_kind or (seller.kind if seller else "")
    costs, basis = _costs(deal)
    schemes = [
        scheme_when_bought(house, piece.scheme or deal.scheme, kind, cost, deal.day)
        for piece, cost in zip(deal.pieces, costs, strict=True)
    ]
    told = [warn_of_limit(house, *each, deal.day) for each in zip(schemes, costs, strict=True)]
    number = ledger.next_number("purchases")  # only now: a refused line must leave no gap
    items = [
        replace(
            piece,
            number=ledger.next_number("items"),
            cost=cost,
            purchase=number,
            scheme=scheme,
            status="in stock",
            noted=deal.day,
        )
        for piece, cost, scheme in zip(deal.pieces, costs, schemes, strict=True)
    ]
    purchase = Purchase(
        id=number,
        date=deal.day,
        total_pence=deal.total_pence,
        words=deal.words,
        items=tuple(each.number for each in items),
        payment=deal.payment,
        foreign=deal.foreign,
        seller=seller.id if seller else "",
        seller_kind=kind,
        scheme=deal.scheme,
        invoice_number=deal.invoice_number,
        self_invoiced=kind in ("private", "unregistered business"),
        place=deal.place,
        split=_split(deal, items, basis),
        exchange_sale=exchange_sale,
    )
    changes.append(Change("purchases", number, PURCHASE.write(purchase)))
    changes += [Change("items", each.number, item_to_row(each)) for each in items]
    if deal.payment == "cash" and seller:
        told.append(cash_warning(house, seller.id, deal.total_pence, deal.day))
    return Bought(purchase, tuple(items), tuple(changes), tuple(each for each in told if each))


def _check(deal: Deal) -> None:
    read_day(deal.day)
    if deal.total_pence < 0:
        raise InputError("A purchase cannot cost less than nothing.")
    if not deal.pieces:
        raise InputError("Say what was bought before the price, as: 2d blue pl 3 KC £45 cash.")
    if deal.payment and deal.payment not in PAYMENTS:
        raise InputError(f"{deal.payment} is not a way to pay; use {', '.join(PAYMENTS)}.")
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


def read_purchase(ledger: Ledger, number: str) -> Purchase:
    """A purchase by its number; raises UserError when there is none."""
    row = ledger.row("purchases", number)
    if row is None:
        raise UserError(f"There is no purchase {number}.")
    return PURCHASE.build(row)


def still_owed(ledger: Ledger, purchase: Purchase) -> tuple[str, ...]:
    """What the stock book and the purchase invoice still want to know of a purchase, in words."""
    if purchase.cancelled:
        return ()
    seller = person(ledger, purchase.seller)
    kind = purchase.seller_kind or (seller.kind if seller else "")
    wanted = {
        "seller's name": bool(seller and (seller.name or seller.erased)),
        "seller's address": bool(seller and (seller.address or seller.erased)),
        "seller's VAT standing": bool(kind),
        "how it was paid": bool(purchase.payment or purchase.payments),
        "the lot's split": len(purchase.items) < 2 or purchase.split is not None,
        "the seller's invoice number": kind not in ("margin scheme", "VAT shown")
        or bool(purchase.invoice_number),
        "a description": all(_described(ledger, number) for number in purchase.items),
    }
    return tuple(what for what, known in wanted.items() if not known)


def _described(ledger: Ledger, number: str) -> bool:
    row = ledger.row("items", number) or {}
    plated = row.get("denomination") and (row.get("plate") or row.get("letters"))
    return bool(row.get("issue") or row.get("words") or plated)


def all_owed(ledger: Ledger) -> list[tuple[Purchase, tuple[str, ...]]]:
    """Every purchase with something still to complete, the oldest first."""
    bought = sorted(
        (PURCHASE.build(dict(row)) for row in ledger.rows("purchases")), key=lambda each: each.date
    )
    return [(each, owed) for each in bought if (owed := still_owed(ledger, each))]


def complete_purchase(house: House, number: str, /, **details: str) -> Purchase:
    """Note details that were owed in one entry: seller, address, seller_kind, payment and the like.

    The address is the seller's. When it turns out that VAT is shown on the paper, the pieces leave
    the margin scheme. Raises UserError when one of them was sold under it already, or a detail is none;
    then nothing is noted.
    """
    ledger = house.ledger
    known = read_purchase(ledger, number)
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
        changes = [Change("people", named.id, PERSON.write(named))]
    changed: dict[str, Any] = dict(details)
    purchase = replace(known, **changed)
    own = purchase.seller_kind in ("private", "unregistered business")
    purchase = replace(purchase, self_invoiced=own)
    if purchase.seller_kind != known.seller_kind:
        changes += _schemes_again(house, purchase)
    changes.append(Change("purchases", number, PURCHASE.write(purchase)))
    ledger.note("purchase completed", changes)
    return purchase


def _addressed(ledger: Ledger, key: str, changes: Sequence[Change], address: str) -> Person:
    """The seller with an address, whether known before or only by these changes."""
    seller = next((PERSON.build(dict(each.row)) for each in changes if each.row), person(ledger, key))
    if seller is None:
        raise InputError("Say the seller's name first; the address belongs to a person.")
    return replace(seller, address=address)


def _schemes_again(house: House, purchase: Purchase) -> list[Change]:
    changes = []
    for number in purchase.items:
        row = house.ledger.row("items", number)
        if row is None:
            continue
        item = item_from_row(row)
        scheme = scheme_when_bought(house, "", purchase.seller_kind, item.cost, purchase.date)
        if scheme != "ordinary" or item.scheme in ("", "ordinary", "none"):
            continue
        if item.status == "sold":
            raise UserError(
                f"{number} was sold under the {item.scheme} scheme; refund that sale and sell it again "
                f"with ordinary VAT, or ask HMRC."
            )
        changes.append(Change("items", number, item_to_row(replace(item, scheme=scheme))))
    return changes
