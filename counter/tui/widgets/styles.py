"""The inks of the drawn widgets: a few names for the theme's colours on a widget's own paper.

Worked out once for a theme and a paper. The framework would style every ink of every widget again
at each change of styles: half of what the first frame cost beyond a bare app's.
"""

from __future__ import annotations

from functools import lru_cache

from rich.style import Style
from textual.app import App
from textual.color import Color

#: Ink name -> (theme variable of the colour, text style, theme variable of its own paper).
_INKS = {
    "plain": ("foreground", "", ""),
    "dim": ("dim-ink", "", ""),
    "strong": ("foreground", "bold", ""),
    "accent": ("accent", "bold", ""),
    "good": ("success", "", ""),
    "care": ("warning", "", ""),
    "bad": ("error", "bold", ""),
    "unknown": ("dim-ink", "bold", ""),
    "price": ("foreground", "bold", ""),
    "match": ("accent", "underline", ""),
    "chosen": ("chosen-ink", "bold", "chosen-paper"),
    "head": ("dim-ink", "bold", ""),
}


def ink_on(app: App[object], name: str, paper: Color) -> Style:
    """The terminal style of an ink, by the app's theme, on `paper` unless it has its own."""
    colour, text, own = _INKS[name]
    variables = app.theme_variables
    return _style(variables[colour], text, variables[own] if own else "", paper)


@lru_cache(maxsize=256)
def _style(colour: str, text: str, own: str, paper: Color) -> Style:
    on = Color.parse(own) if own else paper
    return Style.parse(text) + Style.from_color((on + Color.parse(colour)).rich_color, on.rich_color)
