"""The commands of buying and selling, from the line typed to the answer and the exit code."""

import json
from pathlib import Path
from typing import Any

import pytest

from counter.cli.main import main


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    """Run a command over a folder of its own: (code, data or text, what stderr said)."""

    def ran(*words: str, as_json: bool = True) -> tuple[int, Any, str]:
        given = ["--data", str(tmp_path / "data"), *words, *(["--json"] if as_json else [])]
        code = main(given)
        out, err = capsys.readouterr()
        return code, json.loads(out) if as_json and out else out, err

    return ran


def test_margin_answers_in_pence(run: Any) -> None:
    code, data, _ = run("margin", "--bought", "45.00", "--sold", "72.50", "--date", "2026-05-01")
    assert (code, data) == (0, {"margin": 2750, "vat": 458, "net": 2292})
    why = run("margin", "--bought", "45", "--sold", "72.50", "--date", "2026-05-01", "--why")[1]
    assert why["fraction"] == "1/6" and "HMRC" in why["caution"] and why["reasons"][0]["source"]
    loss = run("margin", "--bought", "400", "--sold", "350", "--date", "2026-05-01")[1]
    assert loss == {"margin": -5000, "vat": 0, "net": -5000}
    full = run("margin", "--bought", "45", "--sold", "72", "--scheme", "ordinary")[1]
    assert full["vat"] == 1200
    none = run("margin", "--bought", "45", "--sold", "72", "--scheme", "none", as_json=False)[1]
    assert "no VAT" in none and "%" not in none.splitlines()[1]


def test_split_answers_in_pence_that_add_up(run: Any) -> None:
    code, data, _ = run("split", "--total", "100.00", "30", "45", "80")
    assert code == 0 and data["shares"] == [1936, 2903, 5161] and sum(data["shares"]) == data["total"]


def test_a_day_is_taken_in_the_words_of_the_ask_line(run: Any) -> None:
    sums = ("margin", "--bought", "45", "--sold", "72.50", "--why")
    for day in ("1 may 2026", "1st May 2026", "1.5.26", "may 1, 2026"):
        assert run(*sums, "--date", day) == run(*sums, "--date", "2026-05-01")
    assert run("book", "--from", "1 may 2026", "--to", "2.5.2026")[1]["until"] == "2026-05-02"
    early = run("rate", "--date", "12", "mar", "1842", "--ounces", "½")[1]
    assert early == run("rate", "--date", "1842-03-12", "--ounces", "½")[1] and early["pence"] == 1


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["margin", "--bought", "-45", "--sold", "72"], 2),
        (["margin", "--bought", "45.001", "--sold", "72"], 2),
        (["margin", "--bought", "XYZ45", "--sold", "72"], 2),
        (["margin", "--bought", "45", "--sold", "72", "--date", "31.6.2026"], 2),
        (["margin", "--bought", "45", "--sold", "72", "--date", "1960-01-01"], 1),
        (
            [
                "margin",
                "--bought",
                "45",
                "--sold",
                "5",
                "--date",
                "2026-05-01",
                "--bought-on",
                "2026-05-02",
            ],
            2,
        ),
        (["split", "--total", "-1", "5"], 2),
        (["split", "--total", "1", "0"], 2),
        (["buy", ""], 2),
        (["buy", "2d blue harrow"], 2),
        (["buy", "2d blue £-5 cash"], 2),
        (["buy", "2d blue £5.005 cash"], 2),
        (["buy", "2d blue ₿5 cash"], 2),
        (["buy", "2d blue €5 cash"], 1),
        (["buy", "2d blue £5 cash x (vat)", "--scheme", "margin"], 1),
        (["sell", "WK-99=5"], 1),
        (["sell", "=5"], 2),
        (["sell", "WK-99", "--discount=--"], 2),
        (["book", "--from=--", "--to", "2026-05-01"], 2),
        (["gauge", "--holes", "x", "--over", "20 mm"], 2),
        (["owed", "WK-P9", "", "more"], 2),
        (["owed", "WK-P9", "--set", "house=x", "number=x"], 1),
        (["settle", "WK-S9", "--refund", "--reason", "x"], 1),
        (["book", "--from", "2026-05-02", "--to", "2026-05-01"], 2),
        (["book", "--from", "soon", "--to", "2026-05-01"], 2),
        (["price", "WK-99"], 2),
        (["quote", "WK-99=5"], 1),
        (["quote"], 1),
        (["invoice", "WK-S9"], 1),
        (["people", "WK-N9", "--erase"], 1),
        (["house", "--set", "moon=1"], 2),
        (["house", "--exchange", "ZZZ=1"], 2),
        (["close-day", "--counted", "-5"], 2),
        (["close-day", "--cash", "beer=5"], 2),
        (["owed", "WK-P9", "--set", "seller=x"], 1),
        (["lot", "WK-P9", "WK-1=5"], 1),
    ],
)
def test_bad_input_is_one_sentence_and_changes_nothing(
    run: Any, tmp_path: Path, words: list[str], code: int
) -> None:
    got, out, err = run(*words, as_json=False)
    assert (got, out) == (code, "")
    assert err.strip().endswith(".") or err.strip().endswith(").")
    assert len(err.strip().splitlines()) == 1
    assert "Traceback" not in err
    for table in run("people")[1].values():
        assert table == []


