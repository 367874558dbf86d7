"""Coming back: a refund, an allowance, what is owed after them, and what a refund still owes.

A refund first cancels what the buyer owes, and pays back at most what was paid, the way it was paid.
Each is a row of its own, dated the day it happened; the sale stays as it was written.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from msgspec.structs import replace

from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.money import PAYMENTS, Payment
from counter.store.records.sale import Sale, SaleLine
from counter.trade.filing import late_words
from counter.trade.selling import Sold
from counter.trade.settings import Settings
from counter.trade.vat_scheme import line_prices
from counter.values.errors import InputError, UserError
from counter.values.item import Item
from counter.values.money import pounds, share
from counter.values.vat import vat_within


@dataclass(frozen=True, slots=True)
class Allowing:
    """On which day and which pieces an allowance is made (none named: all that are left)."""

    day: str
    pieces: Collection[str] = ()


def to_pay(sale: Sale, refunds: Iterable[Sale] = ()) -> int:
    """What is still owed on a sale after its `refunds`, in pence; below nought it is owed to the buyer."""
    credited = sum(each.total_pence for each in refunds)
    return sale.total_pence - credited - sum(_paid_by(sale, refunds).values())


def _paid_by(sale: Sale, refunds: Iterable[Sale]) -> Counter[str]:
    """What is held of each way of paying, the latest first; paid back is taken off."""
    held: Counter[str] = Counter()
    for deal in (sale, *refunds):
        for each in reversed(deal.made):
            held[each.method] += each.pence
    return held


def note_refund(
    settings: Settings, number: str, pieces: Collection[str], day: str, reason: str, method: str = ""
) -> Sold:
    """Take pieces of a sale back (all that are left when none is named) and pay back what was paid.

    The refund has the sale's own figures, which the book takes off in the period of `day`; each piece
    returns to stock under its own number and cost, unless another sale holds it. `method` "" pays
    back the way it was paid. Raises UserError; then nothing changed.
    """
    ledger = settings.ledger
    sale, refunds = _refundable(ledger, number, day, reason, method)
    gone = ledger.sales.refunded(number)
    pieces = pieces or [line.item for line in sale.lines if line.item not in gone]
    must_hold(sale, pieces)
    again = sorted(gone & set(pieces)) or ([] if pieces else sorted(gone))
    if again:
        raise UserError(f"{', '.join(again)} of {number} was refunded already.")
    lines = tuple(line for line in sale.lines if line.item in pieces)
    refund = _credit(sale, _allowed_off(lines, refunds), day, _postage(sale, lines))
    refund, told = _paid_back(sale, refunds, refund, method)
    refund = replace(refund, id=ledger.next_number("sales"), reason=reason)
    freed = free_again(ledger, refund.pieces, number)
    changes = (put(refund), *(put(replace(item, status="in stock")) for item in freed))
    ledger.note("refund", changes)
    return Sold(refund, changes, (*told, *late_words(settings, day)))


def note_allowance(
    settings: Settings, number: str, pence: int, how: Allowing, reason: str, method: str = ""
) -> Sold:
    """Pay some of the price back while the buyer keeps the pieces.

    The price falls, and the VAT on it with it, in the period of the day. Raises UserError.
    """
    ledger = settings.ledger
    sale, refunds = _refundable(ledger, number, how.day, reason, method)
    must_hold(sale, how.pieces)
    gone = ledger.sales.refunded(number)
    kept = [line for line in sale.lines if line.item not in gone]
    lines = _allowed_off([each for each in kept if not how.pieces or each.item in how.pieces], refunds)
    net = [line.price_pence - line.discount_pence for line in lines]
    if not 0 < pence <= sum(net):
        raise InputError(f"Allow between 1p and {pounds(sum(net))} on {number}.")
    charged = {line.item: _postage(sale, [line]) for line in sale.lines}
    postage = [charged[line.item] for line in lines]
    parts = zip(lines, share(pence, net), postage, strict=True)
    allowed = tuple(_less(*each) for each in parts if each[1])
    credit = replace(_credit(sale, allowed, how.day, 0), allowance=True)
    credit, told = _paid_back(sale, refunds, credit, method)
    credit = replace(credit, id=ledger.next_number("sales"), reason=reason)
    ledger.note("allowance", [put(credit)])
    return Sold(credit, (put(credit),), (*told, *late_words(settings, how.day)))


def pay_refund(settings: Settings, refund: Sale, method: str, day: str, pence: int | None) -> Sold:
    """Pay out what a refund still owes the buyer, all when `pence` is None. Raises UserError."""
    owed = -refund.noted_owed
    if owed <= 0:
        raise UserError(f"Nothing is owed on {refund.id}.")
    paid = part_of("Pay back", owed, pence, method)
    if day < refund.date:
        raise UserError(f"{refund.id} is of {refund.date}; it cannot have been paid on {day}.")
    made = (*refund.made, Payment(day, method, -paid))
    left = (Payment(refund.date, "owed", paid - owed),) if paid < owed else ()
    refund = replace(refund, payments=(*made, *left))
    settings.ledger.note("refund paid", [put(refund)])
    return Sold(refund, (put(refund),))


def ways_back(sale: Sale, refunds: Sequence[Sale], pence: int, method: str) -> dict[str, int]:
    """How so much goes back: the ways it was paid, the latest first, or by `method`.

    For goods taken in, which come last, `method` must be said. Cash goes back only for those and for
    cash: a card paid back in cash is the commonest fraud at a till (common practice). Raises UserError.
    """
    held = {way: sum_ for way, sum_ in _paid_by(sale, refunds).items() if sum_ > 0}
    goods = held.pop("exchange", 0)
    if method and not goods:
        if method == "cash" and pence > held.get("cash", 0):
            ways = " and ".join(way for way in held if way != "cash")
            raise UserError(
                f"{sale.id} was paid by {ways}; pay {pounds(pence)} back by {ways}, not in cash."
            )
        return {method: pence} if pence else {}
    back: dict[str, int] = {}
    left = pence
    for way, sum_ in held.items():
        if left:
            back[way] = min(left, sum_)
            left -= back[way]
    if left and not method:
        raise InputError(
            f"{sale.id} was paid with goods taken in; say how {pounds(left)} is paid back."
        )
    return back | ({method: back.get(method, 0) + left} if left else {})


def _paid_back(
    sale: Sale, refunds: Sequence[Sale], credit: Sale, method: str
) -> tuple[Sale, tuple[str, ...]]:
    """The credit with its payments, after what is owed is cancelled, and what to say of that."""
    owed = to_pay(sale, refunds)
    back = min(credit.total_pence, max(0, credit.total_pence - owed))
    ways = ways_back(sale, refunds, back, method)
    made = tuple(Payment(credit.date, way, -pence) for way, pence in ways.items())
    cancelled = credit.total_pence - back
    said = f"{pounds(cancelled)} of it was owed and is no longer." if cancelled else ""
    how = ", ".join(f"{pounds(pence)} by {way}" for way, pence in ways.items())
    paid = f"Paid back: {how or 'nothing'}."
    return replace(credit, payments=made), tuple(filter(None, (said, paid)))


def _refundable(
    ledger: Ledger, number: str, day: str, reason: str, method: str
) -> tuple[Sale, list[Sale]]:
    sale = ledger.sales.of(number)
    if sale.status != "complete" or sale.refund_of or not sale.went:
        raise UserError(f"{number} is not a complete sale, so nothing of it can be refunded.")
    if day < sale.date:
        raise UserError(f"{number} was sold on {sale.date}; it cannot have come back on {day}.")
    if not reason.strip():
        raise InputError("A refund needs a reason.")
    if method and (method not in PAYMENTS or method == "exchange"):
        ways = ", ".join(each for each in PAYMENTS if each != "exchange")
        raise InputError(f"{method} is not a way to pay back; use {ways}.")
    return sale, ledger.sales.refunds(number)


def must_hold(sale: Sale, pieces: Collection[str]) -> None:
    """Raises InputError for pieces that are not in a sale."""
    strange = set(pieces) - set(sale.pieces)
    if strange:
        raise InputError(f"{', '.join(sorted(strange))} is not in {sale.id}.")


def free_again(ledger: Ledger, numbers: Iterable[str], sale: str) -> list[Item]:
    """The pieces no other sale holds: one sold on two laptops stays sold when one is taken back."""
    items = (ledger.items.find(each) for each in numbers)
    return [
        item
        for item in items
        if item and all(each.id == sale for each in ledger.sales.holding(item.number))
    ]


def part_of(verb: str, owed: int, pence: int | None, method: str) -> int:
    """What is paid of what is owed, all when `pence` is None. Raises InputError."""
    paid = owed if pence is None else pence
    if not 0 < paid <= owed or method not in PAYMENTS or method == "owed":
        raise InputError(f"{verb} between 1p and {pounds(owed)} by {', '.join(PAYMENTS[:4])}.")
    return paid


def _postage(sale: Sale, lines: Sequence[SaleLine]) -> int:
    """The postage of some lines: their share of what was charged."""
    prices = line_prices(sale)
    return sum(prices[line.item] - line.price_pence + line.discount_pence for line in lines)


def _credit(sale: Sale, lines: tuple[SaleLine, ...], day: str, postage: int) -> Sale:
    """The credited part of a sale as a row of its own, not numbered yet."""
    discount = sum(line.discount_pence for line in lines)
    return Sale(
        id=sale.id,
        date=day,
        lines=lines,
        discount_pence=discount,
        postage_pence=postage,
        total_pence=sum(line.price_pence for line in lines) - discount + postage,
        disposal=sale.disposal,
        buyer=sale.buyer,
        buyer_kind=sale.buyer_kind,
        vat_shown=sale.vat_shown,
        refund_of=sale.id,
    )


def _allowed_off(lines: Sequence[SaleLine], refunds: Iterable[Sale]) -> tuple[SaleLine, ...]:
    """The lines at what is left of their price and VAT after the allowances made on them."""
    left = {line.item: line for line in lines}
    for allowed in (line for each in refunds if each.allowance for line in each.lines):
        if line := left.get(allowed.item):
            vat = None if line.vat_pence is None else line.vat_pence - (allowed.vat_pence or 0)
            price = line.price_pence - allowed.price_pence
            left[line.item] = replace(line, price_pence=price, vat_pence=vat)
    return tuple(left.values())


def credited_again(sale: Sale, refunds: Sequence[Sale]) -> list[Sale]:
    """The refunds and allowances of a sale whose cost or VAT was put right, with theirs put right too."""
    done: list[Sale] = []
    for each in refunds:
        left = {line.item: line for line in _allowed_off(sale.lines, done)}
        if each.allowance:
            pence = {line.item: line.price_pence for line in each.lines}
            charged = {line.item: _postage(sale, [line]) for line in sale.lines}
            lines = [_less(left[item], sum_, charged[item]) for item, sum_ in pence.items()]
        else:
            lines = [left[line.item] for line in each.lines]
        done.append(replace(each, lines=tuple(lines)))
    return done


def _less(line: SaleLine, pence: int, postage: int) -> SaleLine:
    """So much of a line's price with the VAT that falls away with it; no cost: the piece is kept."""
    vat = line.vat_pence
    if vat:
        price = line.price_pence - line.discount_pence + postage - pence
        taxed = price if line.scheme == "ordinary" else price - (line.cost_pence or 0)
        vat -= min(vat, vat_within(taxed, Fraction(line.vat_fraction)))
    return replace(line, price_pence=pence, discount_pence=0, cost_pence=0, vat_pence=vat)
