"""The one door through which text enters a widget: as text, never as markup.

Everything a person typed, imported or photographed can hold square brackets, control characters or
direction marks. Here they become visible text of a known width; nothing is parsed.
"""

from __future__ import annotations

from textual.content import Content

from counter.values.visible import visible

__all__ = ["Line", "Span", "plain", "visible"]

#: A run of text and the name of its ink (see kit/drawn.py): "plain", "dim", "good", "bad"...
Span = tuple[str, str]
Line = list[Span]


def plain(text: str) -> Content:
    """Text for a widget that takes content (labels, titles, notices)."""
    return Content("\n".join(visible(line) for line in text.split("\n")))
