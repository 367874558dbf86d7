"""The purchase line taken apart: what, price, payment, seller. Nothing typed is dropped.

"bt 2d blue 1841 pl 3 KC 4 margins £45 cash harrow"; several pieces are parted by ";", each with its
expected price after "@" if the lot is to be split at once: "1d black KC @80; 2d blue @45 £60 cash".
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from counter.values.currency import Currency, read_money
from counter.values.errors import InputError
from counter.values.money import read_amount, read_pence

_VERB = re.compile(r"\s*(?:bt|bot|bought|buy)\b[\s:]*", re.IGNORECASE)
_FIGURE = r"(?:[0-9][0-9,]*(?:\.[0-9]*)?|\.[0-9]+)"
_PAYMENTS = {
    "cash": "cash",
    "card": "card",
    "transfer": "transfer",
    "bank": "transfer",
    "cheque": "cheque",
    "chq": "cheque",
    "exchange": "exchange",
    "px": "exchange",
    "owed": "owed",
}
_PAID = re.compile(rf"\b(?:{'|'.join(_PAYMENTS)})\b", re.IGNORECASE)
_KINDS = {
    "private": "private",
    "unregistered": "unregistered business",
    "margin": "margin scheme",
    "vat": "VAT shown",
    "vat shown": "VAT shown",
    "import": "import",
}
_EXPECTED = re.compile(rf"\s*@\s*£?\s*({_FIGURE})\s*$")


@dataclass(frozen=True, slots=True)
class DealLine:
    """A purchase line: the words of each piece with its expected price (pence), and the rest.

    `amount` is in minor units of `currency`; payment, seller and kind are "" when not said.
    """

    pieces: tuple[tuple[str, int | None], ...]
    amount: int
    currency: Currency
    payment: str
    seller: str
    seller_kind: str
    words: str


def read_deal_line(text: str, currencies: Mapping[str, Currency]) -> DealLine:
    """Take a purchase line apart. Raises InputError when there is no price, or nothing bought."""
    words = " ".join(text.split())
    verb = _VERB.match(words)
    body = words[verb.end() :] if verb else words
    start, end = _price_at(body, currencies)
    amount, currency = read_money(body[start:end], currencies, currencies["GBP"])
    head, tail = body[:start].strip(), body[end:].strip()
    payment, head, tail = _payment(head, tail)
    if not head and " from " in f" {tail}":
        head, _, tail = f" {tail}".partition(" from ")
    elif not head:
        head, tail = tail, ""
    seller, kind = _seller(tail)
    pieces = tuple(_piece(each) for each in head.split(";") if each.strip())
    if not pieces:
        raise InputError("Say what was bought before the price, as: 2d blue pl 3 KC £45 cash.")
    if len({expected is None for _, expected in pieces}) > 1:
        raise InputError("Give an expected price (@80) to every piece, or to none and split later.")
    return DealLine(pieces, amount, currency, payment, seller, kind, words)


def _price_at(body: str, currencies: Mapping[str, Currency]) -> tuple[int, int]:
    """The last sum with a sign of its currency, else a bare figure beside the payment's word.

    The last, because £1 and £5 are stamps as well.
    """
    signs = "|".join(
        sorted(
            {re.escape(each) for known in currencies.values() for each in (known.symbol, known.code)},
            key=len,
            reverse=True,
        )
    )
    # An unknown sign or code, a minus or a third decimal is taken along, so that it can be refused.
    sum_ = (
        rf"(?:(?:{signs})\s?-?{_FIGURE}|-£?\s?{_FIGURE}|{_FIGURE}\s?(?:{signs}|p)|[^\w\s@;,.]{_FIGURE})"
    )
    found = [
        each
        for each in re.finditer(rf"(?<![^\s]){sum_}(?![^\s,])", body, re.IGNORECASE)
        if each[0][0] != "@"
    ]
    if found:
        return found[-1].span()
    # three capitals before a bare figure are a currency, known or not: never taken for sterling
    paid = "|".join(_PAYMENTS)
    beside = re.search(rf"(?<!\S)((?:[A-Z]{{3}}\s?)?{_FIGURE})(?=\s(?i:{paid})\b)", body)
    if beside is None:
        raise InputError("Say what was paid, with its sign: £45.")
    return beside.span(1)


def _payment(head: str, tail: str) -> tuple[str, str, str]:
    """The way of paying, from right after the price or right before it, and what is left."""
    after = _PAID.match(tail)
    if after:
        return _PAYMENTS[after[0].lower()], head, tail[after.end() :].strip()
    *_, before = [None, *_PAID.finditer(head)]
    if before and before.end() == len(head):
        return _PAYMENTS[before[0].lower()], head[: before.start()].strip(), tail
    return "", head, tail


def _seller(tail: str) -> tuple[str, str]:
    """The seller's name and, from a bracket, the standing for VAT: "harrow (private)"."""
    name = re.sub(r"^(?:from|of)\s+", "", tail.strip(" ,;"), flags=re.IGNORECASE)
    bracket = re.search(r"\s*\(([^()]*)\)$", name)
    if bracket is None:
        return name, ""
    said = bracket[1].strip().lower()
    if said not in _KINDS:
        raise InputError(f"({bracket[1]}) is not a seller's standing; write {', '.join(_KINDS)}.")
    return name[: bracket.start()].strip(), _KINDS[said]


def _piece(text: str) -> tuple[str, int | None]:
    found = _EXPECTED.search(text)
    if found is None:
        return text.strip(), None
    return text[: found.start()].strip(), read_amount(found[1], 2, "an expected price")


def read_prices(words: list[str]) -> list[tuple[str, int | None]]:
    """Stock numbers with prices, as "WK-1=72.50" or "WK-1": (number, pence or None).

    Raises InputError where the number or the sum cannot be one.
    """
    found = []
    for each in words:
        number, sign, price = each.partition("=")
        if not number.strip():
            raise InputError("Say which stock number, as WK-1=72.50.")
        found.append((number.strip().upper(), read_pence(price) if sign else None))
    return found
