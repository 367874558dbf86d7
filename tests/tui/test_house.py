"""The house's settings on the screen: each refused or noted, dated, and followed at once."""

from tests.tui.conftest import Stall, open_stall
from tests.tui.test_sale import desk_of, walk


async def at(stall: Stall, label: str) -> None:
    """The line of that label in hand."""
    form = stall.app.screen.query_one("Form")
    keys = [each.label for each in form.fields]  # type: ignore[attr-defined]
    stall.app.screen.query_one("FormRows").go(keys.index(label))  # type: ignore[attr-defined]
    await stall.pilot.pause()


async def opened(stall: Stall) -> None:
    await stall.press("f2")
    await stall.type("house")
    await stall.press("enter")
    await stall.wait_for("The house")


def test_the_business_is_edited_and_refused_in_one_sentence() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await opened(stall)
            house = desk_of(stall).trading.settings
            await at(stall, "wanted profit, per cent")
            await stall.type("forty")
            await stall.press("enter")
            assert "is a whole number" in stall.text() and house.business.profit_percent == 30
            stall.app.screen.query_one("#form-answer").value = "40"  # type: ignore[attr-defined]
            await stall.press("enter")
            assert house.business.profit_percent == 40
            await at(stall, "registered for VAT from")
            await stall.type("1.4.2020")
            await stall.press("enter")
            assert "is not a date" in stall.text() and house.business.registered_from == "2019-04-01"
            stall.app.screen.query_one("#form-answer").value = "[red]2020[/]"  # type: ignore[attr-defined]
            await stall.press("enter")
            assert "[red]2020[/]" in stall.text()

    walk(walked())


def test_limits_rates_and_factors_are_dated() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            await opened(stall)
            house = desk_of(stall).trading.settings
            await stall.type("2026-05-01")
            await stall.press("enter")
            for label, typed in (
                ("Limits: high value dealer", "8000"),
                ("Exchange, to one pound: EUR", "1.1650"),
                ("fault thin", "0.35"),
            ):
                await at(stall, label)
                await stall.type(typed)
                await stall.press("enter")
                assert f"Noted: {label.rpartition(': ')[2]}." in stall.text(), stall.text()
            limit = house.on("2026-05-02").limits["high-value-dealer"]
            assert limit and (limit.amount, limit.since) == (800_000, "2026-05-01")
            assert str(house.on("2026-05-02").rate("EUR")[1]) == "1.1650"
            assert str(house.on("2026-05-02").factors["fault-thin"]) == "0.35"
            await at(stall, "fault thin")
            await stall.type("-")
            await stall.press("enter")
            assert "fault-thin" not in house.on("2026-05-02").factors

    walk(walked())


def test_the_next_group_is_one_key_away() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await opened(stall)
            heads = []
            for _ in range(5):
                await stall.press("pagedown")
                heads.append(stall.rows()[0].strip("─ "))
            assert heads[0].endswith("Business") and heads[-1].endswith("House schedule")
            assert len(set(heads)) == 5

    walk(walked())
