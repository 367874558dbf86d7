"""The index against the plainest possible search, and against anything that may be typed."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from counter.describe.names import issue_names
from counter.reference.library import Library
from counter.search.bits import at_most, best, bits_of, plus, slots_of
from counter.search.index import StockIndex
from counter.search.query import read_question
from counter.search.tokenizer import pieces
from counter.values.item import Fault, Item

ISSUES = ("penny_black_1840", "penny_red_imperf_alphabet_one", "two_pence_1841_white_lines")
EVERY = issue_names(Library().stamps)
NAMES = {
    issue: EVERY[issue] for issue in (*ISSUES, "penny_red_four_letters", "two_pence_1840_no_lines")
}
letters = st.builds(str.__add__, st.sampled_from("ABKT"), st.sampled_from("ABCL"))
pieces_of_stock = st.builds(
    Item,
    number=st.integers(1, 40).map("WK-{}".format),
    issue=st.sampled_from(ISSUES),
    plate=st.sampled_from(("", "3", "6", "36")),
    letters=letters.map(lambda each: (each,)),
    margins=st.sampled_from(((), ("4",), ("3",))),
    faults=st.sampled_from(((), (Fault("thin"),), (Fault("crease", "at top"),))),
    asking=st.one_of(st.none(), st.integers(0, 10**7)),
    status=st.sampled_from(("in stock", "sold")),
)


def filled(items: list[Item]) -> tuple[StockIndex, dict[str, Item]]:
    index = StockIndex(NAMES)
    for item in items:
        index.put(item)
    return index, {item.number: item for item in items}


def found(index: StockIndex, text: str) -> set[str]:
    return {hit.number for hit in index.find(text, limit=100)}


@given(st.lists(pieces_of_stock, max_size=25), letters, st.sampled_from(("3", "6", "36")))
@settings(max_examples=60, deadline=None)
def test_exact_fields_find_what_a_scan_of_the_items_finds(
    items: list[Item], lettering: str, plate: str
) -> None:
    index, kept = filled(items)
    assert found(index, f"{lettering[0]} {lettering[1]} ") == {
        number for number, item in kept.items() if lettering in item.letters
    }
    assert found(index, f"pl {plate} ") == {
        number for number, item in kept.items() if item.plate == plate
    }


@given(st.lists(pieces_of_stock, max_size=25), st.integers(0, 110_000))
@settings(max_examples=60, deadline=None)
def test_bounds_find_what_a_scan_of_the_prices_finds(items: list[Item], pounds: int) -> None:
    index, kept = filled(items)
    priced = {number: item.asking for number, item in kept.items() if item.asking is not None}
    assert found(index, f"under {pounds}") == {
        n for n, price in priced.items() if price <= pounds * 100
    }
    assert found(index, f"over {pounds}") == {n for n, price in priced.items() if price >= pounds * 100}


@given(st.lists(pieces_of_stock, max_size=30), st.data())
@settings(max_examples=50, deadline=None)
def test_whatever_the_order_of_notes_the_index_is_as_if_built_anew(
    items: list[Item], data: st.DataObject
) -> None:
    index, kept = filled(items)
    for number in data.draw(st.lists(st.sampled_from(sorted(kept) or ["WK-1"]), max_size=8)):
        index.drop(number)
        kept.pop(number, None)
        if data.draw(st.booleans()):
            kept[number] = replace(data.draw(pieces_of_stock), number=number)
            index.put(kept[number])
    anew = StockIndex(NAMES)
    assert list(anew.put_many(kept.values(), chunk=7)) == [
        min(at + 7, len(kept)) for at in range(0, len(kept), 7)
    ]
    for text in ("1d black", "kc thin", "pl 3", "blakc 4 mgns", "under 5000", "sold", "wk-1"):
        assert scored(index, text) == scored(anew, text)


def scored(index: StockIndex, text: str) -> dict[str, tuple[float, tuple[tuple[int, int], ...]]]:
    return {hit.number: (hit.score, hit.spans) for hit in index.find(text, limit=100)}


@given(st.one_of(st.text(max_size=60), st.text("1d2/½ pkcblmx£-.=#<>4kwWK ", max_size=40)))
@settings(max_examples=200, deadline=None)
def test_nothing_that_is_typed_raises(text: str) -> None:
    for hit in EVERYDAY.find(text):
        assert 0 < hit.score <= 1
        assert all(0 <= start < end <= len(hit.line) for start, end in hit.spans)
        assert list(hit.spans) == sorted(set(hit.spans))
    for piece in pieces(text):
        assert 0 <= piece.start < piece.end <= len(text)
        assert piece.tokens and all(piece.tokens)
    read_question(text, lambda key, begun: False)


@given(st.text(max_size=80), st.text(max_size=30))
@settings(max_examples=50, deadline=None)
def test_any_words_in_an_item_are_kept_and_found(words: str, kept: str) -> None:
    index = StockIndex(NAMES)
    index.put(Item("WK-1", "penny_black_1840", words=words, kept=kept))
    assert words in index.line("WK-1")
    assert found(index, "1d black") == {"WK-1"}


EVERYDAY, _ = filled(
    [
        Item("WK-1", "penny_black_1840", plate="6", letters=("KC",), margins=("4",), asking=9500),
        Item("WK-2", "penny_red_four_letters", plate="148", letters=("CKKC",), asking=400),
        Item("WK-3", "two_pence_1840_no_lines", letters=("AB",), status="sold"),
    ]
)


def sliced(figures: list[int], places: int) -> list[int]:
    """Plain numbers as rows of bits, lowest binary digit first."""
    return [sum((f >> place & 1) << line for line, f in enumerate(figures)) for place in range(places)]


slots = st.sets(st.integers(0, 300))


@given(slots)
def test_bits_are_sets(some: set[int]) -> None:
    assert list(slots_of(bits_of(list(some)))) == sorted(some, reverse=True)


@given(st.lists(st.lists(st.integers(0, 7), min_size=20, max_size=20), max_size=6), st.integers(1, 25))
def test_bit_sliced_sums_and_the_best_are_those_of_plain_numbers(rows: list[list[int]], k: int) -> None:
    sums: list[int] = []
    for row in rows:
        worth = [
            sum((value >> place & 1) << line for line, value in enumerate(row)) for place in range(3)
        ]
        sums = plus(sums, worth)
    plain = [sum(row[line] for row in rows) for line in range(20)]
    read = [sum((digit >> line & 1) << place for place, digit in enumerate(sums)) for line in range(20)]
    assert read == plain
    sure, ties = best(sums, (1 << 20) - 1, k)
    chosen = [plain[line] for line in slots_of(sure)] + [plain[line] for line in slots_of(ties)]
    assert sorted(chosen, reverse=True)[:k] == sorted(plain, reverse=True)[:k]
    assert sure.bit_count() <= k


@given(st.lists(st.integers(0, 2**31 - 1), max_size=30), st.integers(-5, 2**32))
def test_bounds_on_bit_sliced_figures_are_those_of_plain_numbers(
    figures: list[int], bound: int
) -> None:
    within = at_most(sliced(figures, 31), (1 << len(figures)) - 1, bound)
    assert set(slots_of(within)) == {line for line, f in enumerate(figures) if f <= bound}
