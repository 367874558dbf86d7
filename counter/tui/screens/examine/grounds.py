"""Reasons as lines: a sign, the words, and once for each run of them where they are from."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

from counter.judge.judgement import Reason
from counter.tui.widgets.citations import sure_words
from counter.tui.widgets.reasons import reason_sign
from counter.tui.widgets.text import Line, wrap


def reasons_lines(
    reasons: Sequence[Reason], source_words: Callable[[str], str], width: int
) -> list[Line]:
    """Each reason with its sign; below those of one source how sure it is, and its title."""
    lines: list[Line] = []
    for (source, confidence), run in groupby(reasons, lambda each: (each.source, each.confidence)):
        for reason in run:
            sign, ink = reason_sign(reason.speaks)
            for number, part in enumerate(wrap(reason.text, max(width - 3, 10))):
                lines.append([(f"{sign} ", ink) if number == 0 else ("  ", ink), (part, "plain")])
        title = source_words(source)
        told = title if title == confidence else f"{sure_words(confidence)}: {title}"
        lines += [[("  " + part, "dim")] for part in wrap(told, max(width - 3, 10))]
    return lines


def wrapped_grounds(words: str, ink: str, width: int) -> list[Line]:
    """Words in one ink, broken to the width."""
    return [[(part, ink)] for part in wrap(words, max(width - 1, 10))]
