"""A franking held to the rate: ways abroad, rough dates, fees in cash, the halfpenny of Scotland."""

from fractions import Fraction
from typing import Any

import pytest

from counter.judge.cover.case import Case
from counter.judge.cover.cover_facts import CoverSeen
from counter.judge.cover.from_reading import way_said
from counter.judge.cover.rate_checks import rate_match
from counter.reference.postal import Postal
from counter.values.dates import read_date
from counter.values.postage import read_postage

HALF = Fraction(1, 2)


def spoken(postal: Postal, day: str, paid: str, **more: Any) -> str:
    franked = {"ounces": HALF, **more}
    seen = CoverSeen(when=read_date(day), franking=read_postage(paid), **franked)
    return rate_match(Case(postal, seen)).speaks


@pytest.mark.parametrize(
    ("day", "paid", "more", "says"),
    [
        # Scottish directory of about 1844-48: 1s 4d by Southampton, 2s 7d by Marseilles under ½ oz
        ("1846-05-01", "1s4d", {"to_abroad": "Hong Kong"}, "for"),
        ("1846-05-01", "1s4d", {"to_abroad": "Hong Kong", "via": "marseilles"}, "neutral"),
        ("1846-05-01", "2d", {"to_abroad": "Hong Kong"}, "neutral"),
        ("1846-05-01", "1s", {"to_abroad": "Gibraltar"}, "for"),
        ("1846-05-01", "2d", {"to_abroad": "Gibraltar"}, "neutral"),  # dated roughly
        ("1842-09-24", "2d", {"to_abroad": "Malta"}, "neutral"),
        ("1865-05-01", "6d", {"to_abroad": "Malta"}, "for"),  # Lewins 1864: all colonies
        ("1863-05-01", "4d", {"to_abroad": "Belgium"}, "neutral"),  # Hemmeon: 6d to 4d in 1863, no day
        ("1863-05-01", "6d", {"to_abroad": "Belgium"}, "neutral"),
        ("1864-05-01", "4d", {"to_abroad": "Belgium"}, "for"),
        ("1880-05-01", "1d", {"to_abroad": "Germany"}, "against"),  # 2½d of the union
        # a directory of the middle 1840s: the fee of a shilling must be paid in money
        ("1845-05-01", "1d", {"marks": ("registered",)}, "for"),
        ("1845-05-01", "1s1d", {"marks": ("registered",)}, "for"),
        ("1845-05-01", "4d", {"marks": ("registered",)}, "against"),
        ("1853-12-31", "1d", {"marks": ("registered",)}, "for"),
        ("1856-05-01", "1d", {"marks": ("registered",)}, "against"),  # in stamps: 7d
        ("1856-05-01", "7d", {"marks": ("registered",)}, "for"),
        # jubilee study: 3d a mile from July 1893
        ("1895-05-01", "7d", {"marks": ("express",), "miles": Fraction(2)}, "for"),
        ("1895-05-01", "4d", {"marks": ("express",), "miles": Fraction(2)}, "against"),
    ],
)
def test_what_a_franking_says(
    postal: Postal, day: str, paid: str, more: dict[str, Any], says: str
) -> None:
    assert spoken(postal, day, paid, **more) == says


def test_the_halfpenny_is_asked_of_letters_from_and_to_scotland(postal: Postal) -> None:
    seen = CoverSeen(when=read_date("1838-02-15"), sheets=1, miles=Fraction(429))
    for more in ({"to_town": "Greenock"}, {"region": "scotland"}):
        asked = Case(postal, CoverSeen(seen.stamps, when=seen.when, **more)).question  # type: ignore[arg-type]
        assert asked and asked.scotland
    plain = Case(postal, seen).question
    assert plain and not plain.scotland


@pytest.mark.parametrize(
    ("line", "way"),
    [
        ("6d lilac london 3 may 1846 to hong kong via southampton 1oz", "southampton"),
        ("per private ship to the cape 1855", "private ship"),
        ("by French packet to greece", "french packet"),
        ("1d red leeds 3 may 1846 to york", ""),
        ("tied by duplex", ""),
    ],
)
def test_the_way_is_read_in_the_words_of_the_rates(postal: Postal, line: str, way: str) -> None:
    assert way_said(line, postal) == way
