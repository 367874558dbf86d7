"""What belonging is worth knowing for: the price, the description, the treatment."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counter.judge.cover.check import CoverFinding
from counter.judge.cover.cover_facts import CoverSeen
from counter.judge.cover.finding import WORDS, Finding

Place = Literal["off cover", "on piece", "on front", "on cover"]


@dataclass(frozen=True, slots=True)
class Belonging:
    """Where the stamp is, whether it is tied, and what the check found; for the price."""

    place: Place
    tied: Literal["", "tied", "not_tied"]
    finding: Finding

    def words(self) -> str:
        """In true words, for a description: "tied on cover; speaks for belonging"."""
        tied = {"tied": "tied ", "not_tied": "not tied, "}.get(self.tied, "")
        return f"{tied}{self.place}; {WORDS[self.finding]}"


def belonging(seen: CoverSeen, found: CoverFinding) -> Belonging:
    """The finding as the price judge takes it."""
    return Belonging(_place(seen.attachment), seen.tied, found.finding)


def finding_words(finding: Finding) -> str:
    """The finding as kept with an item on cover: never a certificate."""
    return WORDS[finding]


def _place(attachment: str) -> Place:
    if attachment in ("cover", "entire", "stationery"):
        return "on cover"
    return {"front": "on front", "piece": "on piece"}.get(attachment, "off cover")  # type: ignore[return-value]
