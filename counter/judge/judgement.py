"""One shape for every answer: a verdict, its reasons, what is still asked, and cautions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Speaks = Literal["for", "against", "neutral"]
Strength = Literal["strong", "moderate", "weak", "none"]


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason of an answer.

    `code` is a short stable id (a reference record's id where there is one), `text` plain words,
    `source` a source id of the reference, "common practice" or "memory"; `confidence` is the
    reference's own word (high, medium, low, published, memory...); `rests_on` names the observation.
    """

    code: str
    text: str
    source: str
    confidence: str
    speaks: Speaks = "neutral"
    strength: Strength = "none"
    rests_on: str = ""


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict in words with everything it rests on; `asks` are questions that could change it."""

    verdict: str
    reasons: tuple[Reason, ...] = ()
    asks: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    disputed: bool = False
