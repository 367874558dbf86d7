"""Write a file: a name is offered, Enter writes it beside the screen and says where it is."""

from __future__ import annotations

from collections.abc import Callable
from os.path import isfile  # unlike Path.is_file, false for a name too long to be one
from pathlib import Path
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.invoices import file_path, write_file
from counter.tui.widgets.action import Action, Help, back
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, wrap
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.values.errors import UserError

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.documents.layout import Layout


class SaveFileScreen(BaseScreen):
    """`make()` gives the contents, in a thread; `written` hears the sentence that says where."""

    NAME = "save_file"
    # fmt: off
    ACTIONS = (
        Action("write", "enter", "write it", "Write the file to the place shown.", "save export",
               foot=1),
        back("Back; nothing is written.", words="cancel"),
    )
    # fmt: on
    ABOUT = Help(
        "writing a file",
        (
            "A bare name goes into the data folder; write a path, or ~ for your home, for another place. "
            "The file is written whole or not at all.",
            "The end of a paper's name says what it is: .pdf for a PDF, ready to print or to send; .html for a "
            "page that any browser opens and prints.",
        ),
    )

    def __init__(
        self,
        desk: Desk,
        what: str,
        name: str,
        make: Callable[[], str | Layout],
        written: Callable[[str], None],
    ) -> None:
        super().__init__()
        self.desk = desk
        self.what = what
        self.name_offered = name
        self.make = make
        self.written = written

    def body(self) -> ComposeResult:
        """The name, and where that is."""
        yield Heading(f"Write {self.what} to a file")
        yield PromptedEntry("file", entry="name", value=self.name_offered)
        yield ScrollPage(self._where, id="where")

    def on_mount(self) -> None:
        """The place follows the name."""
        entry = self.query_one("#name", TextEntry)
        self.watch(entry, "value", lambda _: self.query_one(ScrollPage).redraw(), init=False)
        entry.focus()

    def _where(self, width: int) -> list[Line]:
        typed = self.query_one("#name", TextEntry).value
        try:
            path = file_path(self.desk, typed)
        except UserError as trouble:
            return [[("  " + part, "care")] for part in wrap(str(trouble), width - 4)]
        there = "A file of that name is there and will be replaced." if isfile(path) else ""
        lines: list[Line] = [[], [("  It goes to", "dim")]]
        lines += [[("  " + part, "plain")] for part in wrap(str(path), width - 4)]
        lines += [[], [("  " + there, "care")]] if there else []
        if self.desk.demo:
            told = "The demo's folder goes when it is closed: name another place to keep the file."
            lines += [[], *([("  " + part, "dim")] for part in wrap(told, width - 4))]
        return lines

    def do_write(self) -> None:
        """Write it in a thread."""
        typed = self.query_one("#name", TextEntry).value
        self.say(f"Writing {self.what} …")
        self.in_background(
            "save file",
            lambda: write_file(self.desk, typed, self.make()),
            then=self._written,
            keys_wait=True,
        )

    def _written(self, path: Path) -> None:
        """Back, saying where it is."""
        self.dismiss()
        self.written(f"Written to {path}")
