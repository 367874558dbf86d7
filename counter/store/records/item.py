"""Stock items as rows: the rules for the fields of values/item.py."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, get_args

from counter.store.records import rules
from counter.store.records.money import SCHEMES
from counter.values.item import Attachment, Status

_MULTIPLE = re.compile(r"single|pair|(strip|block|irregular)_[1-9][0-9]{0,2}")


def _multiple(value: object) -> str:
    right = isinstance(value, str) and _MULTIPLE.fullmatch(value)
    return "" if right else "must be single, pair, strip_3, block_4 or irregular_5 (any number)"


_words_each = rules.each(rules.words)
_FAULT = rules.group({"term": rules.name, "where": rules.words}, ["term"])
_COVER = rules.group(dict.fromkeys(("date", "town", "to", "tied", "marks", "finding"), rules.words), [])
_TREATMENT = rules.group(
    {
        "date": rules.optional_day,
        "treatment": rules.name,
        "product": rules.words,
        "strength": rules.words,
        "seconds": rules.or_none(rules.count),
        "before": rules.words,
        "after": rules.words,
        "by": rules.words,
    },
    ["date", "treatment"],
)
_CERTIFICATE = rules.group(
    {"body": rules.name, "date": rules.words, "number": rules.words, "opinion": rules.words}, ["body"]
)
_PRICE = rules.or_none(rules.pence)
_TEXTS = (
    "issue denomination colour plate watermark alphabet die words gum cancel cancel_colour "
    "cancel_number kept purchase reference remarks"
)

RULES: dict[str, rules.Rule] = {
    "number": rules.name,
    **dict.fromkeys(_TEXTS.split(), rules.words),
    "letters": _words_each,
    "multiple": _multiple,
    "margins": _words_each,
    "faults": rules.each(_FAULT),
    "attachment": rules.one_of(*get_args(Attachment)),
    "cover": rules.or_none(_COVER),
    "treatments": rules.each(_TREATMENT),
    "certificate": rules.or_none(_CERTIFICATE),
    "asking": _PRICE,
    "cost": _PRICE,
    "status": rules.one_of(*get_args(Status)),
    "scheme": rules.one_of(*SCHEMES),
    "photographs": _words_each,
    "noted": rules.optional_day,
}


def check_item(row: Mapping[str, Any]) -> str:
    """The first thing wrong with an item's row, in words; "" when it is right."""
    return rules.first_wrong(RULES, ("number",), row)
