"""After a sale, on the screen: found again, the balance, approval, a refund, a deposit ended."""

import re

from counter.tui.screens.counter.screen import CounterScreen
from counter.tui.screens.quote import QuoteScreen
from counter.tui.widgets.form import Form
from tests.tui.conftest import Stall, open_stall
from tests.tui.test_counter import HOSTILE, shown_as_typed
from tests.tui.test_sale import desk_of, quoted, walk


async def sold(stall: Stall, *keys: str) -> str:
    """Two blacks sold in a way; the sale's own screen in front."""
    await quoted(stall)
    await stall.press("f6", "1", "enter", *keys, "f9")
    await stall.wait_for("Noted as")
    number = re.search(r"Noted as (\S+)", stall.text()).group(1)  # type: ignore[union-attr]
    await stall.press("escape", "escape", "escape", "f8", "f7")
    await stall.wait_for(number)
    await stall.type(number)
    await stall.press("enter")
    await stall.wait_for("What became of it")
    return number


def row(stall: Stall, number: str):
    return desk_of(stall).ledger.row("sales", number)


def test_a_deposit_becomes_the_sale_when_the_rest_is_paid() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await sold(stall, "2", "enter", "5", "enter")
            assert row(stall, number)["status"] == "deposit"
            await stall.press("down", "down", "2", "enter", "f9")
            assert row(stall, number).get("status", "complete") == "complete"
            methods = [each["method"] for each in row(stall, number)["payments"]]
            assert methods == ["cash", "card"]

    walk(walked())


def test_a_deposit_falls_through_and_is_paid_back() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await sold(stall, "2", "enter", "5", "enter")
            await stall.press("2", "enter", "down", "1", "enter", "f9")
            done = row(stall, number)
            assert done["status"] == "cancelled" and done["payments"][-1]["pence"] == -500
            assert all(desk_of(stall).item(each["item"]).status == "in stock" for each in done["lines"])

    walk(walked())


def test_of_goods_on_approval_one_is_kept() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await sold(stall, "3", "enter")
            await stall.press("down")
            await stall.type("7")
            await stall.press("enter")
            assert "7 is not in" in stall.text()
            stall.app.screen.query_one("#form-answer").value = "2"  # type: ignore[attr-defined]
            await stall.press("enter", "2", "enter", "f9")
            done = row(stall, number)
            assert done.get("status", "complete") == "complete" and len(done["lines"]) == 1

    walk(walked())


def test_a_refund_wants_its_reason_and_can_be_taken_back() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            number = await sold(stall)
            await stall.press("down", "down", "1", "enter", "f9")
            assert "needs a reason" in stall.text()
            await stall.type("not as described")
            await stall.press("enter", "f9")
            assert "Refund" in stall.text() and "came back" in stall.text()
            refunds = [each for each in desk_of(stall).ledger.rows("sales") if each.get("refund_of")]
            assert [each["refund_of"] for each in refunds] == [number]
            await stall.press("ctrl+t")
            assert "Taken back" in stall.text()
            assert not any(each.get("refund_of") for each in desk_of(stall).ledger.rows("sales"))

    walk(walked())


def in_hand(stall: Stall) -> str:
    chosen = stall.app.screen.query_one(Form).chosen
    return chosen.key if chosen else ""


def test_the_cursor_goes_on_from_what_became_of_it_and_back_to_it_when_noted() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            await sold(stall, "2", "enter", "5", "enter")
            assert in_hand(stall) == "what"
            await stall.press("2", "enter")  # the sum's question gives way to another
            assert in_hand(stall) == "sum"
            await stall.press("down", "1", "enter", "enter")
            await stall.wait_for("Ctrl+T takes it back")
            assert in_hand(stall) == "" and "Nothing more can become of it" in stall.text()

    walk(walked())


def test_a_refund_chosen_goes_on_to_its_own_question() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            number = await sold(stall)
            ways = [each for each, _ in stall.app.screen.query_one(Form).fields[0].choices]
            assert ways[:2] == ["refund", "buyer"]
            await stall.press("2", "enter")  # no pieces are asked for any more
            assert in_hand(stall) == "buyer"
            await stall.press("up", "1", "enter")
            assert in_hand(stall) == "pieces"
            await stall.press("1", "enter", "1", "enter")
            await stall.type("not as described")
            await stall.press("enter")
            assert in_hand(stall) == "note"
            await stall.press("enter")
            await stall.wait_for("Ctrl+T takes it back")
            assert in_hand(stall) == "what" and number in stall.text()

    walk(walked())


def test_from_the_paper_of_a_sale_escape_leads_to_the_counter() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await quoted(stall)
            await stall.press("f6", "1", "enter")
            await stall.press("escape")
            assert isinstance(stall.app.screen, QuoteScreen)  # not sold: the quote again
            await stall.press("f6", "f9")
            await stall.wait_for("Noted as")
            await stall.press("escape")
            await stall.pilot.pause()
            assert isinstance(stall.app.screen, CounterScreen)

    walk(walked())


def test_hostile_text_in_the_filter_and_the_reason() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await sold(stall)
            for text in HOSTILE:
                await stall.wait_for("What became of it")
                await stall.press("down", "down", "1", "enter")
                stall.app.screen.query_one("#form-answer").insert_text_at_cursor(text)  # type: ignore[attr-defined]
                await stall.press("enter")
                shown_as_typed(text, stall.text())
                await stall.press("escape")
                search = stall.app.screen.query_one("#filter")
                search.value = ""  # type: ignore[attr-defined]
                search.insert_text_at_cursor(text)  # type: ignore[attr-defined]
                await stall.pilot.pause()
                assert not set(stall.text()) & {"\x1b", "\x07", "\u202e"}
                search.value = number  # type: ignore[attr-defined]
                await stall.pilot.pause()
                await stall.press("enter")

    walk(walked())


def test_a_sale_is_put_right_by_an_entry_of_its_own() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            number = await sold(stall, "1", "enter", "1", "enter")
            await stall.press("f7")
            await stall.wait_for(f"Put {number} right")
            before = desk_of(stall).ledger.state.entries
            await stall.press("f9")  # nothing is answered
            await stall.wait_for("Say what is right")
            assert desk_of(stall).ledger.state.entries == before
            form = stall.app.screen.query_one(Form)
            form.ask_again("postage", "2")
            await stall.press("enter")
            form.ask_again("reason", "it was forgotten")
            await stall.press("enter", "f9")
            await stall.wait_for("is put right")
            assert row(stall, number)["postage_pence"] == 200
            assert "it was forgotten" in row(stall, number)["remarks"]
            await stall.press("escape")
            await stall.wait_for("postage charged")

    walk(walked())
