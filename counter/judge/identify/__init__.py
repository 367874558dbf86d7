"""Identify a stamp from what was seen of it, and say what to look at next."""

from counter.judge.identify.card import CardLine, card_of
from counter.judge.identify.commemoratives import commemorative_lines, commemoratives_for
from counter.judge.identify.details import Details, details_of
from counter.judge.identify.examine import Candidate, Identification, identify
from counter.judge.identify.next_look import Answer, NextLook, next_looks
from counter.judge.identify.rests_on import Support, rests_on
from counter.judge.identify.side_by_side import Compared, SideBySide, side_by_side
from counter.judge.identify.traps import traps_of

__all__ = [
    "Answer",
    "Candidate",
    "CardLine",
    "Compared",
    "Details",
    "Identification",
    "NextLook",
    "SideBySide",
    "Support",
    "card_of",
    "commemorative_lines",
    "commemoratives_for",
    "details_of",
    "identify",
    "next_looks",
    "rests_on",
    "side_by_side",
    "traps_of",
]
