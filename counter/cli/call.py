"""What a command is given (the call) and what it gives back (the reply)."""

from __future__ import annotations

import os
from argparse import Namespace
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from pathlib import Path
from textwrap import fill
from typing import TYPE_CHECKING, Any

from counter.values.paths import path_of

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.reference.library import Library


@dataclass(frozen=True, slots=True)
class Reply:
    """An answer for the terminal: `data` is printed with --json, `text` without."""

    data: Any
    text: str
    code: int = 0


@dataclass
class Call:
    """One run of the command line: where the data is, what day it is, and lazily the desk."""

    folder: Path | None = None
    demo: bool = False
    costs: bool = False  # whether the dealer's own is shown too
    today: date = field(default_factory=date.today)
    told: list[str] = field(default_factory=list)  # what the ledger has to say besides the answer

    @classmethod
    def from_arguments(cls, chosen: Namespace) -> Call:
        """--data wins over COUNTER_DATA; None means the platform's user data place."""
        named = getattr(chosen, "data", None) or os.environ.get("COUNTER_DATA")
        return cls(
            path_of(named, "data folder") if named else None,
            demo=getattr(chosen, "demo", False),
            costs=getattr(chosen, "costs", False),
        )

    @cached_property
    def library(self) -> Library:
        """The reference, loaded when first asked for."""
        from counter.reference.library import Library

        return Library()

    @cached_property
    def desk(self) -> Desk:
        """The desk over the chosen data folder; opened when first asked for."""
        return self.open_desk()

    def open_desk(self) -> Desk:
        """A desk of its own over the chosen data folder; whoever opens it closes it."""
        from counter.desk.opening import open_desk

        return open_desk(self.folder, demo=self.demo, library=self.library)

    def close(self) -> None:
        """Let the next writer in, when a desk was opened at all."""
        desk: Desk | None = self.__dict__.pop("desk", None)
        if desk:
            desk.close()
            self.told += desk.ledger.told


_WIDTH = 80


def wrapped(text: str) -> str:
    """A sentence set in by two columns and broken at its spaces."""
    return fill(text, _WIDTH, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False)
