"""A person's whole record: what is held about them and every deal with them, in lines and to print."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from counter.documents.layout import Layout, TextBlock
from counter.values.dates import day_words
from counter.values.money import pounds

_LABELS = {"vat_number": "VAT number", "first_seen": "first noted", "email": "e-mail"}


def record_lines(held: dict[str, Any]) -> Iterator[str]:
    """What `held_about` gives, in lines a person can read: details, deals, where else they are named."""
    for name, value in held["person"].items():
        if value and name != "id":
            shown = day_words(value) if name in ("first_seen", "erased") else value
            yield f"{_LABELS.get(name, name)}: {shown}"
    for row in held["purchases"]:
        ways = [each["method"] for each in row.get("payments", ())] or [row.get("payment", "")]
        how = ", ".join(filter(None, dict.fromkeys(ways))) or "not noted"
        what = row.get("words") or row.get("description", "")
        total = pounds(row["total_pence"])
        yield f"{day_words(row['date'])}  sold to us, {row['id']}: {total}, paid by {how}; {what}"
    for row in held["sales"]:
        what = ", ".join(line.get("words") or line["item"] for line in row.get("lines", ()))
        verb = "brought back" if row.get("refund_of") else row.get("status", "complete")
        total = pounds(row.get("total_pence", 0))
        yield f"{day_words(row['date'])}  bought from us ({verb}), {row['id']}: {total}; {what}"
    for row in held["quotes"]:
        total = pounds(row.get("total_pence", 0))
        yield f"{day_words(row['date'])}  was quoted, {row['id']}: {total}"
    for place in held["mentioned"]:
        yield f"Named in: {place}"


def person_page(held: dict[str, Any], until: str) -> Layout:
    """The whole record as a paper; `until` says how long it is kept, in words."""
    kept = f"Kept {until}: {held['why']}." if until else "Nothing keeps these details but your wish."
    words = "\n".join([*record_lines(held), "", kept])
    return Layout(f"What is held about {held['person']['id']}", (TextBlock(words),))
