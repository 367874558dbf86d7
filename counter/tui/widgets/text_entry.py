"""A one-line field to type in: no blinking, and nothing of a paste is lost."""

from __future__ import annotations

from textual import events
from textual.containers import Horizontal
from textual.message import Message

from counter.tui.textual_private import PasteInput
from counter.tui.widgets.heading import Prompt
from counter.tui.widgets.text import visible

#: What opens the finder of actions where it stands first in a line.
FINDS = ("/", ":")
#: Entries of which the first character may be a path's.
_PATHS = ("path", "name")
#: A paste longer than this is not something typed at a stall; the rest is told, not read.
MOST = 2_000


class TextEntry(PasteInput):
    """An input line whose pastes keep every line (joined by spaces) up to MOST characters."""

    class PasteCut(Message):
        """More was pasted than the line holds; `kept` characters are in it."""

        def __init__(self, kept: int) -> None:
            super().__init__()
            self.kept = kept

    DEFAULT_CSS = """
    TextEntry { height: 1; border: none; padding: 0; background: $surface; color: $foreground; }
    TextEntry:focus { border: none; background: $surface; }
    """

    def __init__(self, *, placeholder: str = "", value: str = "", id: str | None = None) -> None:
        self.holds_path = id in _PATHS
        super().__init__(
            placeholder=placeholder,
            value=value,
            id=id,
            compact=True,
            select_on_focus=False,
            max_length=MOST,
        )
        self.cursor_blink = False

    def replace(self, text: str, start: int, end: int) -> None:
        """What enters the line is visible text: control characters become pictures of themselves."""
        super().replace(visible(text), start, end)

    async def on_key(self, event: events.Key) -> None:
        """/ or : in an empty line asks for the finder: every action without an F-key."""
        if event.character in FINDS and event.character and not self.value and not self.holds_path:
            event.stop()
            event.prevent_default()
            self.app.action_do("find")  # type: ignore[attr-defined]

    def pasted(self, text: str) -> None:
        """Take the whole paste as one line."""
        words = " ".join(text[: MOST * 2].split())
        room = MOST - len(self.value)
        self.insert_text_at_cursor(words[:room])
        if len(words) > room:
            self.post_message(self.PasteCut(MOST))


class PromptedEntry(Horizontal):
    """The sign ("find") and the entry of the id given; `hint` stands in it while it is empty."""

    DEFAULT_CSS = (
        "PromptedEntry { height: 1; background: $surface; } PromptedEntry TextEntry { width: 1fr; }"
    )

    def __init__(self, sign: str, hint: str = "", *, entry: str, value: str = "") -> None:
        super().__init__(Prompt(f" {sign} ▸ "), TextEntry(placeholder=hint, value=value, id=entry))
