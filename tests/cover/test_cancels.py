"""Cancels by kind, colour, day and place; dates from the society displays named in the data."""

import pytest

from counter.judge.cover.cancels import CancelSeen, brown_cross, in_use, ink_right, place_right
from counter.reference.postal import Postal
from counter.values.dates import read_date

CROSS = "maltese_cross"


@pytest.mark.parametrize(
    ("seen", "day", "standing", "strength"),
    [
        # gbimperf: crosses 6 May 1840 to May/June 1844, by order
        (CancelSeen(CROSS), "1840-05-06", "in period", "weak"),
        (CancelSeen(CROSS), "1844-06-30", "in period", "weak"),
        (CancelSeen(CROSS), "1844-07-01", "late", "moderate"),
        (CancelSeen(CROSS), "1840-05-03", "exceptional", "moderate"),
        (CancelSeen(CROSS), "1840-05-01", "early", "strong"),
        # gbimperf: number 3 from 16 March 1843, the others from 21 March
        (CancelSeen(CROSS, "mx_numbered", number="3"), "1843-03-15", "early", "strong"),
        (CancelSeen(CROSS, number="3"), "1843-03-16", "in period", "weak"),
        (CancelSeen(CROSS, number="5"), "1843-03-20", "early", "strong"),
        (CancelSeen(CROSS, number="5"), "1843-03-21", "in period", "weak"),
        (CancelSeen(CROSS, number="5"), "1844-05-18", "late", "moderate"),
        # gbimperf: England and Wales 1 May, London 17 and 21 May, Scotland 19 June, Ireland 21 June
        (CancelSeen("numeral"), "1844-04-30", "early", "strong"),
        (CancelSeen("numeral"), "1844-05-01", "in period", "weak"),
        (CancelSeen("numeral", region="london"), "1844-05-16", "early", "strong"),
        (CancelSeen("numeral", region="london"), "1844-05-17", "in period", "weak"),
        (CancelSeen("numeral", region="scotland"), "1844-06-18", "early", "strong"),
        (CancelSeen("numeral", region="scotland"), "1844-06-19", "in period", "weak"),
        (CancelSeen("numeral", region="ireland"), "1844-06-20", "early", "strong"),
        (CancelSeen("numeral", "num_ireland_1844"), "1844-06-21", "in period", "weak"),
        # article on Irish spoons: the first at Hull, 24 December 1853
        (CancelSeen("duplex"), "1850-01-01", "early", "strong"),
        (CancelSeen("duplex"), "1853-12-23", "early", "strong"),
        (CancelSeen("duplex", "duplex_spoon"), "1853-12-24", "in period", "weak"),
        # display of the sideways duplex: the first issued 30 or 31 May 1854
        (CancelSeen("duplex", "duplex_sideways"), "1854-05-29", "early", "strong"),
        (CancelSeen("duplex", "duplex_sideways"), "1854-05-31", "in period", "weak"),
        # POST 55: steel until cork in 1883; rubber by 1885
        (CancelSeen("rubber_datestamp"), "1882-12-31", "early", "strong"),
        (CancelSeen("rubber_datestamp"), "1884-06-01", "early", "moderate"),
        (CancelSeen("squared_circle"), "1879-08-31", "early", "strong"),
        (CancelSeen("slogan"), "1917-12-09", "early", "strong"),
        (CancelSeen("slogan"), "1917-12-10", "in period", "weak"),
        (CancelSeen("slogan"), "1887-06-21", "exceptional", "moderate"),
        (CancelSeen("cds"), "1842-01-01", "exceptional", "moderate"),
        (CancelSeen("cds"), "1975-01-01", "in period", "weak"),
        (CancelSeen("brunswick_star"), "1850-01-01", "early", "weak"),  # memory: never condemns
        (CancelSeen("hooded_circle"), "1870-01-01", "early", "weak"),
        (CancelSeen("thumb print"), "1870-01-01", "not known", "none"),
    ],
)
def test_kind_and_day(postal: Postal, seen: CancelSeen, day: str, standing: str, strength: str) -> None:
    answer = in_use(postal, seen, read_date(day))
    assert (answer.standing, answer.strength) == (standing, strength)
    assert answer.speaks == {"in period": "for", "not known": "neutral"}.get(standing, "against")


