"""Esc, and another key a moment after it, are two keys.

A terminal sends Esc as the character that also begins the sequences of the function keys, so the
framework waits ESCDELAY for more. But it looks at its watch only every tenth of a second, not before
it reads on: "2d" typed in a hurry after Esc became "™d", and the Esc was lost.
"""

from __future__ import annotations

import os
from collections.abc import Iterable

from textual._xterm_parser import XTermParser
from textual.message import Message


class PromptParser(XTermParser):
    """The framework's reader of keys, which lets a wait that is over end before it reads on."""

    def feed(self, data: str) -> Iterable[Message]:
        """The keys in what came."""
        yield from self.tick()
        yield from super().feed(data)


def tell_esc_apart() -> None:
    """Have the framework's driver read keys so, where it has one that reads a terminal's characters."""
    if os.name == "posix":
        from textual.drivers import linux_driver

        linux_driver.XTermParser = PromptParser  # type: ignore[attr-defined]
