"""What a person can do on a screen, and the words of a screen's help."""

from __future__ import annotations

from dataclasses import dataclass

#: The place of actions that work on every screen.
EVERYWHERE = "everywhere"


@dataclass(frozen=True, slots=True)
class Action:
    """Something a person can do on a screen.

    `keys` as the framework names them, `shown` as the foot line prints the first of them, `label`
    one or two words, `help` a sentence, `words` other words a person may look for it by.
    `foot` orders the foot line (0 = not there; 1 stands first).
    """

    id: str
    screen: str
    keys: tuple[str, ...]
    shown: str
    label: str
    help: str
    words: str = ""
    foot: int = 0


@dataclass(frozen=True, slots=True)
class Help:
    """A screen's name in plain words and what to know about it."""

    title: str
    paragraphs: tuple[str, ...]
