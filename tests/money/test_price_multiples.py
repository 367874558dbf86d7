"""A multiple with one bad stamp is priced both ways; the sums stand beside each."""

from dataclasses import replace as changed

from msgspec.structs import replace

from counter.judge.observation import Observation, Reading
from counter.judge.price.comparables import Evidence
from counter.judge.price.multiples import BothWays, both_ways
from counter.judge.price.suggest import suggest
from counter.values.item import Item
from tests.money.stocks import market

DAY = "2026-11-25"
SINGLE = Item(
    "A1",
    issue="two_pence_1840_no_lines",
    denomination="2d",
    plate="1",
    margins=("4",),
    cancel="maltese_cross",
)
STRIP = replace(SINGLE, number="", multiple="strip_4", letters=("MA", "MB", "MC", "MD"))


def singles(*prices: int) -> list[Evidence]:
    return [
        Evidence(f"S{place}", replace(SINGLE, number=f"S{place}"), price, "2026-10-01")
        for place, price in enumerate(prices)
    ]


def ways(item: Item, *flaws: tuple[str, str, str], sales: list[Evidence]) -> BothWays | None:
    """Both ways of a line that says (kind, value, of which stamp)."""
    seen = tuple(Observation(kind, value, value, said="is", stamp=of) for kind, value, of in flaws)
    subject = market().thing(item, Reading("", seen))
    return both_ways(subject, suggest(subject, sales, market(), DAY), sales, market(), DAY)


def test_a_thin_in_the_end_stamp() -> None:
    made = ways(
        STRIP, ("margins", "4", ""), ("fault", "thin", "MD"), sales=singles(29000, 30000, 31000)
    )
    assert made is not None and made.worst == "MD"
    # 30000 x 6.5 x (1 + 1 + 1 + 0.4)/4
    assert made.whole == 165750
    # a sound strip of three, 30000 x 4.5, and a thin single, 30000 x 0.4
    assert [part.made.price for part in made.parts] == [135000, 12000]
    assert made.parted == 147000
    assert made.words == (
        "As it is: about £1,657.50. With MD taken off: strip of 3 MA to MC £1,350.00, "
        "single MD £120.00, together £1,470.00."
    )


def test_a_cut_stamp_drags_the_whole_and_is_better_off() -> None:
    item = replace(STRIP, margins=("4", "4", "4", "cut_into"))
    said = (("margins", "4", ""), ("margins", "cut_into", "MD"))
    sales = singles(29000, 30000, 31000)
    short = [
        changed(each, item=replace(each.item, margins=("touched",)), price=each.price * 6 // 10)
        for each in sales
    ]  # touched ones too, so that neither way is carried more than four times
    made = ways(item, *said, sales=[*sales, *(changed(e, number=f"T{e.number}") for e in short)])
    assert made is not None and made.worst == "MD"
    # as it is: the worst margin drags the whole, 30000 x 6.5 x 0.2; three and one: x 4.5 and x 0.2
    assert (made.whole, made.parted) == (39000, 135000 + 6000)


def test_the_stamp_in_the_middle_leaves_a_single_and_a_pair() -> None:
    made = ways(
        STRIP, ("margins", "4", ""), ("fault", "tear", "MB"), sales=singles(10000, 10000, 10000)
    )
    assert made is not None
    # single 10000, pair 10000 x 2.5, the torn one 10000 x 0.4
    assert [part.words for part in made.parts] == ["single MA", "pair MC to MD", "single MB"]
    assert [part.made.price for part in made.parts] == [10000, 25000, 4000]


def test_own_sales_of_the_size_come_before_the_factor() -> None:
    three = replace(SINGLE, multiple="strip_3")
    own = [
        Evidence(f"T{price}", replace(three, number=f"T{price}"), price, "2026-10-01")
        for price in (99000, 100000, 101000)
    ]
    sales = [*singles(29000, 30000, 31000), *own]
    made = ways(STRIP, ("margins", "4", ""), ("fault", "thin", "MD"), sales=sales)
    assert made is not None and made.parts[0].made.price == 100000


def test_what_is_not_parted() -> None:
    sales = singles(29000, 30000, 31000)
    thin = ("fault", "thin", "MD")
    assert ways(replace(STRIP, attachment="cover"), thin, sales=sales) is None
    assert ways(replace(STRIP, multiple="block_4"), thin, sales=sales) is None
    assert ways(STRIP, ("fault", "thin", ""), sales=sales) is None  # of all, or not said of which
    assert ways(replace(STRIP, letters=()), thin, sales=sales) is None
