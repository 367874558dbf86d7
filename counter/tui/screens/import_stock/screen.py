"""A stock list from elsewhere: looked over, then brought in, every refused line with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from textual import events
from textual.app import ComposeResult

from counter.desk.data.messages import imported_words
from counter.store.ledger import Ledger
from counter.tui.screens.data_job.paths import complete, read_path
from counter.tui.screens.import_stock.looking import LookedOver, bring_in, look_over
from counter.tui.screens.import_stock.panes import ABOUT, RefusedRows, Whole, looked_over_lines
from counter.tui.widgets.action import Action, Help, back, pages, steps
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.tui.widgets.work_screen import JobProgress, WorkScreen
from counter.values.errors import InputError
from counter.values.visible import how_many

_MOST_NAMES = 200


class ImportStockScreen(WorkScreen):
    """`found` is the list once it was looked over."""

    NAME = "import_stock"
    # fmt: off
    ACTIONS = (
        Action("begin_it", "enter", "bring in",
               "Look the file over; once it is looked over, bring its lines in.", "import csv", foot=1),
        Action("complete", "tab", "complete", "Complete the path from the names that are there.",
               "path file name folder", foot=4),
        Action("columns", "f4", "columns", "Say which column of the file is what.",
               "mapping headings fields", foot=2),
        Action("again", "f5", "once more",
               "Of a file that came in before: take lines without a stock number again, or not.",
               "repeat duplicate twice", foot=3),
        *steps("refused line", label="one"),
        *pages("A page of refused lines on.", "A page of refused lines back.",
               labels=("further", "page back")),
        back("Back; while lines come in, stop after those that are in.", words="stop cancel"),
    )
    # fmt: on
    ABOUT = Help(
        "a stock list from elsewhere",
        (
            "Type the path of a CSV file; Tab completes it. Its first line names the columns, in any "
            "order; commas, semicolons or tabs, any common encoding.",
            "Enter looks it over first and changes nothing: what each column is taken for, and every "
            "line that would be refused, with the reason. F4 says what a column is. Enter again brings "
            "the good lines in; one bad line never stops the rest.",
            "Esc stops it while it runs: the lines that are in stay in, and the same file brought in "
            "again goes on where it stopped. A stock number that is there already is left alone.",
        ),
    )
    DEFAULT_CSS = """
    ImportStockScreen .refused { display: none; }
    ImportStockScreen.some-refused .refused { display: block; }
    """

    def __init__(self) -> None:
        super().__init__()
        self.found: LookedOver | None = None
        self._names: tuple[str, ...] = ()

    def body(self) -> ComposeResult:
        """The path, what is in the file, what is refused."""
        rows = RefusedRows()
        whole = Whole(rows)
        heading = Heading(self._refused_head)
        yield Heading("A stock list from elsewhere")
        yield PromptedEntry("file", "its path", entry="path", value="~/")
        yield ScrollPage(self._lines, id="looked-over")
        for each in (heading, rows, whole):
            each.add_class("refused")
            yield each
        yield JobProgress()

    def on_mount(self) -> None:
        """Ready to type."""
        entry = self.query_one("#path", TextEntry)
        entry.focus()
        entry.cursor_position = len(entry.value)
        self.watch(entry, "value", self._typed, init=False)

    def on_resize(self, event: events.Resize) -> None:
        """The refused lines keep half of the screen."""
        self._arrange()

    # What is shown

    def _refused_head(self) -> str:
        done = self.found.done if self.found else None
        if done is None:
            return ""
        parts = [f"Refused: {how_many(len(done.refused), 'line')}"] if done.refused else []
        parts += [f"With a remark: {how_many(len(done.odd), 'line')}"] if done.odd else []
        return "; ".join(parts)

    def _lines(self, width: int) -> list[Line]:
        if self.found:
            return looked_over_lines(self.found, width)
        lines: list[Line] = [[], *prose(ABOUT, width, "dim")]
        if self._names:
            lines += [[], [("  Here", "head")]]
            lines += [[(f"  {name}", "plain")] for name in self._names[:_MOST_NAMES]]
        return lines

    def _show(self, found: LookedOver | None) -> None:
        self.found, self._names = found, ()
        done = found.done if found else None
        self.query_one(RefusedRows).show(done.told if done else ())
        self._arrange()
        self.query_one(Whole).refresh()
        self.query_one("#looked-over", ScrollPage).show(self._lines)

    def _arrange(self) -> None:
        refused = bool(self.query_one(RefusedRows).count())
        self.set_class(refused, "some-refused")
        width, height = self.app.size
        needed = len(self._lines(width)) + 1
        page = self.query_one("#looked-over", ScrollPage)
        page.styles.height = min(needed, max(height // 2 - 4, 4)) if refused else "1fr"

    def _typed(self, value: str) -> None:
        """Another path: what was looked over no longer stands."""
        if self.found and value.strip() != str(self.found.path) and not self.busy:
            self._show(None)

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another refused line is told in full."""
        event.stop()
        self.query_one(Whole).refresh()

    # What is done

    @property
    def _ledger(self) -> Ledger:
        if self.app.desk is None:
            raise InputError("Your data is not open.")
        return self.app.desk.ledger

    def do_begin_it(self) -> None:
        """Look the file over; looked over already, bring it in."""
        found = self.found
        try:
            if found is None:
                self._look(read_path(self.query_one("#path", TextEntry).value, "file"), None, False)
            elif found.done is None:
                self.say("No column was recognised: F4 says what they are.", wrong=True)
            elif not found.done.dry_run:
                self.say("It is in. Esc goes back.")
            elif not found.done.taken:
                self.say("There is no line in it that would come in.", wrong=True)
            else:
                self._bring_in(found)
        except InputError as bad:
            self.say(str(bad), wrong=True)

    def _look(self, path: Path, columns: Mapping[str, str] | None, again: bool) -> None:
        ledger = self._ledger
        self.begin(
            "Looking it over",
            lambda progress: look_over(ledger, path, columns, again, progress),
            self._looked,
        )

    def _looked(self, found: LookedOver) -> None:
        if found.done and found.done.stopped:
            self.say("Stopped as you asked: the file was not looked over to its end.", wrong=True)
            return
        entry = self.query_one("#path", TextEntry)
        entry.value = str(found.path)
        entry.cursor_position = len(entry.value)
        self._show(found)
        if found.done and found.done.taken:
            self.say("Nothing is noted yet. Enter brings in the lines that are right.")

    def _bring_in(self, found: LookedOver) -> None:
        ledger = self._ledger
        if ledger.read_only:
            raise InputError(f"{ledger.why_read_only} Nothing was noted.")
        self.begin("Bringing it in", lambda progress: bring_in(ledger, found, progress), self._came_in)

    def _came_in(self, found: LookedOver) -> None:
        self._show(found)
        if found.done:
            self.say(imported_words(found.done), wrong=found.done.stopped)

    def failed(self, sentence: str) -> None:
        """What came in until then stays; looking over again tells what is left."""
        self._show(None)
        super().failed(sentence)

    def do_columns(self) -> None:
        """Say what the columns are."""
        if self.found is None or (self.found.done and not self.found.done.dry_run):
            self.say("First type the path of a file and press Enter: it is looked over.", wrong=True)
            return
        found = self.found

        def changed(columns: dict[str, str]) -> None:
            if columns != found.columns:
                self._look(found.path, columns, found.again)

        self.app.open_screen("import_columns", found.columns, found.examples, changed)

    def do_again(self) -> None:
        """A file that came in before: its unnumbered lines once more, or not."""
        found = self.found
        if found is None or found.before is None or (found.done and not found.done.dry_run):
            self.say("Only a file that came in before can come in once more.", wrong=True)
            return
        self._look(found.path, found.columns, not found.again)

    def do_complete(self) -> None:
        """Complete what is typed; with several names they are shown."""
        entry = self.query_one("#path", TextEntry)
        got = complete(entry.value)
        entry.value = got.path
        entry.cursor_position = len(got.path)
        self._show(None)
        self._names = got.names if len(got.names) > 1 else ()
        self.query_one("#looked-over", ScrollPage).show(self._lines)
        if not got.names:
            self.say("No name there begins so.", wrong=True)

    def do_down(self) -> None:
        """The next refused line."""
        self._move(1)

    def do_up(self) -> None:
        """The refused line before."""
        self._move(-1)

    def do_page_down(self) -> None:
        """A page on."""
        self._move(self.query_one(RefusedRows).screenful)

    def do_page_up(self) -> None:
        """A page back."""
        self._move(-self.query_one(RefusedRows).screenful)

    def _move(self, by: int) -> None:
        rows = self.query_one(RefusedRows)
        if rows.count():
            rows.move(by)
        else:
            self.query_one("#looked-over", ScrollPage).turn(by)
