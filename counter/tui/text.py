"""The one door through which text enters a widget: as text, never as markup.

Everything a person typed, imported or photographed can hold square brackets, control characters or
direction marks. Here they become visible text of a known width; nothing is parsed.
"""

from __future__ import annotations

from textual.content import Content

#: A run of text and the name of its ink (see kit/drawn.py): "plain", "dim", "good", "bad"...
Span = tuple[str, str]
Line = list[Span]

#: Direction and invisible format marks would rearrange a line: they are shown, not obeyed.
_FORMAT_MARKS = (*range(0x200B, 0x2010), *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0xFEFF)
_SHOWN: dict[int, int | str] = {
    **{code: 0x2400 + code for code in range(0x20)},
    0x7F: 0x2421,
    **dict.fromkeys((*range(0x80, 0xA0), *_FORMAT_MARKS), "\N{REPLACEMENT CHARACTER}"),
}


def visible(text: str) -> str:
    """The text as one line: control and direction characters replaced by pictures of themselves."""
    return text if text.isascii() and text.isprintable() else text.translate(_SHOWN)


def plain(text: str) -> Content:
    """Text for a widget that takes content (labels, titles, notices)."""
    return Content("\n".join(visible(line) for line in text.split("\n")))
