"""Lots: the price shared between the pieces, written down with its basis and then left alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from counter.store.entry import Change
from counter.store.records.purchase import PURCHASE, Purchase, Share, Split
from counter.store.records.sale import SALE, Sale
from counter.trade.buying import Bought, read_purchase
from counter.trade.selling import line_prices
from counter.trade.settings import House
from counter.trade.vat_scheme import account_for, over_limit, scheme_when_bought
from counter.values.errors import InputError, UserError
from counter.values.item import Item, item_from_row, item_to_row
from counter.values.money import pounds, share


def split_by_expected(house: House, number: str, expected: Mapping[str, int], day: str) -> Bought:
    """Share a lot's price in proportion to expected prices by stock number, and freeze it."""
    lot = _open_lot(house, number, list(expected))
    shares = share(lot.total_pence, list(expected.values()))
    parts = [Share(*each) for each in zip(expected, shares, expected.values(), strict=True)]
    return _freeze(house, lot, Split(day, "expected prices", tuple(parts)))


def split_by_hand(house: House, number: str, shares: Mapping[str, int], day: str) -> Bought:
    """Share a lot's price by given pence, which must come to the lot's price."""
    lot = _open_lot(house, number, list(shares))
    if sum(shares.values()) != lot.total_pence or any(each < 0 for each in shares.values()):
        came_to = pounds(sum(shares.values()))
        raise InputError(f"The shares come to {came_to}; the lot cost {pounds(lot.total_pence)}.")
    return _freeze(house, lot, Split(day, "by hand", tuple(Share(*each) for each in shares.items())))


def break_lot(
    house: House, number: str, pieces: Sequence[Item], expected: Sequence[int], day: str
) -> Bought:
    """Break a lot that came in as one line (an album) into pieces by expected prices.

    The line itself is withdrawn. Raises UserError when it was split or sold already.
    """
    ledger = house.ledger
    lot = read_purchase(ledger, number)
    if lot.split is not None or len(lot.items) != 1:
        raise UserError(_frozen(lot))
    row = ledger.row("items", lot.items[0])
    if row is None or row.get("status", "in stock") != "in stock":
        raise UserError(f"{lot.items[0]} is not in stock, so it cannot be broken up.")
    if not pieces or len(pieces) != len(expected):
        raise InputError("Give each piece of the lot an expected price.")
    costs = share(lot.total_pence, expected)
    kept = item_from_row(row)
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
    return _freeze(house, whole, Split(day, "expected prices", tuple(parts)), new, [gone])


def _open_lot(house: House, number: str, named: list[str]) -> Purchase:
    lot = read_purchase(house.ledger, number)
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
    house: House, lot: Purchase, split: Split, new: Sequence[Item] = (), gone: Sequence[Item] = ()
) -> Bought:
    """Note the split, each piece's cost, and the VAT of pieces that were sold before it."""
    ledger = house.ledger
    purchase = replace(lot, split=split)
    items = {each.number: each for each in new}
    done = []
    for part in split.shares:
        row = ledger.row("items", part.item)
        item = items.get(part.item) or (item_from_row(row) if row else None)
        if item is None:
            raise UserError(f"There is no piece {part.item}.")
        chosen = item.scheme
        if chosen == "global" and over_limit(house, part.pence, purchase.date):
            chosen = "margin"  # rule "ga-bulk": a piece above the limit is taken out of the pool
        scheme = scheme_when_bought(house, chosen, purchase.seller_kind, part.pence, purchase.date)
        done.append(replace(item, cost=part.pence, scheme=scheme))
    changes = [Change("purchases", lot.id, PURCHASE.write(purchase))]
    changes += [Change("items", each.number, item_to_row(each)) for each in (*done, *gone)]
    changes += _sold_before(house, {each.number: each for each in done}, purchase)
    ledger.note("lot split", changes)
    return Bought(purchase, tuple(done), tuple(changes))


def _sold_before(house: House, items: Mapping[str, Item], lot: Purchase) -> list[Change]:
    changes = []
    for row in house.ledger.rows("sales"):
        if not any(line["item"] in items for line in row.get("lines", ())):
            continue
        sale = SALE.build(dict(row))
        changes.append(Change("sales", sale.id, SALE.write(_costed(house, sale, items, lot))))
    return changes


def _costed(house: House, sale: Sale, items: Mapping[str, Item], lot: Purchase) -> Sale:
    prices = line_prices(sale)
    lines = []
    for line in sale.lines:
        if line.item in items and line.cost_pence is None and sale.status == "complete":
            cost = items[line.item].cost
            done = account_for(
                house,
                line.scheme,
                lot.seller_kind,
                cost,
                prices[line.item],
                sale.date,
                exported=sale.disposal == "exported",
            )
            line = replace(line, cost_pence=cost, vat_fraction=done.fraction, vat_pence=done.vat)
        lines.append(line)
    return replace(sale, lines=tuple(lines))
