"""Two invented years of trade: lots bought at fairs, pieces sold again, every sum to the penny."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from random import Random
from typing import Any

from msgspec.structs import replace

from counter.values.item import Item
from counter.values.money import share
from counter.values.vat import on_margin

LAPTOP = "WK"
FIRST_DAY = date(2024, 3, 9)  # a Saturday
LAST_DAY = date(2026, 4, 25)
_VAT = Fraction(1, 6)
_PLACES = ("Tarrowby fair", "Wexholm fair", "Marlinghurst fair", "by post", "the shop")
_PAID = ("cash", "cash", "transfer", "cheque")
Row = dict[str, Any]


@dataclass
class Piece:
    """A piece on its way: as described, when bought and (or) sold, at what price."""

    item: Item
    bought: date
    sold: date | None = None
    cost: int | None = None  # only when written out by hand


def fair_days() -> list[date]:
    """Every second Saturday of the two years."""
    span = (LAST_DAY - FIRST_DAY).days
    return [FIRST_DAY + timedelta(days=day) for day in range(0, span + 1, 14)]


def purchases(rng: Random, pieces: list[Piece], sellers: Sequence[Row]) -> list[Row]:
    """Lots in order of date: numbers the pieces and gives each its share of its lot as cost."""
    pieces.sort(key=lambda each: each.bought)
    rows: list[Row] = []
    start = 0
    while start < len(pieces):
        day = pieces[start].bought
        size = rng.choice((1, 1, 2, 3, 5, 8, 12))
        by_hand = pieces[start].cost is not None
        end = start + 1
        while (
            end < min(start + size, len(pieces))
            and pieces[end].bought == day
            and (pieces[end].cost is not None) == by_hand
        ):
            end += 1
        rows.append(_lot(rng, pieces[start:end], start, len(rows) + 1, sellers))
        start = end
    return rows


def _lot(rng: Random, lot: list[Piece], before: int, number: int, sellers: Sequence[Row]) -> Row:
    expected = [piece.item.asking or 0 for piece in lot]
    by_hand = lot[0].cost is not None
    total = sum(piece.cost or 0 for piece in lot)
    if not by_hand:
        total = max(50, sum(expected) * rng.randint(38, 58) // 100 // 50 * 50)
    parts = [piece.cost or 0 for piece in lot] if by_hand else share(total, expected)
    lot_id, day = f"{LAPTOP}-P{number}", lot[0].bought.isoformat()
    for place, (piece, part) in enumerate(zip(lot, parts, strict=True)):
        name = f"{LAPTOP}-{before + place + 1}"
        piece.item = replace(
            piece.item, number=name, cost=part, purchase=lot_id, scheme="margin", noted=day
        )
    shares = [
        {"item": piece.item.number, "pence": part, "expected_pence": price}
        for piece, part, price in zip(lot, parts, expected, strict=True)
    ]
    basis = "single" if len(lot) == 1 else "by hand" if by_hand else "expected prices"
    row: Row = {
        "id": lot_id,
        "date": day,
        "total_pence": total,
        "description": "single piece" if len(lot) == 1 else f"lot of {len(lot)} pieces",
        "items": [piece.item.number for piece in lot],
        "payment": rng.choice(_PAID),
        "place": rng.choice(_PLACES),
        "split": {"date": day, "basis": basis, "shares": shares},
        "scheme": "margin",
    }
    return row | _seller(rng, number, sellers)


def _seller(rng: Random, number: int, sellers: Sequence[Row]) -> Row:
    """Who sold it; a few purchases still owe the seller's name."""
    if number % 25 == 0:
        return {}
    seller = rng.choice(sellers)
    kind = "private" if seller["kind"] == "business" else seller["kind"]
    paper = (
        {"self_invoiced": True, "invoice_number": f"{LAPTOP}-PI{number}"}
        if kind == "private"
        else {"invoice_number": str(1000 + 7 * number)}
    )
    return {"seller": seller["id"], "seller_kind": kind, **paper}


