"""Mending a piece: what is typed becomes what is kept, or one sentence and nothing changed.

The terms of faults and margins, the watermarks and the cancels are the reference's own; the marks of
punctuation between them are the program's. Trade words for faults: common practice.
"""

from __future__ import annotations

import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter.describe.description import long_form, short_line
from counter.describe.wording import plain_term
from counter.desk.desk import Desk
from counter.desk.stock.edit_item import mended, note_issue, save_field
from counter.desk.stock.item_fields import EDITABLE, FIELD, editable_fields
from counter.desk.stock.item_history import item_history
from counter.desk.trade.open_purchases import owing
from counter.trade.buying import Deal, note_purchase
from counter.trade.selling import Order, Wanted, note_sale
from counter.values.errors import InputError, UserError
from counter.values.item import Certificate, CoverFacts, Fault, Item

BLANK = Item("XX-1")
STRIP = Item("XX-1", multiple="strip_4")


@pytest.mark.parametrize(
    ("key", "typed", "kept"),
    [
        ("asking", "£1,250.50", {"asking": 125050}),
        ("kept", " red album p. 4 ", {"kept": "red album p. 4"}),
        ("status", "Reserved", {"status": "reserved"}),
        ("plate", "pl 6", {"plate": "6"}),
        ("plate", "R1", {"plate": "R1"}),
        ("letters", "kc", {"letters": ("KC",)}),
        ("letters", "ck-kc", {"letters": ("CKKC",)}),
        ("margins", "4 large margins", {"margins": ("four_large",)}),
        ("margins", "just touched", {"margins": ("touched",)}),
        ("watermark", "small crown inv", {"watermark": "small_crown inverted"}),
        ("multiple", "irregular block of 5", {"multiple": "irregular_5"}),
        ("multiple", "block of four", {"multiple": "block_4"}),
        ("cancel", "red mx", {"cancel": "maltese_cross", "cancel_colour": "red"}),
        ("cancel", "black numeral 46", {"cancel": "numeral", "cancel_number": "46"}),
        ("cancel", "none", {"cancel": "none"}),
        ("gum", "mounted, original gum", {"gum": "hinged"}),
        ("certificate", "Hill Committee; 2019; 44; genuine; small thin",
         {"certificate": Certificate("Hill Committee", "2019", "44", "genuine; small thin")}),
        ("photographs", "'/p/front.jpg'; back.png", {"photographs": ("/p/front.jpg", "back.png")}),
        ("cover.date", "12 may 1840", {"cover": CoverFacts(date="1840-05-12")}),
        ("attachment", "on cover", {"attachment": "cover"}),
    ],
)  # fmt: skip
def test_words_become_fields(key: str, typed: str, kept: dict, library) -> None:
    now = mended(BLANK, key, typed, library)
    assert {name: getattr(now, name) for name in kept} == kept


@pytest.mark.parametrize(
    ("typed", "faults"),
    [
        ("thin at top", [Fault("thin", "at top")]),
        ("corner crease", [Fault("crease", "corner")]),  # where it is must not be lost
        ("closed tear 3 mm at left; stain", [Fault("closed_tear", "3 mm at left"), Fault("stain")]),
        ("pulled perf lower right", [Fault("pulled_perf", "lower right")]),
        ("creese at foot", [Fault("crease", "at foot")]),
        ("repaired (thin filled at right)", [Fault("repaired", "thin filled at right")]),
        ("light toning", [Fault("light_toning")]),
    ],
)
def test_faults_are_terms_with_where(typed: str, faults: list[Fault], library) -> None:
    assert mended(BLANK, "faults", typed, library).faults == tuple(faults)


def test_every_term_of_the_reference_can_be_typed(library) -> None:
    for term in library.postal.faults:
        assert mended(BLANK, "faults", plain_term(term), library).faults == (Fault(term),)
    for mark in library.stamps.watermarks:
        assert mended(BLANK, "watermark", plain_term(mark), library).watermark == mark
    for margin in library.postal.margins:
        assert mended(BLANK, "margins", plain_term(margin), library).margins, margin


def test_plus_adds_and_nothing_empties(library) -> None:
    one = mended(BLANK, "faults", "thin", library)
    two = mended(one, "faults", "+ crease at top", library)
    assert two.faults == (Fault("thin"), Fault("crease", "at top"))
    assert mended(two, "faults", "", library).faults == ()
    cancelled = mended(BLANK, "cancel", "red mx 5", library)
    assert mended(cancelled, "cancel", "", library) == BLANK
    posted = mended(BLANK, "cover.town", "Harrow", library)
    assert mended(posted, "cover.town", "", library).cover is None


