"""The purchase line: what, price, payment, seller, in the ways a dealer types it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.desk.trade.purchase_line import DealLine, read_deal_line
from counter.reference.money import read_money_facts
from counter.values.errors import InputError

KNOWN = read_money_facts().currencies


def read(text: str) -> DealLine:
    return read_deal_line(text, KNOWN)


@pytest.mark.parametrize(
    ("text", "pieces", "amount", "payment", "seller", "kind"),
    [
        (
            "bt 2d blue 1841 pl 3 KC 4 margins £45 cash harrow",
            ("2d blue 1841 pl 3 KC 4 margins",),
            4500,
            "cash",
            "harrow",
            "",
        ),
        ("2d blue 45 cash harrow", ("2d blue",), 4500, "cash", "harrow", ""),
        ("2d blue cash £45 harrow", ("2d blue",), 4500, "cash", "harrow", ""),
        ("£45 cash 2d blue from harrow", ("2d blue",), 4500, "cash", "harrow", ""),
        ("bought £1 puc £450 card", ("£1 puc",), 45000, "card", "", ""),
        ("cover london to bath £12.50", ("cover london to bath",), 1250, "", "", ""),
        ("kiloware 50p cash", ("kiloware",), 50, "cash", "", ""),
        (
            "album £1,200 chq from Mrs Green (private)",
            ("album",),
            120000,
            "cheque",
            "Mrs Green",
            "private",
        ),
        ("box £80 bank A. Trader (vat)", ("box",), 8000, "transfer", "A. Trader", "VAT shown"),
        ("1d black; 2d blue £60 px", ("1d black", "2d blue"), 6000, "exchange", "", ""),
        ("1840 cover 2 margins £20 owed jones", ("1840 cover 2 margins",), 2000, "owed", "jones", ""),
    ],
)
def test_the_line_is_taken_apart(
    text: str, pieces: tuple[str, ...], amount: int, payment: str, seller: str, kind: str
) -> None:
    line = read(text)
    assert tuple(words for words, _ in line.pieces) == pieces
    assert (line.amount, line.payment, line.seller, line.seller_kind) == (amount, payment, seller, kind)
    assert line.currency.code == "GBP" and line.words == text


def test_expected_prices_and_other_currencies() -> None:
    line = read("1d black KC @80; 2d blue @45.50 €60 cash")
    assert line.pieces == (("1d black KC", 8000), ("2d blue", 4550))
    assert (line.amount, line.currency.code) == (6000, "EUR")
    assert read("2d blue USD 20 cash").currency.code == "USD"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "Say what was paid"),
        ("bt", "Say what was paid"),
        ("2d blue harrow", "Say what was paid"),
        ("2d blue £-5 cash", "negative"),
        ("2d blue -£5 cash", "negative"),
        ("2d blue £4.505 cash", "too many decimals"),
        ("2d blue ₿5 cash", "not a currency"),
        ("2d blue ZAR 45 cash", "ZAR is not a currency"),
        ("bt £45 cash", "Say what was bought"),
        ("1d @8; 2d £9 cash", "every piece, or to none"),
        ("box £80 cash X (duke)", "standing"),
    ],
)
def test_what_cannot_be_understood_is_said_in_one_sentence(text: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        read(text)
    assert says in str(refused.value) and "\n" not in str(refused.value)


@given(st.text(max_size=60))
def test_no_text_breaks_it(text: str) -> None:
    try:
        line = read(text)
    except InputError as refused:
        assert str(refused).endswith(".")
    else:
        assert line.amount >= 0 and line.pieces


@given(
    st.text("abc 1234;@-.,()", max_size=40), st.integers(1, 10**7), st.sampled_from(["cash", "card"])
)
def test_the_price_before_the_payment_is_the_price(head: str, pence: int, how: str) -> None:
    try:
        line = read(f"thing {head} £{pence / 100:.2f} {how} harrow")
    except InputError:
        return
    assert (line.amount, line.payment, line.seller) == (pence, how, "harrow")


@pytest.mark.parametrize(
    ("text", "pieces", "amount", "shares", "parts"),
    [
        # three prices: 8 + 9 + 50 = 67; never among the words of a piece
        ("bt a £8; b £9; c £50 cash", ("a", "b", "c"), 6700, (800, 900, 5000), ()),
        ("1d black £3.50; 2d blue £5", ("1d black", "2d blue"), 850, (350, 500), ()),
        ("£1 puc £450; £5 orange £900 card", ("£1 puc", "£5 orange"), 135000, (45000, 90000), ()),
        # parts of one price: 20 + 25 = 45
        ("2d blue £45 cash £20 cheque £25 Ann", ("2d blue",), 4500, (), (2000, 2500)),
        ("2d blue £20 cash £25 cheque Ann", ("2d blue",), 4500, (), (2000, 2500)),
        ("2d blue £45 £20 cash and £25 owed Ann", ("2d blue",), 4500, (), (2000, 2500)),
        ("2d blue cash £20, card £25", ("2d blue",), 4500, (), (2000, 2500)),
        ("12p machin £5 cash", ("12p machin",), 500, (), ()),
    ],
)
def test_several_sums(
    text: str, pieces: tuple[str, ...], amount: int, shares: tuple[int, ...], parts: tuple[int, ...]
) -> None:
    line = read(text)
    assert tuple(words for words, _ in line.pieces) == pieces
    assert (line.amount, line.shares) == (amount, shares)
    assert tuple(pence for _, pence in line.parts) == parts


@pytest.mark.parametrize(
    "text",
    [
        "a £8; b; c £50 cash",  # one of three has none
        "£3; £5",  # two prices of nothing
        "a £8 b £9 cash",  # the pieces are not parted
        "2d blue £45 cash £20 cheque £20 Ann",  # 40 is not 45
        "2d blue £45 £40",
        "2d blue £20 cash €25 cheque",
        "2d blue 45 cash 20 cheque Ann",
        "a @8 £8; b @9 £50 cash",
    ],
)
def test_sums_that_do_not_agree_are_refused(text: str) -> None:
    with pytest.raises(InputError) as refused:
        read(text)
    assert "\n" not in str(refused.value) and str(refused.value).endswith(".")
