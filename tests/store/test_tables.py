"""The record tables: TinyDB's, asked by the errands of a day, their indexes as a plain scan would say."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tinydb.table import Table

from counter.cli.main import main
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.sale import Sale
from counter.values.errors import UserError
from tests.store.test_before import unpacked

NOON = datetime(2026, 5, 1, 12)


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    opened = Ledger.open(tmp_path / "own", clock=lambda: NOON, laptop="WK")
    yield opened
    opened.close()


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> Counter[tuple[str, str]]:
    """How often each of TinyDB's own methods was called, by method and table."""
    counted: Counter[tuple[str, str]] = Counter()

    def watched(name: str, plain: Callable[..., Any]) -> Callable[..., Any]:
        def call(table: Table, *args: Any, **more: Any) -> Any:
            counted[name, table.name] += 1
            return plain(table, *args, **more)

        return call

    for name in ("get", "search", "all", "__len__"):
        monkeypatch.setattr(Table, name, watched(name, getattr(Table, name)))
    return counted


@pytest.mark.parametrize(
    ("errand", "tables"),
    [
        (["sell", "WK-13=72.50", "--payment", "cash"], {"items", "purchases"}),
        (["settle", "WK-S1", "--refund", "WK-1", "--reason", "faulty"], {"sales", "items"}),
        (["owed"], {"purchases", "people"}),
        (["close-day"], {"sales", "purchases", "cash"}),
        (["book", "--from", "2026-01-01", "--to", "2026-12-31"], {"sales", "purchases", "items"}),
        (["people", "WK-N1"], {"people", "sales", "purchases"}),
        (["price", "WK-1"], {"items", "sales"}),
        (["quote", "--find"], {"quotes"}),
        (["invoice", "WK-S1"], {"sales", "people"}),
    ],
)
def test_an_errand_asks_the_tables(
    errand: list[str],
    tables: set[str],
    asked: Counter[tuple[str, str]],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    folder, _ = unpacked("verbs", tmp_path)
    monkeypatch.setenv("COUNTER_DATA", str(folder))
    assert main(errand) == 0, capsys.readouterr().err
    assert tables <= {table for _, table in asked}


def test_a_table_gives_records_and_says_what_is_not_there(ledger: Ledger) -> None:
    ledger.note("sold", [put(Sale("WK-S1", "2026-05-01", reason="none"))])
    sale = ledger.sales.of("WK-S1")
    assert sale == Sale("WK-S1", "2026-05-01", reason="none")
    assert ledger.sales.of("WK-S1") is sale  # made once, while its row stands
    with pytest.raises(UserError, match=r"^There is no sale WK-S2\.$"):
        ledger.sales.of("WK-S2")
    with pytest.raises(UserError, match=r"^There is no stock number WK-1\.$"):
        ledger.items.of("WK-1")
    assert ledger.people.find("") is None


def test_a_stock_number_is_found_as_it_may_be_typed(ledger: Ledger) -> None:
    ledger.note("noted", [Change("items", "WK-12", {"number": "WK-12"})])
    for typed in ("WK-12", "wk-12", "wk12", "WK 12"):
        found = ledger.items.typed(typed)
        assert found is not None and found.number == "WK-12"
    assert ledger.items.typed("WK-1") is None


PIECES, SALES = ("a", "b", "c"), ("S1", "S2", "S3", "S4")
rows = st.fixed_dictionaries(
    {},
    optional={
        "status": st.sampled_from(["deposit", "on approval", "returned", "cancelled"]),
        "refund_of": st.sampled_from(SALES),
        "buyer": st.sampled_from(["N1", "N2"]),
        "pieces": st.lists(st.sampled_from(PIECES), unique=True),
    },
)


def as_row(key: str, said: dict[str, Any]) -> dict[str, Any]:
    lines = [{"item": piece, "price_pence": 5} for piece in said.get("pieces", ())]
    more = {name: value for name, value in said.items() if name != "pieces"}
    return {"id": key, "date": "2026-05-01", "lines": lines, **more}


def scanned(ledger: Ledger, piece: str) -> set[str]:
    """The plain scan over all rows that the index stands for."""
    every = ledger.rows("sales")
    back = {(r["refund_of"], x["item"]) for r in every if r.get("refund_of") for x in r["lines"]}
    return {
        row["id"]
        for row in every
        if not row.get("refund_of")
        and row.get("status", "complete") in ("complete", "deposit", "on approval")
        and any(line["item"] == piece for line in row["lines"])
        and (row["id"], piece) not in back
    }


@settings(max_examples=60)
@given(st.lists(st.tuples(st.sampled_from(SALES), st.none() | rows), max_size=12), st.integers(0, 12))
def test_the_indexes_say_what_a_scan_says(
    notes: list[tuple[str, dict[str, Any] | None]], asked_after: int
) -> None:
    with TemporaryDirectory() as place:
        ledger = Ledger.open(Path(place) / "own", clock=lambda: NOON, laptop="WK")
        for count, (key, said) in enumerate(notes):
            row = None if said is None else as_row(key, said)
            ledger.note("noted", [Change("sales", key, row)])
            if count < asked_after and count % 3:  # the first notes come before an index is made
                continue
            for piece in PIECES:
                assert {each.id for each in ledger.sales.holding(piece)} == scanned(ledger, piece)
            for buyer in ("N1", "N2"):
                by_scan = {row["id"] for row in ledger.rows("sales") if row.get("buyer") == buyer}
                assert {each.id for each in ledger.sales.to(buyer)} == by_scan
        ledger.reload()
        for piece in PIECES:
            assert {each.id for each in ledger.sales.holding(piece)} == scanned(ledger, piece)
        ledger.close()


def test_what_is_owed_follows_the_seller_and_the_pieces(ledger: Ledger) -> None:
    bought = {"id": "P1", "date": "2026-05-01", "total_pence": 5, "seller": "N1", "payment": "cash"}
    bought |= {"items": ["a"], "seller_kind": "private"}
    ledger.note("bought", [Change("purchases", "P1", bought)])

    def owed() -> list[tuple[str, ...]]:
        return [wanted for _, wanted in ledger.purchases.incomplete()]

    assert owed() == [("seller's name", "seller's address", "a description")]
    ledger.note("named", [Change("people", "N1", {"id": "N1", "name": "Ada", "address": "x"})])
    assert owed() == [("a description",)]
    piece = {"number": "a", "words": "an album", "purchase": "P1"}
    ledger.note("noted", [Change("items", "a", piece)])
    assert owed() == []
    ledger.note("taken out", [Change("people", "N1", None)])
    assert owed() == [("seller's name", "seller's address")]
    ledger.note("fell through", [Change("purchases", "P1", {**bought, "cancelled": "yes"})])
    assert owed() == []


def test_the_seller_of_a_cancelled_purchase_can_still_be_found(ledger: Ledger) -> None:
    row = {"id": "P1", "date": "2026-05-01", "total_pence": 5, "seller": "N1", "cancelled": "x"}
    ledger.note("bought", [Change("purchases", "P1", row)])
    assert [each.id for each in ledger.purchases.from_("N1")] == ["P1"]
    assert list(ledger.purchases.standing("2026-01-01", "2026-12-31")) == []
