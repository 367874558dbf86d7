"""The top of the screen: the pages there are, and the line as it stands now."""

from __future__ import annotations

from rich.cells import cell_len
from textual import events
from textual.message import Message

from counter.tui.screens.examine.state import PAGES, Looking
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line


class Pages(LineWidget):
    """The names of the pages, the one in hand marked; each can be clicked."""

    DEFAULT_CSS = "Pages { height: 1; }"

    class Turned(Message):
        """A page's name was clicked."""

        def __init__(self, page: str) -> None:
            super().__init__()
            self.page = page

    def __init__(self, looking: Looking) -> None:
        super().__init__()
        self.looking = looking

    def _names(self) -> list[tuple[str, str]]:
        looking = self.looking
        item = looking.in_hand()
        told = {
            "letters": " ".join(item.letters[:2]) if item else "",
            "gauge": looking.counted.gauge if looking.counted else "",
            "finds": f"{len(looking.found)}" if looking.found else "",
        }
        return [(page, f"{page} {told[page]}" if told.get(page) else page) for page in PAGES]

    def line_at(self, y: int, width: int) -> Line:
        """A heading line."""
        line: Line = [("── ", "dim"), ("Look closer", "head"), (" ──", "dim")]
        for page, words in self._names():
            chosen = page == self.looking.page
            line.append((f" {'▸' if chosen else ' '}{words} ", "chosen" if chosen else "plain"))
        return [*line, (" " + "─" * width, "dim")]

    def on_click(self, event: events.Click) -> None:
        """Turn to the page clicked."""
        at = cell_len("── Look closer ──")
        for page, words in self._names():
            end = at + cell_len(words) + 3
            if at <= event.x < end:
                self.post_message(self.Turned(page))
            at = end


class LineNow(LineWidget):
    """The ask line as it stands, what was put in here in another ink; its end is what is seen."""

    DEFAULT_CSS = "LineNow { height: 1; background: $surface; }"

    def __init__(self, looking: Looking) -> None:
        super().__init__(id="line-now")
        self.looking = looking

    def line_at(self, y: int, width: int) -> Line:
        """The line."""
        text, typed = self.looking.board.text, self.looking.typed
        head: Line = [(" ask ▸ ", "accent")]
        if not text:
            return [*head, ("nothing typed yet", "dim")]
        room = max(width - 9, 10)
        cut = max(len(text) - room, 0)
        shown = ("…" if cut else "") + text[cut:]
        if not cut and typed and text.startswith(typed):
            return [*head, (typed, "plain"), (text[len(typed) :], "accent")]
        return [*head, (shown, "plain")]
