"""Single cells of a CSV file: lists inside a cell, and text that a spreadsheet would run as a formula.

A cell is guarded by one apostrophe in front (the advice of OWASP, "CSV Injection"); reading takes
exactly that one off again, so text comes back as it went out, whatever it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

# What a spreadsheet may take for a formula, after blanks and apostrophes; also in full width.
_RISKY = re.compile(r"[\s']*[=+\-@|%＝＋－＠]|'*[\t\r\n]")
_NUMBER = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")


def guard(text: str) -> str:
    """The text as a cell that no spreadsheet runs; plain numbers stay numbers."""
    return f"'{text}" if _RISKY.match(text) and not _NUMBER.fullmatch(text) else text


def unguard(text: str) -> str:
    """The text of a cell made by `guard`; other cells are left alone."""
    if text[:1] == "'" and _RISKY.match(text[1:]) and not _NUMBER.fullmatch(text[1:]):
        return text[1:]
    return text


def join(parts: Iterable[str]) -> str:
    """Several texts in one cell, with "; " between them; a backslash keeps a text's own marks."""
    texts = [_escaped(part) for part in parts]
    return "; ".join(texts) + (";" if texts and not texts[-1] else "")


def split(text: str) -> list[str]:
    """The texts of a cell made by `join`, or typed by hand; blanks around each are dropped."""
    parts, part, solid, escaped = [], "", 0, False
    for character in text:
        if escaped or not (character in "\\;" or character.isspace()):
            part += character
            solid, escaped = len(part), False
        elif character == "\\":
            escaped = True
        elif character == ";":
            parts.append(part[:solid])
            part, solid = "", 0
        elif part:
            part += character
    return [*parts, part[:solid]] if solid else parts


def _escaped(part: str) -> str:
    text = part.replace("\\", "\\\\").replace(";", "\\;")
    if text[-1:].isspace():
        text = f"{text[:-1]}\\{text[-1]}"
    return f"\\{text}" if text[:1].isspace() else text
