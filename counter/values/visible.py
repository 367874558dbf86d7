"""Text made visible: what would steer a terminal or rearrange a line is shown, not obeyed."""

from __future__ import annotations

# the direction marks of Unicode (UAX #9, Bidi_Control), the separators of lines, and marks of no width
_FORMAT_MARKS = (
    *(0x061C, 0xFEFF),
    *range(0x200B, 0x2010),
    *range(0x2028, 0x202F),
    *range(0x2066, 0x206A),
)
_HALVES = range(0xD800, 0xE000)  # what stands for bytes that are no text: no terminal can draw it
_SHOWN: dict[int, int | str] = {
    **{code: 0x2400 + code for code in range(0x20)},
    0x7F: 0x2421,
    **dict.fromkeys((*range(0x80, 0xA0), *_FORMAT_MARKS, *_HALVES), "\N{REPLACEMENT CHARACTER}"),
}
_LINES_KEPT = {code: shown for code, shown in _SHOWN.items() if code != 0x0A}


def visible(text: str) -> str:
    """The text as one line: control and direction characters replaced by pictures of themselves."""
    return text if text.isascii() and text.isprintable() else text.translate(_SHOWN)


def visible_lines(text: str) -> str:
    """As `visible`, its line breaks kept."""
    return text.translate(_LINES_KEPT)


def how_many(number: int, what: str) -> str:
    """So many: "1 sale", "2 sales", "1,108 pieces"."""
    return f"{number:,} {what}{'' if number == 1 else 's'}"


def share_words(share: float) -> str:
    """A share (0 to 1) in whole per cent, never rounded up to certainty or down to nothing."""
    if share >= 0.995:
        return ">99 %"
    return "<1 %" if share < 0.01 else f"{share * 100:.0f} %"
