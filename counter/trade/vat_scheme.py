"""Which way VAT is accounted for on a piece, and what speaks against the way chosen.

Margin scheme where it is eligible, global accounting within its limit, ordinary VAT for what is not
eligible, none while the dealer is not registered. Each refusal names the rule's source.
"""

from __future__ import annotations

from dataclasses import dataclass

from counter.store.records.sale import Sale
from counter.trade.terms import Terms
from counter.values.errors import UserError
from counter.values.item import SCHEMES, Item
from counter.values.money import percent_of, pounds, share
from counter.values.vat import (
    NO_VAT,
    fraction_words,
    least_full_price,
    least_price,
    on_full_price,
    on_margin,
)

#: Sellers whose goods may not go under a margin scheme (rules "not-eligible", "import-margin-option").
NOT_ELIGIBLE = ("VAT shown", "import")


_GLOBAL_LIMIT = "global-accounting-item"


@dataclass(frozen=True, slots=True)
class Accounted:
    """What VAT does to one line: `vat` is None under global accounting (worked out per period)."""

    scheme: str
    fraction: str
    vat: int | None


def scheme_when_bought(terms: Terms, chosen: str, seller_kind: str, cost: int | None) -> str:
    """The scheme a piece comes in under; "" leaves it open (while not registered). Raises UserError."""
    if chosen not in SCHEMES:
        raise UserError(f"{chosen} is not a scheme; use {', '.join(each for each in SCHEMES if each)}.")
    scheme = chosen
    if not scheme and terms.registered:
        scheme = _house_scheme(terms) if eligible(terms, seller_kind) else "ordinary"
        if seller_kind == "import" and scheme == "global":
            scheme = "margin"  # the option is for the margin scheme
        if scheme == "global" and cost is not None and over_limit(terms, cost):
            scheme = "margin"
    if scheme in ("margin", "global") and not eligible(terms, seller_kind):
        raise UserError(_why_not(seller_kind, scheme))
    if scheme == "global" and cost is not None and over_limit(terms, cost):
        limit = terms.limits.get(_GLOBAL_LIMIT)
        most = pounds(limit.amount) if limit else "the limit"
        raise UserError(
            f"{pounds(cost)} is above {most}, the most a piece may cost under global accounting; "
            f"use the margin scheme."
        )
    return scheme


def eligible(terms: Terms, seller_kind: str) -> bool:
    """Whether goods so bought may go under a scheme: imported ones from the day of the option on.

    Rules "not-eligible", "import-margin-option".
    """
    opted = terms.business.import_option_from
    if seller_kind == "import" and opted and opted <= terms.day:
        return True
    return seller_kind not in NOT_ELIGIBLE


def _why_not(seller_kind: str, scheme: str) -> str:
    if seller_kind == "VAT shown":
        return (
            f"VAT is shown on the seller's paper, so it cannot go under the {scheme} scheme; use "
            f"ordinary VAT."
        )
    return (
        f"It is imported, so it cannot go under the {scheme} scheme unless you opted: collectors' items "
        f"can, on notice to HMRC, for two years and all of them; note the day under import_option_from, "
        f"or use ordinary VAT and ask HMRC."
    )


def _house_scheme(terms: Terms) -> str:
    """What an eligible piece goes under on a day: global accounting not after it was left."""
    business = terms.business
    left = bool(business.global_until) and terms.day > business.global_until
    return "margin" if business.scheme == "global" and left else business.scheme


def scheme_when_sold(terms: Terms, item: Item) -> str:
    """The scheme a piece is sold under: its own, but opening stock's cost is in the pool already.

    Eligible stock on hand when global accounting began is part of the opening value (rule
    "ga-opening-stock"), so its cost may not count a second time under the margin scheme. After global
    accounting was left, what was in it sells under the margin scheme at its own cost (rule "ga-closing").
    """
    business = terms.business
    if business.in_global(terms.day) and of_opening_stock(terms, item):
        return "global"
    left = bool(business.global_until) and terms.day > business.global_until
    return "margin" if left and item.scheme == "global" else item.scheme


def of_opening_stock(terms: Terms, item: Item) -> bool:
    """Whether a piece's cost is within the opening value of global accounting."""
    business = terms.business
    old = bool(business.global_since) and item.noted < business.global_since
    eligible = item.scheme == "margin" and item.cost is not None and not over_limit(terms, item.cost)
    return bool(business.opening_stock_pence) and old and eligible


def warn_of_limit(terms: Terms, scheme: str, cost: int | None) -> str:
    """At exactly the global-accounting limit HMRC's pages point both ways: said, not refused."""
    limit = terms.limits.get(_GLOBAL_LIMIT)
    if scheme == "global" and limit and cost == limit.amount:
        return f"At exactly {pounds(cost)} HMRC's pages on global accounting point both ways: ask HMRC."
    return ""


def over_limit(terms: Terms, cost: int) -> bool:
    """Whether a piece costs more than global accounting allows."""
    limit = terms.limits.get(_GLOBAL_LIMIT)
    return limit is not None and cost > limit.amount


def line_prices(sale: Sale) -> dict[str, int]:
    """What the buyer pays for each piece: less its discount, with its share of the postage charged.

    Incidental charges tied to a sale belong to the selling price (rule "selling-price-includes").
    """
    net = [line.price_pence - line.discount_pence for line in sale.lines]
    if not sale.postage_pence:
        return {line.item: price for line, price in zip(sale.lines, net, strict=True)}
    weights = net if any(net) else [1] * len(net)
    postage = share(sale.postage_pence, weights) if net else ()
    return {line.item: price + part for line, price, part in zip(sale.lines, net, postage, strict=True)}


def account_for(
    terms: Terms,
    scheme: str,
    seller_kind: str,
    cost: int | None,
    price: int,
    *,
    exported: bool,
) -> Accounted:
    """The VAT of one line on the terms of the day of sale.

    A cost not known yet (a lot not split) leaves margin-scheme VAT open.
    """
    if not terms.registered:
        return Accounted("none", "", 0)
    used = scheme or ("ordinary" if seller_kind in NOT_ELIGIBLE else _house_scheme(terms))
    if used == "global" and cost is not None and over_limit(terms, cost):
        used = "margin"  # stock of before the scheme was chosen
    if used == "none":
        return Accounted("none", "", 0)
    part = NO_VAT if exported else terms.vat.part
    written = fraction_words(part)
    if used == "global":
        return Accounted(used, written, None)
    if used == "ordinary":
        return Accounted(used, written, on_full_price(0, price, part).vat)
    if cost is None:
        return Accounted(used, written, None)
    return Accounted(used, written, on_margin(cost, price, part).vat)


def floor_price(terms: Terms, item: Item) -> int | None:
    """The least price that leaves the house's least profit on a piece (habit "floor-price").

    None while its cost is not known. Never for a customer's eyes.
    """
    if item.cost is None:
        return None
    profit = percent_of(item.cost, terms.business.floor_percent)
    if not terms.registered or item.scheme == "none":
        return least_price(item.cost, profit, NO_VAT)
    part = terms.vat.part
    if item.scheme == "ordinary":
        return least_full_price(item.cost, profit, part)
    return least_price(item.cost, profit, part)
