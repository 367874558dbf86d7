"""One job from the doubt to the book, through the command line and the screen; each step in other words.

Stamps, towns, people and sums are invented; the rules behind the steps are common practice of the trade.
"""

from __future__ import annotations

import contextlib
import io
import json
from pathlib import Path
from typing import Any

import pytest

from counter.cli.main import main
from counter.desk.opening import open_desk
from counter.tui.app import CounterApp
from tests.tui.conftest import LIBRARY, NOW, Stall
from tests.tui.test_sale import walk

STRIP = "strip of 4 2d blue no lines pl 2 RC-RF"
LETTER = f"{STRIP} on entire, wexholm to ludmere 9 sep 1840, red mx, 4 oz"
#: The strip as two dealers would say it; the margins and the faults belong to their stamps.
TOLD = (
    f"{STRIP}, RF cut into at right, RE touched, RC and RD 4 margins, thin in RF, red mx",
    f"{STRIP}, RE touched, RF cut into, RC and RD 4 margins, red mx, thin in RF",
)
OF_EACH = ("4", "4", "touched", "cut_into")


def told(folder: Path, *words: str) -> str:
    """What a command prints."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        assert main(["--data", str(folder), *words]) == 0, words
    return out.getvalue()


def answer(folder: Path, *words: str) -> Any:
    return json.loads(told(folder, *words, "--json"))


@pytest.mark.parametrize(
    "tie",
    ["no cross ties", "not tied", "none of the crosses tie", "not one of the four crosses ties it"],
)
def test_a_strip_that_no_cancel_ties_is_doubted_with_reasons(tmp_path: Path, tie: str) -> None:
    made = answer(tmp_path, "cover", f"{LETTER}, {tie}")
    assert made["finding"] not in ("consistent", "supports", "belongs")
    assert any(each["reason"] for each in made["checks"])


@pytest.mark.parametrize("how", ["float", "soak"])
def test_it_is_loosened_with_cautions_and_never_on_its_cover(tmp_path: Path, how: str) -> None:
    on = told(tmp_path, "treat", f"{STRIP} on cover red mx", "--with", how)
    loose = told(tmp_path, "treat", f"{STRIP} used on piece red mx", "--with", how)
    assert "never" in on.splitlines()[0]
    assert "with care" in loose and "Red cancels" in loose and "certificate" in loose


@pytest.mark.parametrize("cross", ["browned red mx", "red mx gone brown", "brown mx"])
def test_what_may_clear_a_browned_cross_and_for_how_long_is_said(tmp_path: Path, cross: str) -> None:
    said = told(tmp_path, "treat", f"1d black {cross} used loose", "--with", "peroxide on a brush")
    assert "sulphid" in said and "seconds" in said and "browned" in said


@pytest.mark.parametrize("words", TOLD)
def test_bought_stamp_by_stamp_mended_priced_quoted_sold_and_booked(tmp_path: Path, words: str) -> None:
    folder = tmp_path / "data"
    answer(folder, "house", "--set", "name=A. Dealer", "address=1 High Street", "vat_number=GB 1",
           "registered_from=2020-01-01")  # fmt: skip
    single = "2d blue no lines pl 2 {} 4 margins red mx"
    for place, price in enumerate((600, 620, 640), 1):
        bought = answer(
            folder, "buy", f"{single.format('A' + 'BCDE'[place])} £90 cash", "--date", "2026-01-05"
        )
        number = bought["items"][0]["number"]
        answer(folder, "sell", f"{number}={price}", "--date", f"2026-04-0{place}", "--payment", "card")
    made = answer(folder, "buy", f"{words} £410 cash Harrow", "--date", "2026-05-01")["items"][0]
    assert made["letters"] == ["RC", "RD", "RE", "RF"] and tuple(made["margins"]) == OF_EACH
    assert [(each["term"], each["where"]) for each in made["faults"]] == [("thin", "in RF")]

    async def on_the_screen() -> None:
        app = CounterApp(lambda: open_desk(folder, library=LIBRARY, clock=lambda: NOW), theme="night")
        async with app.run_test(size=(100, 70)) as pilot:
            stall = Stall(app, pilot)
            await stall.wait_for("pieces")
            assert app.desk
            app.open_screen("item", app.desk, app.board, app.desk.item(made["number"]))
            await stall.wait_for("the others 4 margins")
            await stall.said("RE touched, RF cut into, the others 4 margins")
            assert "Thin in RF" in stall.text() or "thin in RF" in stall.text()
            await app.workers.wait_for_complete()
            assert "taken off" not in stall.text()  # what it is worth waits for its key
            await stall.press("f8")
            await stall.said("With RF taken off: strip of 3 RC to RE")
            await stall.press("enter")  # a crease comes to light: it is added to its stamp
            faults = [each.key for each in app.screen.fields()].index("faults")  # type: ignore[attr-defined]
            await stall.press(*["down"] * faults)
            await stall.type("+ crease in RE")
            await stall.press("enter")
            await stall.wait_for("Noted")
            await stall.press("escape", "f4")
            await stall.wait_for("crease in RE")  # and the change is in its history
        app.desk.close()

    walk(on_the_screen())
    number = made["number"]
    ways = answer(folder, "price", number, "--costs")["both_ways"]
    assert ways["worst"] == "RF" and ways["parts"][0]["piece"] == "strip of 3 RC to RE"
    kept = answer(folder, "quote", f"{number}=900", "--customer", "Green")
    sold = answer(folder, "sell", "--quote", kept["id"], "--payment", "card", "--date", "2026-05-02")
    paper = " ".join(told(folder, "invoice", sold["sale"]).split())
    assert "RE touched, RF cut into, the others 4 margins" in paper
    assert "thin in RF; crease in RE" in paper and "410" not in paper
    book = answer(folder, "book", "--from", "2026-05-01", "--to", "2026-05-31")
    line = next(each for each in book["lines"] if each["stock_number"] == number)
    assert (line["purchase_price"], line["selling_price"], line["margin"]) == (41000, 90000, 49000)
    assert line["vat_due"] == 8167  # a sixth of 490.00, half up
