"""Colours: ink on album paper by day, lamp-lit table by night, and the terminal's own sixteen.

Every verdict also has a word and a sign, so the colours may all be taken away.
"""

from __future__ import annotations

from dataclasses import replace

from textual.theme import BUILTIN_THEMES, Theme

NIGHT = Theme(
    name="night",
    dark=True,
    primary="#8fb3d9",
    secondary="#8fb3d9",
    accent="#e8b45a",
    foreground="#e9e4d8",
    background="#14171c",
    surface="#1b2027",
    panel="#1b2027",
    success="#8ccf9b",
    warning="#e8b45a",
    error="#f0806a",
    variables={"dim-ink": "#9aa3ad", "chosen-ink": "#ffffff", "chosen-paper": "#2f4258"},
)
DAY = Theme(
    name="day",
    dark=False,
    primary="#1f4e79",
    secondary="#1f4e79",
    accent="#8a3b12",
    foreground="#1d1b16",
    background="#fbf8f0",
    surface="#f1ecdf",
    panel="#f1ecdf",
    success="#1d6b34",
    warning="#8a5a00",
    error="#a3241a",
    variables={"dim-ink": "#5d5a52", "chosen-ink": "#000000", "chosen-paper": "#dcd2b4"},
)
_OWN_SIXTEEN = {
    "dim-ink": "ansi_default",
    "chosen-ink": "ansi_black",
    "chosen-paper": "ansi_white",
    "border": "ansi_white",
    "border-blurred": "ansi_white",
}
#: Bright yellow: the framework's own goes by orange, which sixteen colours show as red.
_YELLOW = "#ffff00"
#: For terminals of sixteen colours: their own, with nothing drawn black on black.
SIXTEEN = replace(
    BUILTIN_THEMES["ansi-dark"],
    name="sixteen",
    accent=_YELLOW,
    warning=_YELLOW,
    variables={**BUILTIN_THEMES["ansi-dark"].variables, **_OWN_SIXTEEN},
)
THEMES = (NIGHT, DAY, SIXTEEN)


def theme_for(colour_system: str | None, wanted: str = "") -> str:
    """The theme's name: the one wanted, or what the terminal can show."""
    if wanted in {theme.name for theme in THEMES}:
        return wanted
    return "night" if colour_system in ("truecolor", "256") else "sixteen"
