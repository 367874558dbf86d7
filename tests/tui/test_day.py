"""The day on the screen: bars, the covered profit, the box, purchases completed; buy to book in one."""

import re

import pytest

from counter.tui.screens.day.bars import bar
from tests.tui.conftest import open_stall
from tests.tui.test_counter import HOSTILE, shown_as_typed
from tests.tui.test_sale import desk_of, quoted, walk


def test_bars_are_on_one_scale() -> None:
    assert bar(100, 100, 10) == "█" * 10
    assert bar(50, 100, 10) == "█" * 5
    assert bar(1, 100_000, 10) == "▏"  # something taken is never drawn as nothing
    assert bar(0, 100, 10) == bar(-5, 100, 10) == ""


def test_takings_box_and_a_profit_that_waits_for_its_key() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            quote = await quoted(stall)
            await stall.press("f6", "1", "enter", "f9")
            await stall.wait_for("Noted as")
            await stall.press("escape", "escape", "escape", "f8")
            total = f"£{quote.total / 100:,.2f}"
            await stall.wait_for("1 sale")
            taken = next(row for row in stall.rows() if "taken" in row)
            assert "cash" in taken and "█" in taken and total in taken
            lines = desk_of(stall).ledger.rows("sales")[-1]["lines"]
            profit = quote.total - sum(each["cost_pence"] + each["vat_pence"] for each in lines)
            assert f"£{profit / 100:,.2f}" not in stall.text()
            await stall.press("f8")
            assert f"£{profit / 100:,.2f}" in stall.text()
            await stall.press("f8", "f6")
            await stall.type("100")
            await stall.press("enter")
            assert "Noted: float £100.00" in stall.text()
            await stall.type("12 table fee")
            await stall.press("enter")
            should = quote.total + 10_000 - 1_200
            await stall.said(f"should hold £{should / 100:,.2f}")
            await stall.press("down", "down", "down")
            await stall.type("1.005")
            await stall.press("enter")
            assert "too many decimals" in stall.text()
            stall.app.screen.query_one("#form-answer").value = f"{should / 100:.2f}"  # type: ignore[attr-defined]
            await stall.press("enter")
            assert "is closed with" in stall.text() and "as it should be" in stall.text()
            await stall.press("escape")
            await stall.wait_for("day closed")
            out = next(row for row in stall.rows() if "expense, table fee" in row)
            assert "-£12.00" in out and "other cash" not in stall.text()
            await stall.press("pageup")
            await stall.wait_for("1 May 2026")

    walk(walked())


def test_a_purchase_is_completed_from_the_list() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("bt 2d blue 1841 pl 3 KC £45 cash")
            await stall.press("enter", "f8")
            await stall.wait_for("seller's name")
            await stall.press("enter")
            number = stall.app.screen.number  # type: ignore[attr-defined]
            await stall.press("down")
            await stall.type("somewhere")
            await stall.press("enter")
            assert "Say the seller's name first" in stall.text()
            stall.app.screen.query_one("#form-answer").value = ""  # type: ignore[attr-defined]
            await stall.press("up")
            await stall.type("Tom Harrow")
            await stall.press("enter")
            await stall.type("2 Mill Lane")
            await stall.press("enter", "1", "enter")
            assert f"{number} is complete." in stall.text()
            row = desk_of(stall).ledger.row("purchases", number)
            who = desk_of(stall).ledger.row("people", row["seller"])
            assert (who["name"], who["address"]) == ("Tom Harrow", "2 Mill Lane")
            assert row["seller_kind"] == "private" and row["self_invoiced"]
            await stall.press("f5")
            assert "Purchase invoice" in stall.text() and "£45.00" in stall.text()
            await stall.press("escape", "escape")
            await stall.wait_for("Still to complete")
            assert number not in stall.text()

    walk(walked())


def test_hostile_words_for_a_seller_are_shown_as_typed() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("bt 2d blue pl 3 KC £45 cash")
            await stall.press("enter", "f8")
            await stall.wait_for("seller's name")
            await stall.press("enter")
            for text in HOSTILE:
                for _ in range(2):
                    entry = stall.app.screen.query_one("#form-answer")
                    entry.value = ""  # type: ignore[attr-defined]
                    entry.insert_text_at_cursor(text)  # type: ignore[attr-defined]
                    await stall.press("enter")
                shown_as_typed(text, stall.text())
                await stall.press("up", "up")

    walk(walked())


def test_the_whole_way_from_the_purchase_to_the_book() -> None:
    """Buy, price, quote, sell, invoice, refund, book: every step on the screen, no sum retyped."""

    async def walked() -> None:
        async with open_stall() as stall:
            desk = desk_of(stall)
            await stall.type("bt 2d blue 1841 pl 3 KC 4 margins £45 cash Harrow (private)")
            await stall.press("enter")
            item = re.search(r"Noted as (\S+?)\.", stall.text()).group(1)  # type: ignore[union-attr]
            desk.trading.schedule()
            await stall.type(item)
            await stall.press("f7")  # the piece; F4 there mends it
            from counter.desk.stock.edit_item import save_field

            save_field(desk, item, "asking", "72.50")
            await stall.press("escape", "escape")
            await stall.type(item)
            await stall.press("enter", "f3", "f6", "1", "enter", "f9")
            await stall.wait_for("Noted as")
            sale = re.search(r"Noted as (\S+)", stall.text()).group(1)  # type: ignore[union-attr]
            line = desk.ledger.row("sales", sale)["lines"][0]
            assert line["cost_pence"] == 4_500 and line["vat_pence"] == 458  # 27.50 x 1/6, half up
            assert "72.50" in stall.text() and "4.58" not in stall.text()
            await stall.press("escape", "escape", "escape", "f8", "f7")
            await stall.wait_for(sale)
            await stall.press("enter")
            await stall.wait_for("What became of it")
            await stall.press("enter", "enter", "1", "enter")
            await stall.type("not as described")
            await stall.press("enter", "f9")
            await stall.wait_for("Refund")
            assert desk.item(item).status == "in stock" and desk.item(item).cost == 4_500
            await stall.press("escape", "escape", "f5")
            await stall.wait_for("The stock book 1 Apr 2026 to 30 Jun 2026")
            read = stall.app.screen.read  # type: ignore[attr-defined]
            for _ in range(1_000):
                read = stall.app.screen.read  # type: ignore[attr-defined]
                if read:
                    break
                await stall.pilot.pause(0.02)
            mine = [each for each in read.lines if each.stock_number == item]
            assert sorted(each.vat_due for each in mine) == [-458, 458]  # the refund restores it
            assert sum(each.margin for each in mine) == 0

    walk(walked())


@pytest.mark.parametrize("size", [(80, 24), (160, 50), (200, 60)])
def test_no_sum_is_cut_at_any_size(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with open_stall(size) as stall:
            await stall.press("f8")
            await stall.wait_for("Still to complete:")
            await stall.wait_for("WK-P")
            owed = [row for row in stall.rows() if re.search(r"WK-P\d+ ", row)]
            assert owed  # and what was paid is covered: a customer may be looking
            assert not any(re.search(r"£[\d,]+\.\d\d\s*$", row) for row in owed)
            await stall.press("f8")
            for row in stall.rows():
                if re.search(r"WK-P\d+ ", row):
                    assert re.search(r"£[\d,]+\.\d\d\s*$", row), row

    walk(walked())
