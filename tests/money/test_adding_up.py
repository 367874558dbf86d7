"""The command line adds up: lists add, one value is given once, sums go in as they came out."""

import json
from pathlib import Path
from typing import Any

import pytest

from counter.cli.main import main


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    """Run a command over a folder of its own: (code, data, what stderr said)."""

    def ran(*words: str) -> tuple[int, Any, str]:
        code = main(["--data", str(tmp_path / "data"), *words, "--json"])
        out, err = capsys.readouterr()
        return code, json.loads(out) if out else out, err

    return ran


def bought(run: Any, words: str, *more: str) -> dict[str, Any]:
    code, data, err = run("buy", words, "--date", "2026-05-01", *more)
    assert code == 0, err
    return data  # type: ignore[no-any-return]


def numbers(run: Any, words: str) -> list[str]:
    return [each["number"] for each in bought(run, words)["items"]]


def test_an_option_that_takes_a_list_adds(run: Any) -> None:
    # 90 + 70 = 160: both are kept, though the option is given twice.
    first, second = numbers(run, "1d black £50; 1d red £40 cash Ann")
    out = run("sell", f"{first}=90", f"{second}=70", "--approval", "2026-07-01", "--date", "2026-05-02")
    kept = run("settle", out[1]["sale"], "--keep", first, "--keep", second, "--payment", "card")
    assert kept[1]["total_pence"] == 16000
    run("house", "--set", "name=A", "--set", "address=B")
    business = run("house")[1]["business"]
    assert (business["name"], business["address"]) == ("A", "B")
    purchase = bought(run, "2d blue £9 cash Bo")["purchase"]
    owed = run("owed", purchase, "--set", "seller_kind=private", "--set", "address=1 High St")[1][
        "owed"
    ]
    assert "seller's VAT standing" not in owed and "seller's address" not in owed


@pytest.mark.parametrize(
    "words",
    [
        ("buy", "2d blue £5 cash", "--date", "2026-05-01", "--date", "2026-05-02"),
        ("house", "--set", "name=A", "name=B"),
        ("house", "--vat", "20", "--vat", "25"),
        ("settle", "XX-S1", "--balance", "5", "--payment", "cash", "--payment", "card"),
    ],
)
def test_a_single_one_given_twice_is_refused(run: Any, words: tuple[str, ...]) -> None:
    code, _, err = run(*words)
    assert code == 2 and "twice" in err and len(err.strip().splitlines()) == 1


def test_the_same_way_paid_twice_is_two_parts(run: Any) -> None:
    (number,) = numbers(run, "1d black £50 cash Ann")
    sold = run(
        "sell", f"{number}=90", "--paid", "cash=20", "--paid", "cash=30", "--date", "2026-05-02"
    )[1]
    assert [(each["method"], each["pence"]) for each in sold["payments"]] == [
        ("cash", 2000),
        ("cash", 3000),
        ("owed", 4000),
    ]


def test_a_sum_goes_in_as_it_came_out(run: Any) -> None:
    # £100.00 is 10000 pence under the name that says pence, 100 under the one that does not.
    for given in ("opening_stock_pence=10000", "opening_stock=100", "opening_stock_pence=£100"):
        run("house", "--set", given)
        shown = run("house")[1]["business"]["opening_stock_pence"]
        assert shown == 10000
        run("house", "--set", f"opening_stock_pence={shown}")
        assert run("house")[1]["business"]["opening_stock_pence"] == 10000
    code, _, err = run("house", "--set", "opening_stock_pence=100.00")
    assert code == 2 and "in pence" in err
    assert run("house", "--set", "period_months=2")[0] == 1  # VAT has periods of 1, 3 and 12 months


