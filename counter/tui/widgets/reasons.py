"""The one view of a reason and of a verdict: a sign and its word, the text, how strong, how sure, whence.

Colour only helps: the sign and the word carry the meaning.
"""

from __future__ import annotations

from collections.abc import Iterable

from counter.judge.judgement import Reason
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.text import Line, Span

#: Which way a reason speaks: its sign, its word, its ink.
_SPEAKS = {
    "for": ("✓", "for", "good"),
    "against": ("✗", "against", "bad"),
    "neutral": ("·", "open", "dim"),
}
_VERDICTS = {
    "tolerates": ("✓", "good"),
    "with care": ("!", "care"),
    "never": ("✗", "bad"),
    "unknown": ("?", "unknown"),
}


def reason_sign(speaks: str) -> Span:
    """The sign of the way a reason speaks, in its ink."""
    sign, _, ink = _SPEAKS[speaks]
    return sign, ink


def reason_side(speaks: str) -> Span:
    """The sign with its word: "✓ for", "✗ against", "· open"."""
    sign, word, ink = _SPEAKS[speaks]
    return f"{sign} {word}", ink


def reason_words(reason: Reason) -> str:
    """What it says, a sentence of its own, with its strength where it has one."""
    strength = f" ({reason.strength})" if reason.strength != "none" else ""
    return f"{reason.text[:1].upper()}{reason.text[1:]}{strength}"


def reason_lines(reasons: Iterable[Reason], cited: Cited, width: int) -> list[Line]:
    """Each reason with its sign, its words beside it, how sure it is and the number of its source."""
    lines: list[Line] = []
    for each in reasons:
        sign, ink = reason_sign(each.speaks)
        tail = cited.mark(each.source, each.confidence)
        lines += prose(reason_words(each), width, head=(f"  {sign} ", ink), tail=tail)
    return lines


def verdict_spans(verdict: str, *, disputed: bool = False) -> list[Span]:
    """The verdict's sign and word; "disputed" is added where advice differs."""
    sign, ink = _VERDICTS.get(verdict, _VERDICTS["unknown"])
    spans: list[Span] = [(f"{sign} {verdict}", ink)]
    if disputed:
        spans.append((", disputed", "care"))
    return spans
