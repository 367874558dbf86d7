"""Guided treatments: what is ticked first, and the stages with their seconds."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Check:
    """Something to tick before a treatment of these kinds starts ("lamp" for ultraviolet)."""

    id: str
    words: str
    kinds: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Stage:
    """A timed stage. `planned` takes the chosen seconds instead of its own; one that `works` goes on
    working when its time is up, until the next stage is confirmed; the `last` ends the treatment.
    """

    words: str
    seconds: int = 0
    planned: bool = False
    works: bool = False
    look_every_s: int | None = None
    last: bool = False


@dataclass(frozen=True, slots=True)
class Guide:
    """The stages of one treatment; `usual_s` is planned when nobody says otherwise."""

    treatment: str
    usual_s: int
    stages: tuple[Stage, ...]
    source: str