@pytest.mark.parametrize(
    ("key", "typed", "says"),
    [
        ("asking", "-3", "negative"),
        ("asking", "0", "more than nothing"),
        ("asking", "1.234", "too many decimals"),
        ("status", "sold", "choose in stock"),
        ("status", "", "needs a status"),
        ("faults", "bruise", "write one of"),
        ("faults", "no thin", "says there is none"),
        ("margins", "huge-ish", "not a word for margins"),
        ("margins", "4 / 4", "A single has one stamp"),
        ("letters", "K", "check letters"),
        ("letters", "KC KD", "A single has one stamp"),
        ("multiple", "strip of threes", "not a multiple"),
        ("watermark", "garter", "may be"),
        ("cancel", "red cogwheel", "cogwheel was not understood"),
        ("certificate", "; 2019", "whose it is"),
        ("cover.date", "tuesday", "not a date"),
        ("gum", "minty", "choose"),
        ("plate", "a very long plate", "not a plate"),
    ],
)
def test_what_is_not_understood_is_one_sentence(key: str, typed: str, says: str, library) -> None:
    with pytest.raises(InputError) as told:
        mended(BLANK, key, typed, library)
    assert says in str(told.value) and "\n" not in str(told.value)


def test_a_smaller_multiple_must_hold_what_is_noted(library) -> None:
    strip = mended(STRIP, "letters", "KC-KF", library)
    assert strip.letters == ("KC", "KD", "KE", "KF")
    with pytest.raises(InputError, match="pair has 2 stamps, but 4 letterings"):
        mended(strip, "multiple", "pair", library)


# What is shown can be typed again: the form lets a person fetch what stands and change a word of it.

_words = st.text(string.ascii_letters + string.digits + " '", max_size=20).map(lambda s: s.strip())
_items = st.builds(
    Item,
    number=st.just("XX-1"),
    asking=st.none() | st.integers(1, 10**9),
    kept=_words,
    plate=st.sampled_from(["", "6", "148", "1a", "R1"]),
    letters=st.sampled_from([(), ("KC",), ("CKKC",), ("KC", "KD")]),
    margins=st.sampled_from([(), ("4",), ("four_large",), ("close", "touched"), ("cut_into",), ("0",)]),
    multiple=st.sampled_from(["pair", "strip_3", "block_4", "irregular_5"]),
    watermark=st.sampled_from(["", "small_crown", "large_crown_2", "orb inverted", "emblems sideways"]),
    cancel=st.sampled_from(["", "maltese_cross", "numeral", "cds", "pen", "squared_circle", "none"]),
    gum=st.sampled_from(["", "used", "unused_og", "hinged", "no_gum"]),
    faults=st.lists(
        st.builds(Fault, st.sampled_from(["thin", "crease", "pulled_perf", "light_toning"]),
                  st.sampled_from(["", "at top", "lower right", "3 mm, at foot", "near [red]"])),
        max_size=3,
    ).map(tuple),
    certificate=st.none() | st.builds(Certificate, st.just("Hill Committee"), _words, _words),
    photographs=st.sampled_from([(), ("a.jpg",), ("/home/me/a b.png", "c.jpg")]),
    remarks=_words,
    words=_words,
)  # fmt: skip


@settings(max_examples=120, deadline=None)
@given(_items)
def test_what_is_shown_reads_back_the_same(library, item: Item) -> None:
    for field in EDITABLE:
        shown = field.show(item)
        if shown:
            assert mended(item, field.key, shown, library) == item, (field.key, shown)


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(sorted(FIELD)), st.text(max_size=60))
def test_anything_typed_is_kept_or_refused_in_a_sentence(library, key: str, typed: str) -> None:
    try:
        now = mended(STRIP, key, typed, library)
    except InputError as bad:
        assert str(bad).endswith(".")
        return
    long_form(now, {})  # whatever was kept can be described
    field = FIELD[key]
    if field.key == "kept":
        assert now.kept == typed.strip()


# Noted durably, one entry each


def test_a_mend_is_one_entry_and_can_be_taken_back(desk) -> None:
    before, entries = desk.item("WK-1102"), desk.ledger.state.entries
    said = save_field(desk, "WK-1102", "asking", "2,300")
    assert "asking price £2,300.00" in said
    assert desk.ledger.state.entries == entries + 1
    assert desk.item("WK-1102").asking == 230000
    assert desk.item("WK-1102").cost == before.cost
    latest = item_history(desk.ledger, "WK-1102")[0]
    assert latest.verb == "asking price corrected"
    assert latest.changes == (("asking price", "£2,400.00", "£2,300.00"),)
    desk.take_back()
    assert desk.item("WK-1102") == before


