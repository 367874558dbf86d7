"""What can be done with the data files, in one list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult

from counter.tui.screens.counter.read_only import only_reads
from counter.tui.screens.data_job.jobs import JOB, JOBS
from counter.tui.widgets.action import Action, Help, back, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line

if TYPE_CHECKING:
    from counter.desk.desk import Desk

_IMPORT = (
    "A CSV file of any program, its columns in any order. Every line is looked over before any comes "
    "in, and each one that is refused is listed with the reason."
)
_SETTLE = "What two laptops both changed: both versions side by side; your word settles it."


class DataFilesScreen(BaseScreen):
    """The list; each entry opens a screen of its own."""

    NAME = "data_files"
    # fmt: off
    ACTIONS = (
        Action("take", "enter", "do it", "Do what is chosen.",
               "import export verify backup restore merge csv", foot=1),
        *steps("one"),
        back("Back to the counter."),
    )
    # fmt: on
    ABOUT = Help(
        "your data",
        (
            "Everything you note is in one folder, readable by you alone, in files a person can read. "
            "Choose with the arrow keys or by number; Enter does it.",
            "Bring in a stock list from a spreadsheet (CSV); write out the stock, the purchases or the "
            "sales; look everything over; back it up and put it back; bring in what was noted on "
            "another laptop and settle what both changed.",
            "Back up after every fair, on a disk that does not travel with the laptop.",
        ),
    )
    DEFAULT_CSS = """
    DataFilesScreen #about-data { height: auto; }
    """

    def body(self) -> ComposeResult:
        """The folder, the list, what the chosen one is."""
        yield Heading("Your data")
        yield ScrollPage(self._folder_lines, id="about-data")
        yield DataRows(self)
        yield ScrollPage(self._chosen_lines, id="about-chosen")

    @property
    def desk(self) -> Desk | None:
        """The desk that is open now: a restore opens another."""
        return self.app.desk

    def entries(self) -> list[tuple[str, str, str, str]]:
        """(id, words, a few more, what it is) of everything that can be done now."""
        ledger = self.desk.ledger if self.desk else None
        waiting = len(ledger.conflicts) if ledger else 0
        opened = f"{waiting:,} open" if waiting else "nothing is open"
        cut_short = ledger is not None and ledger.cut_short
        jobs = [
            (each.id, each.short, each.brief, each.about)
            for each in JOBS
            if each.id != "recover" or cut_short
        ]
        return [
            ("import", "bring in a stock list", "from a CSV file, its columns in any order", _IMPORT),
            *jobs,
            ("conflicts", "settle what both changed", opened, _SETTLE),
        ]

    def _folder_lines(self, width: int) -> list[Line]:
        desk = self.desk
        if desk is None:
            return [[], *prose("Your data is being opened …", width, "dim")]
        entries = desk.ledger.state.entries
        words = f"{desk.stock_size:,} pieces of stock, {entries:,} entries in the journal."
        where = "A demo: thrown away when it is closed." if desk.demo else str(desk.ledger.folder)
        lines: list[Line] = [[], *prose(where, width), *prose(words, width, "dim")]
        if desk.ledger.read_only:
            lines += prose(only_reads(desk.ledger), width, "care")
        return lines

    def _chosen_lines(self, width: int) -> list[Line]:
        rows, entries = self.query_one(DataRows), self.entries()
        if rows.cursor >= len(entries):
            return []
        return [[], *prose(entries[rows.cursor][3], width, "dim")]

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another entry is explained."""
        event.stop()
        self.query_one("#about-chosen", ScrollPage).redraw()

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """Clicked twice."""
        event.stop()
        self.do_take()

    def on_key(self, event: events.Key) -> None:
        """A number does that one."""
        if event.character and event.character in "123456789":
            index = int(event.character) - 1
            if index < len(self.entries()):
                event.stop()
                self.query_one(DataRows).go(index)
                self.action_do("take")

    def on_resize(self, event: events.Resize) -> None:
        """The folder may take more lines."""
        self.redraw()

    def on_screen_resume(self) -> None:
        """In front again: what is open may have changed."""
        super().on_screen_resume()
        self.redraw()

    def redraw(self) -> None:
        """Say it all again (another desk may be open)."""
        for page in self.query(ScrollPage):
            page.redraw()
        for rows in self.query(DataRows):
            rows.styles.height = rows.count()
            rows.refresh()
        for about in self.query("#about-data").results(ScrollPage):
            about.styles.height = len(self._folder_lines(self.app.size.width)) + 1

    def do_take(self) -> None:
        """Open the chosen one."""
        if self.desk is None:
            self.say("Your data is not open yet.", wrong=True)
            return
        name = self.entries()[self.query_one(DataRows).cursor][0]
        if name == "import":
            self.app.open_screen("import_stock")
        elif name == "conflicts":
            self.app.open_screen("conflicts")
        else:
            self.app.open_screen("data_job", JOB[name])


class DataRows(LineList):
    """The entries, numbered."""

    def __init__(self, sheet: DataFilesScreen) -> None:
        super().__init__()
        self.sheet = sheet

    def count(self) -> int:
        """How many."""
        return len(self.sheet.entries())

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """Its number and its words."""
        _, words, brief, _ = self.sheet.entries()[index]
        number = (f"{index + 1}  ", "accent")
        return [mark(chosen), number, (f"{words:<30}", "strong" if chosen else "plain"), (brief, "dim")]
