"""A stamp not owned, priced at the table: nothing shows until the costs key asks for it."""

import asyncio

from counter.values.money import pounds
from tests.tui.conftest import open_stall
from tests.tui.test_piece import settled

LINE = "1d black pl 6 4 margins black mx wibbled"


def test_what_may_i_pay_and_what_will_it_fetch() -> None:
    async def walked() -> None:
        async with open_stall((120, 40)) as stall:
            await stall.type(LINE)
            await stall.press("ctrl+p")
            await stall.wait_for("wanted profit")
            await settled(stall)
            assert stall.app.desk is not None
            seen = " ".join(stall.text().split())
            assert "Not priced" in seen and "wibbled" in seen
            assert "£" not in seen.replace("£30 or 25%", "")  # no figure while a seller looks
            await stall.press("f8")
            made = stall.app.screen.priced.made  # type: ignore[attr-defined]
            assert made.price is not None and made.marked is not None
            offer = stall.app.desk.trading.offer(made.marked)
            seen = " ".join(stall.text().split())
            assert f"About {pounds(made.price)}" in seen
            assert f"Offer at most {pounds(offer.price or 0)}" in seen and "room to haggle" in seen
            await stall.type("50%")
            await stall.press("enter")
            half = stall.app.desk.trading.offer(made.marked, made.marked // 2)
            assert f"Offer at most {pounds(half.price or 0)}" in " ".join(stall.text().split())
            await stall.press("f1", "escape")  # something opened over it: hidden again
            assert "£" not in stall.text().replace("£30 or 25%", "")

    asyncio.run(walked())


def test_no_offer_without_a_suggestion() -> None:
    async def walked() -> None:
        async with open_stall((120, 40)) as stall:
            await stall.type("1d black pl 11 4 margins black mx")
            await stall.press("ctrl+p")
            await stall.wait_for("wanted profit")
            await settled(stall)
            assert "A certificate comes first" in " ".join(stall.text().split())
            await stall.press("f8")
            seen = " ".join(stall.text().split())
            assert "No offer" in seen and "Offer at most" not in seen

    asyncio.run(walked())