def test_owed_money_reads_as_owed(run: Any, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    (number,) = numbers(run, "1d black £50 cash Ann")
    words = ["sell", f"{number}=270", "--paid", "cash=50", "--date", "2026-05-02"]
    assert main(["--data", str(tmp_path / "data"), *words]) == 0
    assert "£50.00 of £270.00 paid; £220.00 is owed" in capsys.readouterr().out


def test_a_discount_of_more_than_half_asks(run: Any) -> None:
    (number,) = numbers(run, "1d black £50 cash Ann")
    sale = ("sell", f"{number}=90", "--date", "2026-05-02", "--discount")
    code, _, err = run(*sale, "9")  # £9 for the lot: £90 with the nought lost, or 9 %
    assert code == 2 and "--agreed" in err
    assert run("quote", f"{number}=90", "--discount", "60%")[0] == 2
    assert run(*sale, "9", "--agreed")[1]["total_pence"] == 900


def test_two_discounts_in_a_row(run: Any) -> None:
    # 100 less 15 % is 85, less 5 % is 80.75.
    (number,) = numbers(run, "1d black £50 cash Ann")
    assert run("quote", f"{number}=100", "--discount", "15%+5%")[1]["total_pence"] == 8075


def test_prices_of_single_pieces_are_their_costs(run: Any) -> None:
    # 8 + 9 + 50 = 67, and no sum stays among the words of a piece.
    data = bought(run, "1d red KD £8; 1d red AB £9; 2d blue £50 cash Ann")
    assert data["total_pence"] == 6700 and [each["cost"] for each in data["items"]] == [800, 900, 5000]
    assert not any("£" in str(each.get("words", "")) for each in data["items"])


def test_parts_of_a_purchase_fall_on_their_ways(run: Any) -> None:
    # 45 in all: 20 cash and 25 by cheque, so the box loses 20.
    bought(run, "2d blue £45 cash £20 cheque £25 Ann")
    day = run("close-day", "--date", "2026-05-01")[1]
    assert day["paid_out"] == {"cash": 2000, "cheque": 2500} and day["box"] == -2000


def test_a_price_agreed_in_another_currency_is_what_was_agreed(run: Any) -> None:
    # M20: at 1.1834 an agreed 200.00 euro is 169.0045, 169.00 in pounds; the book keeps 200.00 euro. The
    # notes are no pounds: the box should hold what the purchase took out, 5.00. A rate of 2005 is said.
    number = numbers(run, "2d blue £5 cash Ann")[0]
    day = ("--date", "2026-05-01")
    run("house", "--exchange", "EUR=1.1834", "--source", "the bank", "--date", "2005-01-01")
    code, sold, err = run("sell", f"{number}=150", "--in", "€200", "--payment", "cash", *day)
    assert code == 0, err
    assert (sold["total_pence"], sold["foreign"]["amount_minor"]) == (16900, 20000)
    assert sold["foreign"]["rate_source"] == "the bank"
    assert any("days old" in each for each in sold["told"])
    close = run("close-day", *day)[1]
    assert (close["takings"], close["box"]) == ({"cash in EUR": 16900}, -500)
    for words in ("£200", "200 XYZ", "€0"):
        assert run("sell", number, "--in", words, *day)[0] == 2


def test_a_sum_agreed_for_several_is_shared_as_they_were_asked(run: Any) -> None:
    # 100 euro at 1.25 are 80.00: shared 3 to 1 as 90 and 30 were asked, 60.00 and 20.00.
    first, second = numbers(run, "1d black £50; 1d red £10 cash Ann")
    day = ("--date", "2026-05-01")
    run("house", "--exchange", "EUR=1.25", *day)
    sold = run("sell", f"{first}=90", f"{second}=30", "--in", "100 EUR", "--payment", "card", *day)[1]
    assert [each["price_pence"] for each in sold["lines"]] == [6000, 2000]
    assert not any("days old" in each for each in sold["told"])


def test_margin_counts_with_the_dealers_own_rate(run: Any) -> None:
    # M19: 25 % noted from 2027 on is a fifth of the margin: (200 - 100) / 5 = 20.00; before it a sixth, 16.67.
    run("house", "--vat", "25", "--date", "2027-01-01")
    sums = ("margin", "--bought", "100", "--sold", "200", "--date")
    assert run(*sums, "2027-02-01")[1]["vat"] == 2000
    assert run(*sums, "2026-12-31")[1]["vat"] == 1667
