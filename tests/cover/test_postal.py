"""The postal facts: how many, that they hang together, and that a broken one is named."""

from dataclasses import fields
from pathlib import Path

import pytest

from counter.reference.loader import DATA, DataFault
from counter.reference.postal import Postal, read_postal

COUNTS = {
    "sources": 177,
    "rates": 269,  # 74 inland, 195 overseas, by ship or of the forces
    "fees": 17,
    "charge_rules": 8,
    "cancels": 37,
    "marks": 7,
    "ink_changes": 9,
    "checks": 38,
    "transit": 8,
    "key_dates": 22,
    "notes": 4,
    "rate_rules": 9,
    "open_points": 5,
    "book_rules": 69,
    "multiples": 8,
    "cover_terms": 28,
    "margins": 7,
    "faults": 23,
}


@pytest.mark.parametrize(("subject", "count"), COUNTS.items())
def test_no_fact_was_lost(postal: Postal, subject: str, count: int) -> None:
    assert len(getattr(postal, subject)) == count


def test_every_subject_is_counted_but_the_places() -> None:
    assert {each.name for each in fields(Postal)} - COUNTS.keys() == {"places", "numerals"}
    assert sum(1 for rate in read_postal().rates.values() if rate.route) == 195


def test_grades_run_from_best_to_worst(postal: Postal) -> None:
    for terms in (postal.margins, postal.faults):
        assert [term.order for term in terms.values()] == list(range(1, len(terms) + 1))
        assert all(0 <= term.effect_low <= term.effect_high for term in terms.values())


def test_a_place_is_found_by_any_of_its_names(postal: Postal) -> None:
    names = ("Leeds", " leeds ", "newcastle", "Derry", "USA", "Alexandria", "Atlantis")
    found = [postal.place(name) for name in names]
    assert [place.id if place else None for place in found] == [
        "leeds",
        "leeds",
        "newcastle_upon_tyne",
        "londonderry",
        "united_states",
        "egypt",
        None,
    ]


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        ("fees", 'source = "tna_post26"', 'source = "hearsay"', "no source 'hearsay'"),
        ("fees", '"1841-01-06"', '"1841-02-30"', "is not a day"),
        ("fees", 'last = "1848-02-29"', 'last = "1840-02-29"', "ends before it begins"),
        ("rates_letters", "then_every", "then_evry", "unknown field then_evry"),
        ("rates_letters_1940", "letter-1940-05-01", "letter-1840-01-10", "appears in another file"),
        ("cancels_crosses", '"Renfrew", ', '"Renfroo", ', "no place 'Renfroo'"),
        ("numerals_home", 'office = "Liverpool"', 'ofice = "Liverpool"', "ew-466: unknown field ofice"),
        ("numerals_home", 'source = "epa_numerals"', 'source = "hearsay"', "no source 'hearsay'"),
        ("numerals_home", 'number = "498"', 'number = "460"', "Liverpool does not follow Manchester"),
        ("numerals_abroad", 'last = "1860-05"', 'last = "1857"', "ab-A05.last: ends before it begins"),
        ("numeral_orders", "num_ireland_1844", "num_eire", "there is no cancel 'num_eire'"),
    ],
)
def test_a_broken_fact_is_named(tmp_path: Path, file: str, old: str, new: str, said: str) -> None:
    folder = tmp_path / "postal"
    folder.mkdir()
    for path in (DATA / "postal").glob("*.toml"):
        text = path.read_text(encoding="utf-8")
        if path.stem == file:
            assert old in text
            text = text.replace(old, new, 1)
        (folder / path.name).write_text(text, encoding="utf-8")
    with pytest.raises(DataFault, match=said):
        read_postal(tmp_path)
