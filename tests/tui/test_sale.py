"""Selling on the screen: few keys, read back, noted durably, the paper and its file; kept quotes."""

import asyncio
import re
from typing import Any

import pytest

from tests.tui.conftest import Stall, open_stall
from tests.tui.test_counter import HOSTILE


def walk(coroutine: Any) -> None:
    asyncio.run(coroutine)


def desk_of(stall: Stall) -> Any:
    return stall.app.desk


async def quoted(stall: Stall, discount: str = "") -> Any:
    """Two blacks in the quote, the quote's screen in front."""
    await stall.type("1d black")
    await stall.press("enter", "down", "enter", "f3")
    if discount:
        await stall.type(discount)
        await stall.press("enter")
    return stall.app.board.quote  # type: ignore[attr-defined]


def test_a_cash_sale_takes_four_keys_from_the_quote() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            quote = await quoted(stall, "10%")
            before = stall.keys
            await stall.press("f6", "1", "enter", "f9")
            assert stall.keys - before == 4
            await stall.wait_for("Noted as")
            number = re.search(r"Noted as (\S+)", stall.text()).group(1)  # type: ignore[union-attr]
            row = desk_of(stall).ledger.row("sales", number)
            assert row["total_pence"] == quote.total and row["payments"][0]["method"] == "cash"
            nets = [each["price_pence"] - each.get("discount_pence", 0) for each in row["lines"]]
            assert nets == list(quote.prices) and sum(nets) == quote.total  # shared to the penny
            assert all(desk_of(stall).item(each.number).status == "sold" for each in quote.lines)
            assert not stall.app.board.quote.lines  # type: ignore[attr-defined]
            shown = stall.text()
            assert "Invoice" in shown and "Thimblegate" in shown
            for line in row["lines"]:  # neither cost nor VAT stands on the paper
                assert f"£{line['cost_pence'] / 100:,.2f}" not in shown

    walk(walked())


def test_how_it_is_paid_is_asked_before_a_sale_is_noted_as_owed() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await quoted(stall)
            before = len(desk_of(stall).ledger.rows("sales"))
            await stall.press("f6", "f9")
            await stall.said("How is it paid?")
            assert "are owed then" in " ".join(stall.text().split())
            assert len(desk_of(stall).ledger.rows("sales")) == before
            await stall.press("f9")
            await stall.wait_for("Noted as")
            assert "owed" in stall.text()
            parts = desk_of(stall).ledger.rows("sales")[-1]["payments"]
            assert [each["method"] for each in parts] == ["owed"]

    walk(walked())


def test_the_page_to_print_goes_where_the_person_says(tmp_path: Any) -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await quoted(stall)
            await stall.press("f6", "2", "enter", "f9")
            await stall.wait_for("Noted as")
            await stall.press("f6")
            assert str(desk_of(stall).ledger.folder)[:20] in stall.text().replace("\n", "")
            entry = stall.app.screen.query_one("#name")
            entry.value = str(tmp_path / "missing" / "sale.html")  # type: ignore[attr-defined]
            await stall.press("enter")
            await stall.wait_for("There is no folder")  # a refusal is a sentence, nothing is lost
            entry.value = str(tmp_path / "sale.html")  # type: ignore[attr-defined]
            await stall.press("enter")
            await stall.wait_for("Written to")
            page = (tmp_path / "sale.html").read_text(encoding="utf-8")
            assert page.startswith("<!doctype html>") and "Invoice" in page and "margin" in page

    walk(walked())


def test_parts_exchange_currency_and_postage_in_one_form() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            desk = desk_of(stall)
            desk.trading.settings.set_exchange("EUR", "1.1650", "2026-05-01")
            quote = await quoted(stall)
            await stall.press("f6")
            await stall.type("card")
            await stall.press("enter", "down", "down")
            await stall.type("Mr Green")
            await stall.press("enter")
            await stall.type("1d red pl 9 £5")
            await stall.press("enter")
            await stall.type("EUR")
            await stall.press("enter")
            await stall.type("1.50")
            await stall.press("enter")
            assert "Taken in" in stall.text(), stall.text()
            assert "In EUR" in stall.text(), stall.text()
            await stall.press("enter")  # the last line notes it
            await stall.wait_for("Noted as")
            number = re.search(r"Noted as (\S+)", stall.text()).group(1)  # type: ignore[union-attr]
            row = desk.ledger.row("sales", number)
            assert row["total_pence"] == quote.total + 150
            paid = {each["method"]: each["pence"] for each in row["payments"]}
            assert paid == {"card": quote.total + 150 - 500, "exchange": 500}
            taken = desk.ledger.row("purchases", row["exchange_purchase"])
            assert taken["total_pence"] == 500 and taken["seller"] == row["buyer"]
            assert row["foreign"]["rate"] == "1.1650"

    walk(walked())


