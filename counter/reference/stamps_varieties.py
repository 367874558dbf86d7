"""Known errors and varieties by their trade name: what they are and where to look."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Variety:
    """An error or a variety. `issues` are those it is found on (empty: of any), `letters` its places as
    an observation writes them, `fakes` the lookalikes made of it. `implies` are the observations its
    name makes, by kind."""

    id: str
    name: str
    issues: tuple[str, ...]
    what: str
    look: str
    source: str
    confidence: str
    plate: str = ""
    letters: tuple[str, ...] = ()
    fakes: tuple[str, ...] = ()
    implies: dict[str, str] | None = None
    also: tuple[str, ...] = ()
    note: str = ""
