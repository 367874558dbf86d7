"""Make the pictures of the docs anew from the running app, over the demo, on a fixed day.

    python -m tests.pictures          write docs/pictures/*.svg
    python -m tests.pictures --check  say which differ from what the app shows now (exit code 1)

A picture is kept only as the app draws it: nobody edits one by hand.
"""

from __future__ import annotations

import asyncio
import re
import sys
from dataclasses import dataclass
from pathlib import Path

from tests.tui.conftest import Stall, open_stall

FOLDER = Path(__file__).resolve().parent.parent / "docs" / "pictures"


@dataclass(frozen=True, slots=True)
class Picture:
    """A file name, what is typed and pressed before it is taken, and the terminal's size."""

    name: str
    steps: tuple[str, ...]
    size: tuple[int, int] = (80, 24)
    theme: str = "night"


#: A step is a key's name in <angles>, words to wait for in {braces}, or text to type.
PICTURES = (
    Picture("counter", ("1d blk imp KC sm crown", "<down>", "<enter>")),
    Picture("counter-wide", ("1d blk imp KC sm crown", "<down>", "<enter>"), (140, 44)),
    Picture("counter-day", ("1d red pl 148",), theme="day"),
    Picture("bought", ("bt 2d blue 1841 pl 3 KC 4 margins £45 cash harrow",)),
    Picture("quote", ("1d blk kc", "<enter>", "<down>", "<enter>", "<f3>", "10%", "<enter>")),
    Picture("look", ("1d red imp KC KD", "<f4>", "{What to look at next}")),
    Picture("letters", ("1d blk imp KC", "<f4>", "{What to look at next}", "<tab>")),
    Picture("cover", ("1d red imp tied black mx leeds 12 mar 1842 half ounce", "<f5>", "{CONSISTENT}")),
    Picture("treat", ("1d red imp KC", "<f6>", "{Dry looks}")),
    Picture("strength", ("1d red imp KC", "<f6>", "{Dry looks}", "<f6>", "20 vol")),
    Picture("piece", ("1d blk pl 6 kc", "<f7>", "{F8 shows it}")),
    Picture("day", ("<f8>", "{Still to complete}")),
)


async def take(picture: Picture) -> str:
    """The picture as SVG text."""
    async with open_stall(picture.size, theme=picture.theme) as stall:
        for step in picture.steps:
            await _step(stall, step)
        await stall.pilot.pause(0.1)
        svg = stall.app.export_screenshot(title="counter")
    svg = re.sub(r"terminal-\d+", "terminal", svg)  # the framework numbers each export
    svg = re.sub(
        r"\s*@font-face \{.*?\}", "", svg, flags=re.DOTALL
    )  # a picture asks no host for letters
    return svg.replace("font-family: Fira Code,", "font-family:")


async def _step(stall: Stall, step: str) -> None:
    if step.startswith("<"):
        await stall.press(step.strip("<>"))
    elif step.startswith("{"):
        await stall.wait_for(step.strip("{}"))
    else:
        await stall.type(step)


def main() -> int:
    """Write the pictures, or compare them."""
    check = "--check" in sys.argv
    FOLDER.mkdir(parents=True, exist_ok=True)
    differ = []
    for picture in PICTURES:
        svg = asyncio.run(take(picture))
        path = FOLDER / f"{picture.name}.svg"
        if not path.exists() or path.read_text(encoding="utf-8") != svg:
            differ.append(picture.name)
            if not check:
                path.write_text(svg, encoding="utf-8")
    print("changed:" if differ else "all pictures are true", ", ".join(differ))
    return 1 if check and differ else 0


if __name__ == "__main__":
    raise SystemExit(main())
