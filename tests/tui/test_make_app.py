"""The app as a driver without a terminal gets it: over the data named, else over a demo."""

import asyncio
from pathlib import Path

import pytest

from counter.tui import make_app


@pytest.mark.parametrize("named", [True, False])
def test_the_app_opens_over_the_data_named_or_a_demo(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, named: bool
) -> None:
    monkeypatch.delenv("COUNTER_DATA", raising=False)
    if named:
        monkeypatch.setenv("COUNTER_DATA", str(tmp_path / "own"))

    async def opened() -> None:
        app = make_app()
        async with app.run_test() as pilot:
            for _ in range(1_000):
                if app.desk:
                    break
                await pilot.pause(0.02)
            assert app.desk and app.desk.demo != named
            assert not named or app.desk.ledger.folder == tmp_path / "own"
        app.desk.close()

    asyncio.run(opened())
