"""Typed words into observations: words in any order, in the trade's own shorthand, slips and all."""

from counter.judge.reading.reader import read_line

__all__ = ["read_line"]
