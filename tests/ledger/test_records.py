"""Every record kind: right rows pass, each refusal is one sentence that names the field."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.store.entry import Change
from counter.store.records.check import TABLES, check_change
from counter.store.records.purchase import Purchase, Share, Split
from counter.store.records.sale import Sale, SaleLine
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.record import read_record, values_of, write_row
from tests.ledger.stock import tries

RIGHT: dict[str, dict[str, Any]] = {
    "items": {"number": "k"},
    "purchases": {"id": "k", "date": "2026-05-01", "total_pence": 100},
    "sales": {"id": "k", "date": "2026-05-01"},
    "quotes": {"id": "k", "date": "2026-05-01"},
    "people": {"id": "k"},
    "cash": {"id": "k", "date": "2026-05-01", "kind": "float", "pence": 5000},
    "costs": {"id": "k", "date": "2026-05-01", "category": "stand", "pence": 4500},
    "fairs": {"id": "k", "name": "Ludmere", "since": "2026-05-01", "until": "2026-05-02"},
    "returns": {"id": "k", "since": "2026-04-01", "until": "2026-06-30", "date": "2026-07-20"},
    "baths": {"id": "k", "item": "", "treatment": "water", "started": "2026-05-01T10:00:00"},
}

WRONG = [
    ("costs", {"category": "beer"}, "category must be one of: stand,"),
    ("costs", {"vat_pence": 4501}, "vat_pence is more than pence"),
    ("items", {"asking": -1}, "asking must not be negative"),
    ("items", {"asking": 12.5}, "asking must be a whole number of pence"),
    ("items", {"asking": True}, "asking must be a whole number of pence"),
    ("items", {"asking": 10**15}, "asking is more than anybody has"),
    ("items", {"status": "gone"}, "status must be one of: in stock,"),
    ("items", {"multiple": "strip"}, "multiple must be single, pair"),
    ("items", {"faults": [{"where": "top"}]}, r"faults \(number 1\) term is missing"),
    ("items", {"letters": "KC"}, "letters must be a list"),
    ("items", {"cover": {"town": 5}}, "cover town must be text"),
    ("items", {"certificate": {"date": "1990"}}, "certificate body is missing"),
    ("items", {"noted": "1 May"}, "noted must be a date like 2026-05-01"),
    ("items", {"noted": "2026-02-30"}, "noted must be a date"),
    ("items", {"newer": float("nan")}, "newer holds what a journal cannot"),
    ("items", {"number": "other"}, "number must be its key, k"),
    ("items", {"words": "x" * 20_001}, "words is too long"),
    ("purchases", {"total_pence": None}, "total_pence must be a whole number of pence"),
    ("purchases", {"seller_kind": "aunt"}, "seller_kind must be one of"),
    ("purchases", {"date": "2026-5-1"}, "date must be a date"),
    ("purchases", {"payment": "gold"}, "payment must be one of"),
    ("purchases", {"foreign": {"currency": "EUR"}}, "foreign amount_minor is missing"),
    ("purchases", {"self_invoiced": 1}, "self_invoiced must be true or false"),
    ("sales", {"lines": [{"item": "a"}]}, r"lines \(number 1\) price_pence is missing"),
    ("sales", {"status": "maybe"}, "status must be one of"),
    ("sales", {"payments": [{"date": "2026-05-01", "method": "cash", "pence": "5"}]}, "pence must be"),
    ("quotes", {"valid_until": "soon"}, "valid_until must be a date"),
    ("people", {"name": 5}, "name must be text"),
    ("cash", {"pence": 1.5}, "pence must be a whole number"),
    ("baths", {"started": "noon"}, "started must be a date and time"),
    ("baths", {"seconds": -5}, "seconds must be a whole number, 0 or more"),
]


@pytest.mark.parametrize("table", RIGHT)
def test_the_least_row_is_right(table: str) -> None:
    check_change(Change(table, "k", RIGHT[table]))


@pytest.mark.parametrize(("table", "more", "said"), WRONG)
def test_a_wrong_field_is_named(table: str, more: dict[str, Any], said: str) -> None:
    with pytest.raises(UserError, match=said) as caught:
        check_change(Change(table, "k", {**RIGHT[table], **more}))
    assert str(caught.value).endswith(".")


@pytest.mark.parametrize("table", RIGHT)
def test_a_missing_field_is_named(table: str) -> None:
    for field in RIGHT[table]:
        row = {name: value for name, value in RIGHT[table].items() if name != field}
        with pytest.raises(UserError, match=f"{field} is missing"):
            check_change(Change(table, "k", row))


def test_an_unknown_table_and_an_empty_key_are_refused() -> None:
    with pytest.raises(UserError, match="There is no table 'stamps'"):
        check_change(Change("stamps", "k", {}))
    with pytest.raises(UserError, match="must not be empty"):
        check_change(Change("items", " ", {"number": " "}))


def test_every_promised_table_has_a_door() -> None:
    assert {*RIGHT, "settings", "drafts"} <= set(TABLES)


def test_a_split_that_does_not_add_up_is_refused() -> None:
    shares = [{"item": "a", "pence": 60}, {"item": "b", "pence": 39}]
    row = {
        **RIGHT["purchases"],
        "items": ["a", "b"],
        "split": {"date": "2026-05-01", "basis": "by hand", "shares": shares},
    }
    with pytest.raises(UserError, match="come to 99 pence, but total_pence is 100"):
        check_change(Change("purchases", "k", row))
    shares[1]["pence"] = 40
    check_change(Change("purchases", "k", row))


def test_a_discount_that_does_not_add_up_is_refused() -> None:
    row = {
        **RIGHT["sales"],
        "discount_pence": 50,
        "lines": [{"item": "a", "price_pence": 100, "discount_pence": 49}],
    }
    with pytest.raises(UserError, match="discount_pence is not the sum"):
        check_change(Change("sales", "k", row))


names = st.text(st.characters(codec="utf-8", categories=["L", "N"]), min_size=1, max_size=8)
sums = st.integers(0, 10**9)
shares = st.builds(Share, item=names, pence=sums, expected_pence=st.none() | sums, words=st.text())


@tries(100)
@given(
    st.builds(
        Purchase,
        id=names,
        date=st.dates().map(str),
        total_pence=sums,
        words=st.text(),
        items=st.lists(names).map(tuple),
        split=st.none()
        | st.builds(
            Split,
            date=st.dates().map(str),
            basis=st.sampled_from(["single", "equally"]),
            shares=st.lists(shares).map(tuple),
        ),
    )
)
def test_a_purchase_comes_back_from_its_row(purchase: Purchase) -> None:
    assert read_record(Purchase, write_row(purchase)) == purchase


@tries(100)
@given(
    st.builds(
        Sale,
        id=names,
        date=st.dates().map(str),
        lines=st.lists(st.builds(SaleLine, item=names, price_pence=sums)).map(tuple),
        buyer=names,
        vat_shown=st.booleans(),
        reason=st.text(),
    )
)
def test_a_sale_comes_back_from_its_row(sale: Sale) -> None:
    assert read_record(Sale, write_row(sale)) == sale


@tries(100)
@given(
    st.recursive(st.none() | st.booleans() | st.integers() | st.text(), lambda inner: st.lists(inner))
)
def test_whatever_stands_in_a_field_gives_a_sentence_or_passes(value: object) -> None:
    for field in values_of(Item("k")):
        try:
            check_change(Change("items", "k", {"number": "k", field: value}))
        except UserError as trouble:
            assert field in str(trouble) or "key" in str(trouble)