@pytest.mark.parametrize("verb", ["sell", "quote"])
def test_a_piece_is_sold_or_quoted_once(run: Any, verb: str) -> None:
    number = run("buy", "2d blue £4 cash harrow")[1]["items"][0]["number"]
    code, _, err = run(verb, f"{number}=5", f"{number}=6", as_json=False)
    assert (code, err) == (2, f"{number} is named twice; name each piece once.\n")


def test_words_too_many_are_named_with_the_commands_own_help(run: Any) -> None:
    code, _, err = run("verify", "all", "", as_json=False)
    assert (code, err) == (2, "Not understood here: all '' (try: counter verify --help).\n")


def test_a_day_at_the_stall(run: Any, tmp_path: Path) -> None:
    run(
        "house",
        "--set",
        "name=A. Dealer",
        "address=1 High Street",
        "vat_number=GB 1",
        "registered_from=2020-01-01",
    )
    look = run("buy", "bt 2d blue 1841 pl 3 KC 4 margins £45 cash harrow", "--look")[1]
    assert look["noted"] is False and run("owed")[1] == {"owed": []}
    bought = run("buy", "bt 2d blue 1841 pl 3 KC 4 margins £45 cash harrow")[1]
    item = bought["items"][0]
    assert (item["plate"], item["letters"], item["margins"], item["cost"]) == ("3", ["KC"], ["4"], 4500)
    assert bought["noted"] and bought["payment"] == "cash" and bought["owed"]
    number = item["number"]
    lot = run("buy", "1d black pl 6 KC; 2d blue pl 3 thin; 1d red pl 9 £100 card jones (private)")[1]
    names = [each["number"] for each in lot["items"]]
    prices = [f"{name}={price}" for name, price in zip(names, ("30", "45", "80"), strict=True)]
    assert list(run("lot", lot["purchase"], *prices)[1]["shares"].values()) == [1936, 2903, 5161]
    assert run("lot", lot["purchase"], *prices)[0] == 1
    sold = run("sell", f"{number}=72.50", "--payment", "cash", "--buyer", "Green")[1]
    assert (sold["total_pence"], sold["vat_pence"]) == (7250, 458)
    assert run("sell", f"{number}=72.50")[0] == 1
    invoice = run("invoice", sold["sale"], "--page", str(tmp_path / "invoice.html"), as_json=False)[1]
    assert "collectors' items and antiques" in invoice and (tmp_path / "invoice.html").exists()
    kept = run(
        "quote", f"{names[0]}=30", f"{names[1]}=45.01", "--discount", "70", "--customer", "Green"
    )[1]
    assert (
        kept["total_pence"] == 7000
        and run("quote", "--find", "green")[1]["quotes"][0]["id"] == kept["id"]
    )
    from_quote = run("sell", "--quote", kept["id"], "--paid", "card=70")[1]
    assert from_quote["total_pence"] == 7000 and from_quote["buyer"] == sold["buyer"]
    back = run("settle", from_quote["sale"], "--refund", names[1], "--reason", "a second thin")[1]
    assert back["refund_of"] == from_quote["sale"]
    taken = run("sell", f"{names[2]}=90", "--exchange", "1d red pl 10 £20", "--payment", "cash")[1]
    assert taken["exchange_purchase"]
    book = run(
        "book", "--from", "2026-01-01", "--to", "2099-12-31", "--csv", str(tmp_path / "book.csv")
    )[1]
    assert (tmp_path / "book.csv").read_text(encoding="utf-8").count("\n") == len(book["lines"]) + 1
    assert book["totals"]["box_1"] == book["totals"]["vat_on_margins"] and book["missing"]
    day = run("close-day", "--cash", "float=100", "--counted", "150")[1]
    assert day["box"] == 10000 + day["takings"]["cash"] - day["paid_out"]["cash"]
    assert day["difference"] == 15000 - day["box"]
    person = run("people")[1]["people"][0]
    done = run("people", person["id"], "--set", "address=2 Low Lane")[1]
    assert done["address"] == "2 Low Lane"
    assert run("people", person["id"], "--erase")[1]["kept"] == ["name", "address"]
    assert run("verify", as_json=False)[0] == 0


def test_price_lists_what_it_rests_on(run: Any) -> None:
    numbers = []
    for _ in range(4):
        bought = run("buy", "2d blue 1841 pl 3 KC 4 margins £20 cash")[1]
        numbers.append(bought["items"][0]["number"])
    for number, price in zip(numbers[:3], ("40", "45", "60"), strict=True):
        run("sell", f"{number}={price}")
    data = run("price", numbers[3], "--profit", "10")[1]
    assert (data["suggestion"], data["marked"], data["count"]) == (4500, 4500, 3)
    assert {each["number"] for each in data["comparables"]} == set(numbers[:3])
    assert data["offer"]["price"] == 3500  # not registered: 45 less 10, no VAT
    hidden = run("price", numbers[3], as_json=False)[1]
    assert "--costs" in hidden and "45" not in hidden and numbers[0] not in hidden
    text = run("price", numbers[3], "--costs", as_json=False)[1]
    assert "suggest" in text and "range" in text
    assert run("price", "2d", "blue", "1841", "pl", "3", "thin")[1]["suggestion"] == 1800
