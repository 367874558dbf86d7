"""Typed text made even: one character for one character, so that every place in it keeps its number.

Capitals, typographic dashes, slashes, quotes and spaces, full-width figures and multiplication signs
become what a plain keyboard gives; the vulgar fractions ½ ¼ ¾ stay themselves.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

#: A word: letters, figures and ½, with apostrophes inside.
WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)*")

_ALIKE = str.maketrans(
    {
        **dict.fromkeys("\u2044\u2215\u29f8\u2571", "/"),
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u00ad", "-"),
        **dict.fromkeys("\u2018\u2019\u201b\u02bc\u0060\u00b4\u2032", "'"),
        **dict.fromkeys("\u201c\u201d\u201f\u2033", '"'),
        **dict.fromkeys("\u00d7\u2715\u2716\u2a2f", "x"),
    }
)


@lru_cache(maxsize=2048)
def _plain(character: str) -> str:
    folded = unicodedata.normalize("NFKC", character).lower()
    return folded if len(folded) == 1 else character


def fold(text: str) -> str:
    """The text evened out; always as long as it was."""
    if text.isascii():
        return text.lower()
    return "".join(map(_plain, text.translate(_ALIKE)))


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text in their even form, apostrophes left out: "St Edward's" is st, edwards."""
    return tuple(word.replace("'", "") for word in WORD.findall(fold(text)))
