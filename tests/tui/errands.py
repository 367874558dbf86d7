"""The four errands of the counter, counted in keys and timed by the keystroke-level model.

    python -m tests.tui.errands

Each is walked on the running app; its keys are those really pressed. Times after Card, Moran and
Newell, "The keystroke-level model for user performance time with interactive systems",
Communications of the ACM 23(7), 1980: K 0.28 s a key in words, M 1.35 s to think; one M before the
typed words and one before each decision. Each errand starts at an empty line.
"""

from __future__ import annotations

import asyncio
from dataclasses import dataclass

from tests.tui.conftest import Stall, open_stall

K, M = 0.28, 1.35


@dataclass(frozen=True, slots=True)
class Errand:
    """What is typed and pressed, how often one stops to think, what must then stand on the screen.

    `free` are the characters of the typed words that are the dealer's own text and not counted in
    `most_keys` (a purchase is judged by the keys beside its words).
    """

    name: str
    typed: str
    keys: tuple[str, ...]
    thinks: int
    shows: tuple[str, ...]
    most_keys: int
    most_seconds: float | None
    free: int = 0


BOUGHT = "2d blue 1841 pl 3 KC 4 margins £45 cash harrow"
ERRANDS = (
    Errand("identify", "1d blk kc", (), 2, ("1d black", "row 11, column 3"), 12, 9.0),
    Errand("ink check", "", (), 0, ("peroxide", "ask first"), 0, 0.0),
    Errand("quote from stock", "blk kc", ("enter",), 2, ("1 line",), 8, 5.0),
    Errand("note a purchase", f"bt {BOUGHT}", ("enter",), 2, ("Noted as",), 25, None, len(BOUGHT)),
)


async def walk(stall: Stall, errand: Errand) -> tuple[int, float]:
    """Do the errand; returns the keys beside free text, and seconds by the model for all keys."""
    if errand.typed:
        await stall.press("escape")
    before = stall.keys
    await stall.type(errand.typed)
    await stall.press(*errand.keys)
    for words in errand.shows:
        await stall.wait_for(words)
    pressed = stall.keys - before
    return pressed - errand.free, pressed * K + errand.thinks * M


async def walk_all() -> list[tuple[Errand, int, float]]:
    """All four in order, on one open counter (the ink check follows the identifying)."""
    async with open_stall() as stall:
        return [(errand, *await walk(stall, errand)) for errand in ERRANDS]


def table(walked: list[tuple[Errand, int, float]]) -> str:
    """The counts as a table."""
    rows = ["errand             keys  at most   seconds  at most"]
    for errand, keys, seconds in walked:
        goal = f"{errand.most_seconds:.1f}" if errand.most_seconds is not None else "-"
        rows.append(f"{errand.name:<18} {keys:>4}  {errand.most_keys:>7}  {seconds:>8.1f}  {goal:>7}")
    return "\n".join(rows)


if __name__ == "__main__":
    print(table(asyncio.run(walk_all())))