def sales(rng: Random, pieces: Sequence[Piece], buyers: Sequence[Row]) -> list[Row]:
    """Sales in order of date, one to three pieces each, now and then with a discount."""
    gone = sorted((piece for piece in pieces if piece.sold), key=lambda each: str(each.sold))
    rows: list[Row] = []
    start = 0
    while start < len(gone):
        size, end = rng.choice((1, 1, 1, 2, 3)), start + 1
        while end < min(start + size, len(gone)) and gone[end].sold == gone[start].sold:
            end += 1
        rows.append(_sale(rng, gone[start:end], len(rows) + 1, buyers))
        start = end
    return rows


def _sale(rng: Random, sold: Sequence[Piece], number: int, buyers: Sequence[Row]) -> Row:
    prices = [piece.item.asking or 0 for piece in sold]
    discount = sum(prices) * rng.choice((0, 0, 0, 5, 10)) // 100 // 50 * 50
    off = share(discount, prices)
    lines = [_line(*each) for each in zip(sold, prices, off, strict=True)]
    day, total = str(sold[0].sold), sum(prices) - discount
    row: Row = {
        "id": f"{LAPTOP}-S{number}",
        "date": day,
        "lines": lines,
        "payments": [{"date": day, "method": rng.choice(("cash", "card", "card")), "pence": total}],
        "total_pence": total,
        "invoice_number": f"{LAPTOP}-I{number}",
        "place": rng.choice(_PLACES),
    }
    if discount:
        row["discount_pence"] = discount
    if rng.random() < 0.4:
        row |= {"buyer": rng.choice(buyers)["id"], "buyer_kind": "private"}
    return row


def _line(piece: Piece, price: int, off: int) -> Row:
    cost = piece.item.cost or 0
    vat = on_margin(cost, price - off, _VAT).vat
    line: Row = {"item": piece.item.number, "price_pence": price, "scheme": "margin"}
    line |= {"cost_pence": cost, "vat_fraction": "1/6", "vat_pence": vat}
    return line | ({"discount_pence": off} if off else {})


def on_approval(pieces: Sequence[Piece], buyers: Sequence[Row], before: int) -> list[Row]:
    """Three covers out on approval at the end of the demo's time."""
    out = [each for each in pieces if not each.sold and each.item.attachment and each.cost is None]
    rows: list[Row] = []
    for piece, buyer in zip(out[:3], buyers, strict=False):
        piece.item = replace(piece.item, status="on approval")
        rows.append(
            {
                "id": f"{LAPTOP}-S{before + len(rows) + 1}",
                "date": LAST_DAY.isoformat(),
                "lines": [{"item": piece.item.number, "price_pence": piece.item.asking or 0}],
                "status": "on approval",
                "due_back": (LAST_DAY + timedelta(days=21)).isoformat(),
                "buyer": buyer["id"],
                "total_pence": piece.item.asking or 0,
            }
        )
    return rows


def quotes(pieces: Sequence[Piece], buyers: Sequence[Row]) -> list[Row]:
    """Two quotes still open: a pair of blacks and a run of plate numbers."""
    rows: list[Row] = []
    for start, size in (("penny_black", 2), ("penny_red_four", 4)):
        stock = [each.item for each in pieces if not each.sold and each.item.issue.startswith(start)]
        prices = [item.asking or 0 for item in stock[:size]]
        lines = [
            {"item": item.number, "price_pence": price}
            for item, price in zip(stock, prices, strict=False)
        ]
        rows.append(
            {
                "id": f"{LAPTOP}-Q{len(rows) + 1}",
                "date": LAST_DAY.isoformat(),
                "lines": lines,
                "total_pence": sum(prices),
                "valid_until": (LAST_DAY + timedelta(days=30)).isoformat(),
                "customer": buyers[len(rows) + 4]["id"],
            }
        )
    return rows
