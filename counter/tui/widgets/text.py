"""The one door through which text enters a widget: as text, never as markup; cut and wrapped by cells.

Everything a person typed, imported or photographed can hold square brackets, control characters or
direction marks. Here they become visible text of a known width; nothing is parsed.
"""

from __future__ import annotations

from rich.cells import cell_len, set_cell_size

from counter.values.visible import visible

__all__ = ["Line", "Span", "fit", "two_ends", "visible", "wrap"]

#: A run of text and the name of its ink (see styles.py): "plain", "dim", "good", "bad"...
Span = tuple[str, str]
Line = list[Span]


def fit(text: str, width: int) -> str:
    """The text in exactly `width` cells, cut with an ellipsis when it is longer."""
    shown = visible(text)
    if cell_len(shown) <= width:
        return set_cell_size(shown, width)
    return set_cell_size(shown, max(width - 1, 0)) + "…" if width else ""


def two_ends(left: Line, right: Line, width: int) -> Line:
    """A line with `right` flush at the right edge; `left` gives way, `right` is never cut."""
    room = width - sum(cell_len(visible(text)) for text, _ in right)
    made: Line = []
    for text, ink in left:
        cells = cell_len(visible(text))
        if cells >= room:
            made.append((fit(text, max(room - 1, 0)), ink))
            room = 1
            break
        made.append((text, ink))
        room -= cells
    return [*made, (" " * max(room, 0), "plain"), *right]


def wrap(text: str, width: int) -> list[str]:
    """Break a text into lines of at most `width` cells, at spaces where there are any."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in visible(paragraph).split(" "):
            while cell_len(word) > width:
                head = set_cell_size(word, width).rstrip() or word[:1]
                if line:
                    lines.append(line)
                    line = ""
                lines.append(head)
                word = word[len(head) :]
            longer = f"{line} {word}" if line else word
            if cell_len(longer) <= width:
                line = longer
            else:
                lines.append(line)
                line = word
        lines.append(line)
    return lines
