"""How sure a fact is, in words that need no key: the reference's own grades, said plainly."""

from __future__ import annotations

_WORDS = {"high": "sure", "medium": "fairly sure", "low": "unsure", "memory": "from memory"}


def sure_words(confidence: str) -> str:
    """ "sure" for high, "fairly sure" for medium, "unsure" for low; other grades say themselves."""
    return _WORDS.get(confidence, confidence)


def together(words: str) -> str:
    """Words that stay on one line."""
    return words.strip().replace(" ", "\N{NO-BREAK SPACE}")