@pytest.mark.parametrize(
    ("seen", "day", "speaks", "strength"),
    [
        (CancelSeen(CROSS, colour="red"), "1841-02-10", "for", "weak"),
        (CancelSeen(CROSS, colour="red"), "1841-02-11", "against", "moderate"),
        (CancelSeen(CROSS, colour="black"), "1841-02-10", "for", "weak"),
        # experimental black: London local letters, 31 August to November 1840
        (CancelSeen(CROSS, colour="black", region="london"), "1840-08-31", "for", "weak"),
        (CancelSeen(CROSS, colour="black", region="london"), "1840-08-30", "against", "moderate"),
        (
            CancelSeen(CROSS, colour="black", region="london", to_region="scotland"),
            "1840-09-10",
            "against",
            "moderate",
        ),
        # one of the towns recorded with early black, and one that is not
        (CancelSeen(CROSS, colour="black", town="Aberdeen"), "1840-09-29", "for", "weak"),
        (CancelSeen(CROSS, colour="black", town="Leeds"), "1840-09-29", "against", "moderate"),
        (CancelSeen(CROSS, colour="blue"), "1842-01-01", "against", "moderate"),
        (CancelSeen(CROSS, colour="green"), "1842-01-01", "against", "moderate"),
        (CancelSeen("numeral", colour="black"), "1850-01-01", "for", "weak"),
        (CancelSeen("numeral", colour="blue"), "1850-01-01", "for", "weak"),
        (CancelSeen("numeral", colour="violet"), "1850-01-01", "against", "moderate"),
        (CancelSeen("rubber_datestamp", colour="violet"), "1890-01-01", "for", "weak"),
    ],
)
def test_ink(postal: Postal, seen: CancelSeen, day: str, speaks: str, strength: str) -> None:
    answer = ink_right(postal, seen, read_date(day))
    assert (answer.speaks, answer.strength) == (speaks, strength)


@pytest.mark.parametrize(
    ("seen", "speaks", "strength"),
    [
        (CancelSeen("numeral", "num_scotland_1844", region="england_wales"), "against", "strong"),
        (CancelSeen("numeral", "num_ireland_1844", region="scotland"), "against", "strong"),
        (CancelSeen("numeral", "num_london_inland_1844", region="england_wales"), "against", "strong"),
        (CancelSeen("numeral", "num_scotland_1844", region="scotland"), "for", "weak"),
        (CancelSeen("squared_circle", region="ireland"), "against", "strong"),
        (CancelSeen("brunswick_star", region="ireland"), "against", "moderate"),  # memory
        (CancelSeen("numeral", region="scotland"), "neutral", "none"),  # the shape would tell
        (CancelSeen(CROSS, number="5", region="england_wales"), "against", "moderate"),
        (CancelSeen(CROSS, number="5", region="london", to_region="london"), "against", "moderate"),
        (CancelSeen(CROSS, number="5", region="london"), "for", "weak"),
        (CancelSeen(CROSS, region="scotland"), "neutral", "none"),
        (CancelSeen("squared_circle"), "neutral", "none"),
    ],
)
def test_place(postal: Postal, seen: CancelSeen, speaks: str, strength: str) -> None:
    answer = place_right(postal, seen)
    assert (answer.speaks, answer.strength) == (speaks, strength)


def test_a_brown_cross_raises_the_caution_with_the_test_that_settles_it(postal: Postal) -> None:
    said = brown_cross(postal, CancelSeen(CROSS, colour="brown"))
    assert all(word in said for word in ("sulphided", "red grains", "do not treat", "certificate"))
    assert brown_cross(postal, CancelSeen(CROSS, colour="red")) == ""
    assert brown_cross(postal, CancelSeen("numeral", colour="brown")) == ""


def test_no_memory_condemns(postal: Postal) -> None:
    """A cancel whose dates are only remembered never speaks strongly, on any day."""
    for cancel in postal.cancels.values():
        if "memory" in (cancel.source, cancel.date_source) and not cancel.proved_before:
            for day in ("1839-01-01", "1845-01-01", "1870-01-01", "1979-01-01"):
                answer = in_use(postal, CancelSeen(cancel.family, cancel.id), read_date(day))
                assert answer.strength != "strong", (cancel.id, day)
