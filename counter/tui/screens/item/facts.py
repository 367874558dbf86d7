"""The piece in lines: its heading, the listing, what the shop notes; and the dealer's own figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from counter.describe.description import long_form, short_line
from counter.describe.names import IssueName
from counter.desk.stock.item_margin import ItemMargin
from counter.reference.money import DEFER
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.text import Line
from counter.values.dates import day_words
from counter.values.item import Item
from counter.values.money import pounds

_LABEL = 15
#: Square: the round ones mean used and unused in the trade (common practice).
_SIGNS = {
    "in stock": "■",
    "on approval": "▣",
    "reserved": "▣",
    "sold": "□",
    "returned": "□",
    "withdrawn": "□",
}


def heading(
    item: Item, names: Mapping[str, IssueName], width: int, *, costs: bool = False
) -> list[Line]:
    """The short line, then the price asked (of a sold piece with `costs` alone), the status and where
    it is kept."""
    price = item.asking if costs else item.open_price
    lines = prose(short_line(item, names), width, "strong")
    missing = "" if item.status == "sold" else "no price"
    asked = pounds(price) if price is not None else missing
    ink = "good" if item.status == "in stock" else "care"
    lines.append(
        [
            ("  ", "plain"),
            (asked, "price" if price is not None else "care"),
            ("   ", "plain"),
            (f"{_SIGNS.get(item.status, '□')} {item.status}", ink),
            ("   kept ", "dim"),
            (item.kept or "not noted where", "plain" if item.kept else "dim"),
        ]
    )
    return lines


def listing(item: Item, names: Mapping[str, IssueName], width: int) -> list[Line]:
    """The long form as a customer may read it, faults and cautions not hidden in the text."""
    lines: list[Line] = []
    for sentence in long_form(item, names).split("\n"):
        ink = "care" if sentence.startswith(("Faults:", "Treated ")) else "plain"
        lines += prose(sentence, width, ink)
    if not item.issue:
        lines.append([("  F7 takes the stamp chosen at the counter as its issue.", "accent")])
    return lines


def shop(item: Item, width: int) -> list[Line]:
    """Since when it is here, the owner's reference, how many photographs; only what is noted."""
    count = len(item.photographs)
    photographs = f"{count} (F9 shows {'it' if count == 1 else 'them'})" if count else ""
    told = (
        ("in stock since", day_words(item.noted)),
        ("own reference", item.reference),
        ("photographs", photographs),
    )
    return [line for label, words in told if words for line in labelled(label, words, width)]


def own_eyes(figures: ItemMargin, width: int) -> list[Line]:
    """Cost, what selling at the asking price leaves, and what to offer: shown only when asked for."""
    lines: list[Line] = []
    for label, words in _figures(figures):
        ink = "strong" if label in ("cost", "offer") else "plain" if label else "dim"
        lines += labelled(label, words, width, ink)
    return lines


def _figures(figures: ItemMargin) -> Iterator[tuple[str, str]]:
    cost = "not known yet" if figures.cost is None else pounds(figures.cost)
    bought = ", ".join(part for part in (figures.purchase, day_words(figures.bought)) if part)
    yield "cost", f"{cost} ({bought})" if bought else cost
    if left := figures.left:
        tax = f"VAT {pounds(left.vat)}, " if figures.taxed else "no VAT, "
        scheme = f" ({figures.scheme} scheme)" if figures.scheme in ("margin", "global") else ""
        yield (
            "at this price",
            f"margin {pounds(left.margin)}, {tax}{pounds(left.net)} left{scheme}",
        )
    if figures.offer:
        yield "offer", figures.offer.judgement.verdict
        for reason in figures.offer.judgement.reasons:
            if reason.code.startswith("buy-") and reason.code != "buy-account-for-vat":
                yield "", f"{reason.text} [{reason.source}]"
    if figures.remarks:
        yield "remarks", figures.remarks
    if figures.offer or figures.left:
        yield "", DEFER


def labelled(label: str, words: str, width: int, ink: str = "plain") -> list[Line]:
    """A label and its words, wrapped beside it."""
    return prose(words, width, ink, head=(f"  {label:<{_LABEL}}", "dim"))


def head(words: str, width: int) -> Line:
    """A heading inside the page, drawn out to the width."""
    return [("── ", "dim"), (words, "head"), (" " + "─" * max(width - len(words) - 5, 0), "dim")]