def test_a_deposit_and_approval_hold_the_pieces() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            quote = await quoted(stall)
            await stall.press("f6", "1", "enter", "2", "enter")
            await stall.type("5")
            await stall.press("enter")
            assert "on a deposit of cash £5.00" in stall.text()
            await stall.press("f9")
            await stall.wait_for("(deposit)")
            assert all(desk_of(stall).item(each.number).status == "reserved" for each in quote.lines)
            await stall.press("escape", "escape", "escape")
            await stall.type("2d blue")
            await stall.press("enter", "f3", "f6", "down", "3", "enter")
            assert "due back" in stall.text() and "2026-05-16" in stall.text()
            await stall.press("f9")
            await stall.wait_for("(on approval)")

    walk(walked())


def test_a_refused_answer_stands_in_the_line_and_nothing_changes() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await quoted(stall)
            await stall.press("f6", "1", "enter", "down")
            await stall.type("5.555")
            await stall.press("enter")
            assert "too many decimals" in stall.text() and "5.555" in stall.rows()[-3]
            entry = stall.app.screen.query_one("#form-answer")
            entry.value = ""  # type: ignore[attr-defined]
            await stall.press("down", "down", "down")
            await stall.type("EUR")
            await stall.press("enter")
            assert "No rate of yours" in stall.text()
            await stall.press("escape", "f6")
            assert "cash" in stall.text()  # what was answered before is still there

    walk(walked())


def test_hostile_text_in_every_field_is_shown_as_typed() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await quoted(stall)
            await stall.press("f6")
            for text in HOSTILE:
                for _ in range(5):
                    entry = stall.app.screen.query_one("#form-answer")
                    entry.value = ""  # type: ignore[attr-defined]
                    entry.insert_text_at_cursor(text)  # type: ignore[attr-defined]
                    await stall.press("enter")
                    shown = stall.text()
                    assert "\x1b" not in shown and "\x07" not in shown and "\u202e" not in shown
                    if "✗" in shown:  # refused in one sentence: it stands in the line again
                        await stall.press("down")
                await stall.press(*["up"] * 5)
            await stall.press("f9", "f9")  # it may be asked how it is paid
            await stall.wait_for("Noted as")

    walk(walked())


def test_a_quote_is_kept_found_taken_and_sold() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            quote = await quoted(stall, "10%")
            await stall.press("f7")
            await stall.type("Mrs Brown")
            await stall.press("enter")
            await stall.type("31.6.2026")
            await stall.press("enter")
            assert "is not a date" in stall.text()
            stall.app.screen.query_one("#form-answer").value = "2026-06-01"  # type: ignore[attr-defined]
            await stall.press("enter", "f9")
            kept = re.search(r"Kept as (\S+) until 2026-06-01", stall.text()).group(1)  # type: ignore[union-attr]
            await stall.press("ctrl+x")
            assert not stall.app.board.quote.lines  # type: ignore[attr-defined]
            await stall.press("f4")
            await stall.type("brown")
            assert kept in stall.text() and "WK-Q1" not in stall.text()
            await stall.press("enter")
            back = stall.app.board.quote  # type: ignore[attr-defined]
            assert back.total == quote.total and back.kept == kept
            await stall.press("f6", "1", "enter", "f9")
            await stall.wait_for("Noted as")
            row = desk_of(stall).ledger.row("quotes", kept)
            assert row["status"] == "taken" and row["sale"]

    walk(walked())


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
def test_no_sum_is_cut(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with open_stall(size) as stall:
            quote = await quoted(stall, "10%")
            await stall.press("f6")
            shown = stall.text()
            assert f"£{quote.total / 100:,.2f}" in shown and "note it" in shown
            for price in quote.prices:
                assert f"£{price / 100:,.2f}" in shown

    walk(walked())


@pytest.mark.parametrize("size", [(80, 24), (160, 50), (200, 60)])
def test_the_total_stands_right_below_what_is_quoted_and_sold(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with open_stall(size) as stall:
            await quoted(stall)
            total = next(row for row in stall.rows() if row.startswith("  Total"))
            assert stall.rows().index(total) == 4  # heading, two lines, room for a discount
            assert len(total.rstrip()) <= 110
            assert "discount ▸" in stall.rows()[6]
            await stall.press("f6")
            rows = stall.rows()
            total = next(row for row in rows if row.startswith("  Total"))
            assert rows.index(total) == 3
            assert sum(row.count("▸ ") for row in rows) == 2  # the question in hand, the answer line

    walk(walked())