def test_the_same_again_is_not_noted(desk) -> None:
    entries = desk.ledger.state.entries
    assert "stands so already" in save_field(desk, "WK-1102", "plate", "11")
    assert desk.ledger.state.entries == entries


def test_a_refusal_changes_nothing(desk) -> None:
    before, entries = desk.item("WK-1102"), desk.ledger.state.entries
    for key, typed in (("kept", "x" * 30_000), ("asking", "minus"), ("faults", "bruised")):
        with pytest.raises(UserError):
            save_field(desk, "WK-1102", key, typed)
    assert (desk.item("WK-1102"), desk.ledger.state.entries) == (before, entries)


def test_what_a_sale_decided_is_not_mended(desk) -> None:
    sold = next(row["number"] for row in desk.ledger.rows("items") if row.get("status") == "sold")
    with pytest.raises(UserError, match="a return or refund changes that"):
        save_field(desk, sold, "status", "in stock")
    assert "cost" not in FIELD


def test_a_candidate_becomes_the_issue(desk) -> None:
    found = desk.ask("1d black kc").candidates[0]
    said = note_issue(desk, "WK-894", found)  # came in as words only
    assert found.name in said and desk.item("WK-894").issue == found.issue_id
    assert "already" in note_issue(desk, "WK-894", found)
    assert item_history(desk.ledger, "WK-894")[0].verb == "identified"


def test_what_it_was_known_by_is_kept_with_the_piece(desk) -> None:
    """Taken back and set anew, of a piece that came in as words only: issue, die, alphabet, evidence."""
    asked = desk.ask("1d red-brown imperf blued small crown alphabet II")
    note_issue(desk, "WK-894", asked.candidates[0])
    kept = desk.item("WK-894")
    assert (kept.issue, kept.die, kept.alphabet) == ("penny_red_imperf_alphabet_two", "I", "II")
    assert "alphabet: " in kept.remarks and "%" in kept.remarks
    other = next(each for each in asked.candidates if each.issue_id == "penny_red_imperf_alphabet_one")
    assert other.name in note_issue(desk, "WK-894", other)
    anew = desk.item("WK-894")
    assert (anew.issue, anew.alphabet) == ("penny_red_imperf_alphabet_one", "I")
    assert kept.remarks in anew.remarks and "against it: alphabet" in anew.remarks
    assert item_history(desk.ledger, "WK-894")[0].verb == "identified anew"
    desk.take_back()
    assert desk.item("WK-894") == kept
    assert "identified" not in short_line(kept, desk.names)


def test_the_history_never_tells_a_cost(desk) -> None:
    for number in ("WK-1", "WK-868", "WK-1102"):
        for touch in item_history(desk.ledger, number):
            assert all(label != "cost" for label, _, _ in touch.changes)


def test_cover_fields_are_asked_only_of_covers(desk) -> None:
    keys = {each.key for each in editable_fields(desk.item("WK-1102"))}
    assert not any(key.startswith("cover.") for key in keys)
    assert "cover.date" in {each.key for each in editable_fields(desk.item("WK-994"))}


@pytest.mark.parametrize("count", [1, 2, 3])
def test_a_price_paid_for_several_waits_to_be_shared(desk: Desk, count: int) -> None:
    pieces = tuple(Item("", words="plain") for _ in range(count))
    bought = note_purchase(desk.trading.settings, Deal("2026-05-01", 900, pieces, payment="cash"))
    assert owing(desk.trading, bought.purchase.id).unsplit == (count > 1)


@pytest.mark.parametrize("status", ["deposit", "on approval"])
def test_a_piece_that_a_sale_holds_is_not_set_in_stock_by_hand(desk: Desk, status: str) -> None:
    books = desk.trading.settings
    bought = note_purchase(books, Deal("2026-05-01", 900, (Item("", words="plain"),), payment="cash"))
    number = bought.items[0].number
    paid = (("cash", 500),) if status == "deposit" else ()
    order = Order(
        "2026-05-02", (Wanted(number, 2000),), status=status, payments=paid, due_back="2026-06-01"
    )
    sold = note_sale(books, order)
    with pytest.raises(UserError, match=sold.sale.id):
        save_field(desk, number, "status", "in stock")
    assert desk.ledger.items.of(number).status != "in stock"
