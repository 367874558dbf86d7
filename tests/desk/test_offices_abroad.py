"""The office abroad of a cancel's number is named where the stamp is identified: on the first screen."""

from __future__ import annotations

import asyncio
import json

import pytest

from counter.cli.main import main
from tests.tui.conftest import open_stall

#: Numbers and their offices, as the postal reference has them from published lists.
OFFICES = {"A26": "Gibraltar", "A25": "Malta", "C51": "St Thomas"}


@pytest.mark.parametrize("code", OFFICES)
def test_the_command_names_the_office(code: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", f"1s green spray pl 4 {code}", "--json"]) == 0
    offices = json.loads(capsys.readouterr().out)["offices_abroad"]
    assert OFFICES[code] in offices[0]["office"] and offices[0]["source"]


@pytest.mark.parametrize("line", ["1d red pl 120 numeral 46", "1d red numeral not C51", "1d black"])
def test_a_number_of_home_or_denied_names_no_office(
    line: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["ask", line, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["offices_abroad"] == []


def test_the_first_screen_names_it_at_80_by_24() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("2½d blue A26")
            assert any("abroad: A26 Gibraltar" in row[:45] for row in stall.rows()[3:12])

    asyncio.run(walked())
