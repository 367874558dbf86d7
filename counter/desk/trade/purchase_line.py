"""The purchase line taken apart: what, price, payment, seller. Nothing typed is dropped.

"bt 2d blue 1841 pl 3 KC 4 margins £45 cash harrow"; several pieces are parted by ";", each with its
expected price after "@" if the lot is to be split at once: "1d black KC @80; 2d blue @45 £60 cash".
Each with its own price is paid the sum of them: "1d black £8; 2d blue £9 cash". Sums with ways to pay are
parts of one price: "£20 cash £25 cheque", or "£45 cash £20 cheque £25", which must add up.
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
#: A sum among the words of a piece is its face: in pence, or one of the high values that were issued.
_FACES = (100, 200, 300, 500, 1000)
_BETWEEN = re.compile(r"[\s,:+]*(?:(?:and|by|in|as)\s+)?", re.IGNORECASE)
#: What a run of sums (S) and ways to pay (M) may look like when there is more than one sum.
_PARTS = re.compile(r"S?(?:SM){2,}|(?:MS){2,}|SSM|S(?:MS){2,}")
_EXPECTED = re.compile(rf"\s*@\s*£?\s*({_FIGURE})\s*$")


@dataclass(frozen=True, slots=True)
class DealLine:
    """A purchase line: the words of each piece with its expected price (pence), and the rest.

    `amount` is in minor units of `currency`; payment, seller and kind are "" when not said. `shares` is
    the price of each piece where each has its own, `parts` the sums it was paid in, by way.
    """

    pieces: tuple[tuple[str, int | None], ...]
    amount: int
    currency: Currency
    payment: str
    seller: str
    seller_kind: str
    words: str
    shares: tuple[int, ...] = ()
    parts: tuple[tuple[str, int], ...] = ()


def read_deal_line(text: str, currencies: Mapping[str, Currency]) -> DealLine:
    """Take a purchase line apart. Raises InputError when there is no price, or nothing bought."""
    words = " ".join(text.split())
    verb = _VERB.match(words)
    body = words[verb.end() :] if verb else words
    body, shares = _own_prices(body, currencies)
    run = _price_at(body, currencies)
    amount, currency, payment, parts = _paid(run, currencies)
    head, tail = body[: run[0].start].strip(" ,:"), body[run[-1].end :].strip()
    if not payment and not parts:
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
    if shares:
        shares = (*shares, amount)
        if parts or currency.code != "GBP" or len(shares) != len(pieces) or pieces[0][1] is not None:
            raise InputError(
                f"Give each piece its words and one price in pounds, or one for all: {words}."
            )
        amount = sum(shares)
    return DealLine(pieces, amount, currency, payment, seller, kind, words, shares, parts)


@dataclass(frozen=True, slots=True)
class _Token:
    """A sum ("S") or a way to pay ("M") in the line, and where it stands."""

    what: str
    start: int
    end: int
    text: str


def _own_prices(body: str, currencies: Mapping[str, Currency]) -> tuple[str, tuple[int, ...]]:
    """Where each piece before the last ends in its own price: the line without them, and they."""
    *before, last = body.split(";")
    ends = [(each.strip(), _sums(each.strip(), currencies)) for each in before]
    closed = [bool(sums) and sums[-1].end == len(each) for each, sums in ends]
    if not any(closed):
        return body, ()
    if not all(closed):
        raise InputError("Some pieces have a price of their own: give every piece one, or one for all.")
    gbp = currencies["GBP"]
    read = [read_money(sums[-1].text, currencies, gbp) for _, sums in ends]
    if any(currency.code != "GBP" for _, currency in read):
        raise InputError("Prices of single pieces are in pounds; write one price for all.")
    for each, sums in ends:
        _only_faces(each, sums[:-1], currencies)
    kept = [each[: sums[-1].start].strip() for each, sums in ends]
    if not all(kept):
        raise InputError("Say what was bought before each price, as: 1d black £8; 2d blue £9 cash.")
    return "; ".join([*kept, last.strip()]), tuple(amount for amount, _ in read)


def _sums(body: str, currencies: Mapping[str, Currency]) -> list[_Token]:
    """Every sum with a sign of its currency; an expected price after "@" is none."""
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
    return [
        _Token("S", each.start(), each.start() + len(each[0].rstrip(",")), each[0].rstrip(","))
        for each in re.finditer(rf"(?<![^\s])(?<!@)(?<!@ ){sum_}(?![^\s,:;])", body, re.IGNORECASE)
        if each[0][0] != "@"
    ]


def _price_at(body: str, currencies: Mapping[str, Currency]) -> list[_Token]:
    """The last sum with a sign, with the sums and ways to pay beside it; else a bare figure.

    The last, because £1 and £5 are stamps as well; any other sum before it is refused.
    """
    found = _sums(body, currencies)
    if not found:
        # three capitals before a bare figure are a currency, known or not: never taken for sterling
        paid = "|".join(_PAYMENTS)
        beside = re.search(rf"(?<!\S)((?:[A-Z]{{3}}\s?)?{_FIGURE})(?=\s(?i:{paid})\b)", body)
        if beside is None:
            raise InputError("Say what was paid, with its sign: £45.")
        if re.search(rf"(?<!\S){_FIGURE}\s(?i:{paid})\b", body[beside.end() :]):
            raise InputError(
                "There are several sums; write them with their sign, as £20 cash £25 cheque."
            )
        return [_Token("S", *beside.span(1), beside[1])]
    ways = [_Token("M", *each.span(), each[0].lower()) for each in _PAID.finditer(body)]
    every = sorted((*found, *ways), key=lambda each: each.start)
    last = every.index(found[-1])
    first = last
    while first and _BETWEEN.fullmatch(body[every[first - 1].end : every[first].start]):
        first -= 1
    run = every[first : last + 1]
    after = every[last + 1 : last + 2]
    if after and not body[run[-1].end : after[0].start].strip():
        run += after
    if sum(each.what == "S" for each in run) < 2:
        run = [found[-1]]
    _only_faces(body, [each for each in found if each not in run], currencies)
    return run


def _only_faces(body: str, sums: list[_Token], currencies: Mapping[str, Currency]) -> None:
    """Raises InputError for a sum among the words that cannot be the face of a stamp."""
    for each in sums:
        amount, currency = read_money(each.text, currencies, currencies["GBP"])
        pence = each.text.rstrip()[-1] in "pP"
        if currency.code != "GBP" or not (pence or amount in _FACES):
            raise InputError(
                f"There are several sums, {each.text} among them: give every piece its price, as "
                f"1d black £8; 2d blue £9 cash, or each way to pay its part, as £20 cash £25 cheque."
            )


def _paid(
    run: list[_Token], currencies: Mapping[str, Currency]
) -> tuple[int, Currency, str, tuple[tuple[str, int], ...]]:
    """The price of a run of sums and ways to pay: amount, currency, one way, or the parts."""
    sums = [read_money(each.text, currencies, currencies["GBP"]) for each in run if each.what == "S"]
    if len(sums) == 1:
        return *sums[0], "", ()
    shape = "".join(each.what for each in run)
    ways = [_PAYMENTS[each.text] for each in run if each.what == "M"]
    amounts = [amount for amount, _ in sums]
    whole = amounts.pop(0) if len(amounts) == len(ways) + 1 else sum(amounts)
    said = " ".join(each.text for each in run)
    alike = len({currency.code for _, currency in sums}) == 1
    if not alike or not _PARTS.fullmatch(shape) or len(amounts) != len(ways):
        raise InputError(
            f"{said}: there are several sums; write each way to pay with its part, as £20 cash £25 cheque."
        )
    if sum(amounts) != whole:
        raise InputError(f"{said}: the parts do not add up to the price.")
    if len(ways) == 1:
        return whole, sums[0][1], ways[0], ()
    return whole, sums[0][1], "", tuple(zip(ways, amounts, strict=True))


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
