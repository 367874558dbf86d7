"""Lots: the price shared between the pieces, written down with its basis and then left alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec.structs import replace

from counter.store.records.check import put
from counter.store.records.purchase import Purchase, Share, Split
from counter.store.records.sale import Sale
from counter.trade.buying import Bought
from counter.trade.filing import late_words
from counter.trade.settings import Settings
from counter.trade.vat_scheme import account_for, line_prices, over_limit, scheme_when_bought
from counter.values.errors import InputError, UserError
from counter.values.item import Item
from counter.values.money import pounds, share


def split_by_expected(settings: Settings, number: str, expected: Mapping[str, int], day: str) -> Bought:
    """Share a lot's price in proportion to expected prices by stock number, and freeze it."""
    lot = _open_lot(settings, number, list(expected))
    shares = share(lot.total_pence, list(expected.values()))
    parts = [Share(*each) for each in zip(expected, shares, expected.values(), strict=True)]
    return _freeze(settings, lot, Split(day, "expected prices", tuple(parts)))


def split_by_hand(settings: Settings, number: str, shares: Mapping[str, int], day: str) -> Bought:
    """Share a lot's price by given pence, which must come to the lot's price."""
    lot = _open_lot(settings, number, list(shares))
    if sum(shares.values()) != lot.total_pence or any(each < 0 for each in shares.values()):
        came_to = pounds(sum(shares.values()))
        raise InputError(f"The shares come to {came_to}; the lot cost {pounds(lot.total_pence)}.")
    return _freeze(settings, lot, Split(day, "by hand", tuple(Share(*each) for each in shares.items())))


def break_lot(
    settings: Settings, number: str, pieces: Sequence[Item], expected: Sequence[int], day: str
) -> Bought:
    """Break a lot that came in as one line (an album) into pieces by expected prices.

    The line itself is withdrawn. Raises UserError when it was split or sold already.
    """
    ledger = settings.ledger
    lot = ledger.purchases.of(number)
    if lot.split is not None or len(lot.items) != 1:
        raise UserError(_frozen(lot))
    kept = ledger.items.find(lot.items[0])
    if kept is None or kept.status != "in stock":
        raise UserError(f"{lot.items[0]} is not in stock, so it cannot be broken up.")
    if not pieces or len(pieces) != len(expected):
        raise InputError("Give each piece of the lot an expected price.")
    costs = share(lot.total_pence, expected)
    new = [
        replace(
            piece, number=ledger.next_number("items"), purchase=number, scheme=kept.scheme, noted=day
        )
        for piece in pieces
    ]
    parts = [
        Share(piece.number, cost, price)
        for piece, cost, price in zip(new, costs, expected, strict=True)
    ]
    gone = replace(
        kept,
        status="withdrawn",
        cost=0,
        remarks="\n".join(
            filter(None, (kept.remarks, f"broken up on {day} into {new[0].number} and on"))
        ),
    )
    whole = replace(lot, items=tuple(each.number for each in new))
    return _freeze(settings, whole, Split(day, "expected prices", tuple(parts)), new, [gone])


def _open_lot(settings: Settings, number: str, named: list[str]) -> Purchase:
    lot = settings.ledger.purchases.of(number)
    if lot.split is not None or len(lot.items) < 2:
        raise UserError(_frozen(lot))
    if set(named) != set(lot.items) or len(named) != len(lot.items):
        raise InputError(f"Give every piece of {number} its price: {', '.join(lot.items)}.")
    return lot


def _frozen(lot: Purchase) -> str:
    if lot.split is None:
        return f"{lot.id} is one piece; there is nothing to split."
    split = lot.split
    return f"{lot.id} was split on {split.date} {split.how}; the split stays as it was written."


def _freeze(
    settings: Settings, lot: Purchase, split: Split, new: Sequence[Item] = (), gone: Sequence[Item] = ()
) -> Bought:
    """Note the split, each piece's cost, and the VAT of pieces that were sold before it."""
    ledger, terms = settings.ledger, settings.on(lot.date)
    purchase = replace(lot, split=split)
    items = {each.number: each for each in new}
    done = []
    for part in split.shares:
        item = items.get(part.item) or ledger.items.find(part.item)
        if item is None:
            raise UserError(f"There is no piece {part.item}.")
        chosen = item.scheme
        if chosen == "global" and over_limit(terms, part.pence):
            chosen = "margin"  # rule "ga-bulk": a piece above the limit is taken out of the pool
        scheme = scheme_when_bought(terms, chosen, purchase.seller_kind, part.pence)
        done.append(replace(item, cost=part.pence, scheme=scheme))
    changes = [put(purchase), *map(put, (*done, *gone))]
    moved = list(_sold_before(settings, {each.number: each for each in done}, purchase))
    changes += map(put, moved)
    ledger.note("lot split", changes)
    told = [
        f"{sale.id} was sold before its lot was split: a split may not be fitted to what is known of "
        f"prices (rule lot-freeze); keep the reasons for it."
        for sale in moved
    ]
    told += late_words(settings, *(sale.date for sale in moved), lot.date)
    return Bought(purchase, tuple(done), tuple(changes), tuple(told))


def _sold_before(settings: Settings, items: Mapping[str, Item], lot: Purchase) -> Iterator[Sale]:
    found = {sale.id: sale for piece in items for sale in settings.ledger.sales.with_piece(piece)}
    costed = ((sale, _costed(settings, sale, items, lot)) for sale in found.values())
    return (now for before, now in costed if now != before)


def _costed(settings: Settings, sale: Sale, items: Mapping[str, Item], lot: Purchase) -> Sale:
    prices, terms = line_prices(sale), settings.on(sale.date)
    lines = []
    for line in sale.lines:
        if line.item in items and line.cost_pence is None and sale.status == "complete":
            cost = items[line.item].cost
            done = account_for(
                terms,
                line.scheme,
                lot.seller_kind,
                cost,
                prices[line.item],
                exported=sale.disposal == "exported",
            )
            line = replace(
                line,
                scheme=done.scheme,
                cost_pence=cost,
                vat_fraction=done.fraction,
                vat_pence=done.vat,
            )
        lines.append(line)
    return replace(sale, lines=tuple(lines))
