"""Day or night colours are remembered for the next time."""

import asyncio
from pathlib import Path

from counter.desk.opening import open_desk
from counter.tui.app import CounterApp
from tests.tui.conftest import LIBRARY, Stall


def test_the_colours_chosen_last_come_back(tmp_path: Path) -> None:
    async def sitting(theme: str, *keys: str) -> str:
        app = CounterApp(lambda: open_desk(tmp_path / "own", library=LIBRARY), theme=theme)
        async with app.run_test(size=(80, 24)) as pilot:
            stall = Stall(app, pilot)
            for _ in range(500):
                if app.desk:
                    break
                await pilot.pause(0.02)
            assert app.desk
            await stall.press(*keys)
            seen = app.theme
            if theme == "" and seen == "sixteen":
                return "sixteen"
        app.desk.close()
        return str(seen)

    async def walked() -> None:
        assert await sitting("night", "f12") == "day"
        assert await sitting("night") == "night"  # asked for by name
        assert await sitting("") in ("day", "sixteen")

    asyncio.run(walked())
