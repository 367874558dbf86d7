"""The demo's tables against the reference and the ledger: nothing in it could not exist."""

from __future__ import annotations

import json
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from counter.describe.names import issue_names
from counter.reference.library import Library
from counter.search.index import StockIndex
from counter.store.ledger import Ledger
from counter.store.verify import verify
from counter.values.item import Item
from counter.values.record import read_record
from seed_demo.generate import generate
from seed_demo.plant import plant, rows

LIBRARY = Library()
ITEMS = [read_record(Item, row) for row in rows("items")]


def test_the_generator_gives_the_kept_files_again() -> None:
    made = generate()
    for table in ("people", "purchases", "items", "sales", "quotes", "settings"):
        assert json.dumps(made[table]) == json.dumps(rows(table))


def test_there_are_at_least_400_varied_lines_in_stock() -> None:
    stock = [item for item in ITEMS if item.status == "in stock"]
    assert len(stock) >= 400
    assert len({item.issue for item in stock}) >= 100
    assert {item.multiple for item in stock} >= {"single", "pair", "strip_3", "block_4"}
    assert {item.attachment for item in stock} >= {"", "cover", "entire", "front"}
    assert sum(1 for item in stock if item.faults) >= 80
    assert any(item.treatments for item in stock)
    assert any(item.certificate for item in stock)


def test_several_blacks_are_lettered_kc_with_neighbours_and_matching_reds() -> None:
    def lettered(issue: str, letters: str) -> list[Item]:
        return [item for item in ITEMS if item.issue == issue and item.letters == (letters,)]

    blacks = lettered("penny_black_1840", "KC")
    assert len(blacks) >= 4
    assert all(lettered("penny_black_1840", near) for near in ("KB", "KD", "JC", "LC"))
    reds = {item.plate for item in lettered("penny_red_1841_black_plates", "KC")}
    assert reds & {item.plate for item in blacks}, "a black and a red of one plate and lettering"


def test_every_piece_could_exist() -> None:
    for item in ITEMS:
        if item.issue:
            _could_exist(item)
        else:
            assert item.words


def _could_exist(item: Item) -> None:
    issue = LIBRARY.stamps.issues[item.issue]
    known = issue.characters
    assert not item.denomination or item.denomination in {each.value for each in known.stamps}
    assert not item.plate or item.plate in LIBRARY.stamps.plate_numbers[item.issue]
    assert not item.watermark or item.watermark in known.watermarks
    assert not item.margins or "imperforate" in known.separations
    for lettering in item.letters:
        _check_letters(lettering, known)
    _check_step(item)


def _check_letters(lettering: str, known: Any) -> None:
    """The lettering rules of the reference: sheet_240 and upper_corners_reversed."""
    assert len(lettering) == known.letters
    row, column = lettering[-2:]
    assert "A" <= row < chr(65 + known.rows)
    assert "A" <= column < chr(65 + known.columns)
    assert known.letters == 2 or lettering[:2] == column + row


def _check_step(item: Item) -> None:
    """Stamps of a multiple adjoin: side by side, or one above the other (rule "adjoining")."""
    places = {(ord(each[-2]), ord(each[-1])) for each in item.letters}
    if len(item.letters) < 2:
        return
    size = {"pair": 2, "strip_3": 3, "block_4": 4}[item.multiple]
    assert len(places) == size
    rows_used, columns = {row for row, _ in places}, {column for _, column in places}
    assert max(rows_used) - min(rows_used) + 1 == len(rows_used)
    assert max(columns) - min(columns) + 1 == len(columns)
    assert len(rows_used) * len(columns) == size


def test_terms_are_the_references_own() -> None:
    faults = {fault.term for item in ITEMS for fault in item.faults}
    margins = {margin for item in ITEMS for margin in item.margins}
    priced = {term for factor in LIBRARY.money.schedule.values() for term in factor.terms}
    assert faults | margins <= priced
    done = {each.treatment for item in ITEMS for each in item.treatments}
    assert done <= set(LIBRARY.treatments.treatments)


def test_common_things_have_at_least_three_sales_to_learn_from() -> None:
    sold = Counter((item.issue, item.denomination) for item in ITEMS if item.status == "sold")
    for issue in ("penny_black_1840", "penny_red_imperf_alphabet_one", "two_pence_1841_white_lines"):
        assert sold[issue, ""] >= 10
    common = [
        kind for kind, count in Counter((i.issue, i.denomination) for i in ITEMS).items() if count > 8
    ]
    assert all(sold[kind] >= 3 for kind in common)


def test_the_books_add_up() -> None:
    items = {item.number: item for item in ITEMS}
    for row in rows("purchases"):
        shares = row["split"]["shares"]
        assert sum(share["pence"] for share in shares) == row["total_pence"]
        assert all(items[share["item"]].cost == share["pence"] for share in shares)
    for row in rows("sales"):
        lines = row["lines"]
        off = sum(line.get("discount_pence", 0) for line in lines)
        assert row["total_pence"] == sum(line["price_pence"] for line in lines) - off
        assert all(items[line["item"]].noted < row["date"] for line in lines)


def test_what_is_typed_at_the_stall_finds_the_demos_pieces() -> None:
    index = StockIndex(issue_names(LIBRARY.stamps))
    assert list(index.put_many(ITEMS))[-1] == len(ITEMS)
    pieces = {item.number: item for item in ITEMS}
    found = [pieces[hit.number] for hit in index.find("1d blk imp KC sm crown")]
    assert all(item.issue == "penny_black_1840" and "KC" in item.letters for item in found[:5])
    for typed, issue in (
        ("2d blu no lines", "two_pence_1840_no_lines"),
        ("1d red pl 148", "penny_red_four_letters"),
        ("9d green 1883", "qv_9d_1883"),
        ("1d lilac cover", "qv_1d_lilac_die2"),
        ("3d rose emblems", "qv_3d_1865_emblems"),
    ):
        assert pieces[index.find(typed)[0].number].issue == issue


def test_planted_through_the_real_ledger_it_verifies(tmp_path: Path) -> None:
    plant(tmp_path)
    report = verify(tmp_path)
    assert [finding.words for finding in report.findings if finding.weight != "remark"] == []
    ledger = Ledger.open(tmp_path, clock=lambda: datetime(2026, 1, 3, tzinfo=UTC))
    assert len(ledger.rows("items")) == len(ITEMS)
    assert ledger.next_number("items") == f"WK-{len(ITEMS) + 1}"
    assert ledger.told == []
    ledger.close()
