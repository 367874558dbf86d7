"""What holds of every price: faults, dear plates, offers, unread words."""

from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from counter.judge.price.comparables import Evidence
from counter.judge.price.offer import offer
from counter.judge.price.suggest import suggest
from counter.judge.price.suggestion import Suggestion
from counter.reference.loader import read_folder
from counter.values.item import Fault, Item
from counter.values.vat import on_margin
from tests.money.stocks import LIBRARY, market, priced, said

DAY = "2026-11-25"
FAULTS = sorted(LIBRARY.postal.faults)
BLACK = Item(
    "A1", issue="penny_black_1840", denomination="1d", plate="6", margins=("4",), cancel="maltese_cross"
)
WORD = st.text("bcdfghjklmnpqrstvwxz", min_size=7, max_size=12)


def sale(number: int, item: Item, price: int, day: str = "2026-10-01") -> Evidence:
    return Evidence(f"S{number}", replace(item, number=f"S{number}"), price, day)


def price_of(item: Item, sales: list[Evidence]) -> Suggestion:
    return suggest(market().thing(item), sales, market(), DAY)


SALES = st.lists(
    st.tuples(
        st.integers(500, 40000),
        st.lists(st.sampled_from(FAULTS), max_size=2, unique=True),
        st.sampled_from(("2026-11-01", "2026-01-01", "2023-05-05")),
        st.sampled_from(("6", "7", "")),
    ),
    min_size=3,
    max_size=9,
)


@settings(max_examples=60, deadline=None)
@given(SALES, st.lists(st.sampled_from(FAULTS), max_size=2, unique=True), st.sampled_from(FAULTS))
def test_a_fault_never_raises_a_price(
    sales: list[tuple[int, list[str], str, str]], faults: list[str], more: str
) -> None:
    assume(more not in faults)
    known = [
        sale(n, replace(BLACK, plate=plate, faults=tuple(map(Fault, has))), price, day)
        for n, (price, has, day, plate) in enumerate(sales)
    ]
    before = price_of(replace(BLACK, faults=tuple(map(Fault, faults))), known)
    after = price_of(replace(BLACK, faults=tuple(map(Fault, (*faults, more)))), known)
    if before.price is not None and after.price is not None:
        assert after.price <= before.price


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(10000, 15000), min_size=3, max_size=8),
    st.lists(st.integers(100000, 400000), min_size=1, max_size=8),
    st.sampled_from([plate for issue, plate in LIBRARY.market.plates if issue == BLACK.issue]),
)
def test_a_dear_plates_sales_never_move_a_common_ones(
    common: list[int], dear: list[int], plate: str
) -> None:
    ours = [sale(n, BLACK, price) for n, price in enumerate(common)]
    theirs = [sale(100 + n, replace(BLACK, plate=plate), price) for n, price in enumerate(dear)]
    alone, beside = price_of(BLACK, ours), price_of(BLACK, [*ours, *theirs])
    assert (alone.price, alone.low, alone.high) == (beside.price, beside.low, beside.high)
    assert {each.evidence.number for each in beside.others} >= {each.number for each in theirs}


@given(
    st.integers(1, 10**7),
    st.one_of(st.integers(0, 10**6), st.fractions(0, Fraction(9, 10), max_denominator=100)),
    st.sampled_from((Fraction(0), Fraction(1, 6), Fraction(7, 47))),
)
def test_an_offer_leaves_what_it_promises_marked_and_haggled(
    resale: int, wanted: int | Fraction, part: Fraction
) -> None:
    made = offer(resale, wanted, part, LIBRARY.money)
    for each in (made, made.haggled):
        if each.price is not None:
            assert on_margin(each.price, each.resale, part).net >= each.profit
            assert on_margin(each.price + 1, each.resale, part).net < each.profit  # no more can be paid
    if made.price is not None and made.haggled.price is not None:
        assert made.haggled.resale <= resale and made.haggled.price <= made.price


@settings(max_examples=40, deadline=None)
@given(WORD)
def test_an_unread_word_is_never_left_unsaid(word: str) -> None:
    known = [sale(n, BLACK, price) for n, price in enumerate((12000, 12500, 13000))]
    for line in (f"1d black pl 6 4 margins mx {word}", f"1d black pl 11 {word} 4 margins mx"):
        made = priced(line, known)
        text = said(made)
        assert word in text or any(
            each.slip or each.words in text for each in market().read(line).observations
        )
        assert "Not priced" in text or not any(word in each.text for each in market().read(line).unread)


def test_every_kind_of_observation_is_taken_or_named() -> None:
    from counter.judge.observation import KINDS

    assert set(LIBRARY.market.does) == set(KINDS)
    for fault in FAULTS:  # every fault of the reference has a factor
        assert market().schedule.step("fault", fault), fault
    for phrase in read_folder("vocabulary")["condition"]["phrase"]:
        if phrase["kind"] in ("fault", "repair", "condition"):
            made = priced(f"1d black pl 6 4 margins mx {phrase['spellings'][0]}", [])
            steps = {term for step in made.condition.steps for term in step.terms}
            assert phrase["value"] in {*steps, "none"} or made.not_priced, phrase
