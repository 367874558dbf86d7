"""How a verdict is told: a sign and its word, in a colour that only helps."""

from __future__ import annotations

from counter.tui.widgets.text import Span

_SIGNS = {"tolerates": "✓", "with care": "!", "never": "✗", "unknown": "?"}
_INKS = {"tolerates": "good", "with care": "care", "never": "bad", "unknown": "unknown"}


def verdict_spans(verdict: str, *, disputed: bool = False) -> list[Span]:
    """The verdict's sign and word; "disputed" is added where advice differs."""
    ink = _INKS.get(verdict, "unknown")
    spans: list[Span] = [(f"{_SIGNS.get(verdict, '?')} {verdict}", ink)]
    if disputed:
        spans.append((", disputed", "care"))
    return spans
