"""One piece of work with a data file: the path is typed, the work goes on in a thread, it is told."""

from __future__ import annotations

from pathlib import Path

from textual.app import ComposeResult

from counter.store.progress import Progress
from counter.tui.screens.data_job.jobs import Job, JobOrder, Outcome
from counter.tui.screens.data_job.paths import complete, read_path
from counter.tui.widgets.action import Action, Help, back, pages
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.tui.widgets.work_screen import JobProgress, WorkScreen
from counter.values.errors import InputError

_MOST_NAMES = 200


class DataJobScreen(WorkScreen):
    """Does one job; `ended` is what came of it."""

    NAME = "data_job"
    # fmt: off
    ACTIONS = (
        Action("begin_it", "enter", "do it", "Do it with the path typed.", "go", foot=1),
        Action("complete", "tab", "complete", "Complete the path from the names that are there.",
               "path file name folder", foot=2),
        Action("down", "down", "next", "The next choice; else a line down."),
        Action("up", "up", "one before", "The choice before; else a line up."),
        *pages("A page down.", "A page up.", labels=("further", "page back")),
        back("Back to your data; while it works, stop it.", words="stop cancel"),
    )
    # fmt: on
    ABOUT = Help(
        "a data file",
        (
            "Type the path of the file or folder; Tab completes it from the names that are there, ~ is "
            "your own folder. Enter does it.",
            "Long work shows how far it is. Esc stops it, and what was begun is left as if it never was.",
            "No file that is there already is ever written over.",
        ),
    )
    DEFAULT_CSS = """
    DataJobScreen Choices { margin-top: 1; }
    """

    def __init__(self, job: Job) -> None:
        super().__init__()
        self.job = job
        self.ended: Outcome | None = None
        self._names: tuple[str, ...] = ()
        self._sure_of: tuple[str, str] | None = None  # path and choice that Enter was asked again for

    def body(self) -> ComposeResult:
        """The line for the path, the choices, what it is about or what came of it."""
        yield Heading(self.job.title)
        if self.job.asks:
            yield PromptedEntry(self.job.asks, "its path", entry="path")
        if self.job.choices:
            yield Choices(self.job.choices)
        yield ScrollPage(self._lines)
        yield JobProgress()

    def on_mount(self) -> None:
        """Ready to type; work that asks for nothing begins at once."""
        if self.job.asks:
            self._suggest()
            self.query_one(TextEntry).focus()
        elif not self.job.sure:
            self.do_begin_it()

    @property
    def choice(self) -> str:
        """The choice in hand."""
        if not self.job.choices:
            return ""
        return self.job.choices[self.query_one(Choices).cursor][0]

    def _suggest(self) -> None:
        desk = self.app.desk
        day = desk.today().isoformat() if desk else ""
        begins = {self.job.begins(day, key) for key, _ in self.job.choices or (("", ""),)}
        entry = self.query_one(TextEntry)
        if not entry.value or entry.value in begins:
            entry.value = self.job.begins(day, self.choice)
            entry.cursor_position = len(entry.value)

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another choice may have another name."""
        event.stop()
        self._suggest()

    def _lines(self, width: int) -> list[Line]:
        lines: list[Line] = [[], *prose(self.job.about, width, "dim")]
        if self.ended:
            lines.append([])
            for head, words in self.ended.paragraphs:
                lines += prose(words, width, head=head)
        elif self._names:
            lines += [[], [("  Here", "head")]]
            lines += [[(f"  {name}", "plain")] for name in self._names[:_MOST_NAMES]]
            more = len(self._names) - _MOST_NAMES
            lines += [[(f"  and {more:,} more: type on", "dim")]] if more > 0 else []
        return lines

    def do_complete(self) -> None:
        """Complete what is typed; with several names they are shown."""
        if not self.job.asks:
            return
        entry = self.query_one(TextEntry)
        folders = self.job.asks == "folder"
        found = complete(entry.value, folders_only=folders, suffix=self.job.suffix)
        entry.value = found.path
        entry.cursor_position = len(entry.value)
        self._names = found.names if len(found.names) > 1 else ()
        self.ended = None
        if not found.names:
            self.say("No name there begins so.", wrong=True)
        self.query_one(ScrollPage).show(self._lines)

    def do_begin_it(self) -> None:
        """Read the path, ask once more where that is due, then do it."""
        try:
            path = self._path()
        except InputError as bad:
            self.say(str(bad), wrong=True)
            return
        asked = (str(path), self.choice)
        if self.job.sure and self._sure_of != asked:
            self._sure_of = asked
            self.say(self.job.sure)
            return
        self._sure_of = None
        self._begin(path)

    def _path(self) -> Path:
        return read_path(self.query_one(TextEntry).value, self.job.asks) if self.job.asks else Path()

    def _begin(self, path: Path) -> None:
        desk = self.app.desk
        if desk is None:
            self.say("Your data is not open.", wrong=True)
        elif self.job.notes and desk.ledger.read_only:
            self.say(f"{desk.ledger.why_read_only} Nothing was noted.", wrong=True)
        elif self.job.shut and desk.demo:
            self.say("The demo is thrown away when it closes; do this with your own data.", wrong=True)
        elif self.job.shut and desk.bath_running:
            self.say("A bath is running: see it through first.", wrong=True)
        else:
            job, choice, now, ledger = self.job, self.choice, desk.clock(), desk.ledger

            def what(progress: Progress) -> Outcome:
                return job.do(JobOrder(ledger, path, choice, now, progress))

            if job.shut:
                self.app.shut_desk()
            self.begin(job.doing, what, self._done)

    def _done(self, outcome: Outcome) -> None:
        self.ended = outcome
        self._names = ()
        self._open_again()
        self.query_one(ScrollPage).show(self._lines)
        self.say(outcome.sentence, wrong=outcome.wrong)

    def failed(self, sentence: str) -> None:
        """Nothing was changed; the desk is opened again as it was."""
        self._open_again()
        super().failed(sentence)

    def _open_again(self) -> None:
        if self.app.desk is None:
            self.app.open_desk()

    def do_down(self) -> None:
        """The next choice, or a line down."""
        self._move(1)

    def do_up(self) -> None:
        """The choice before, or a line up."""
        self._move(-1)

    def _move(self, by: int) -> None:
        if self.job.choices and not self.ended:
            self.query_one(Choices).move(by)
        else:
            self.query_one(ScrollPage).turn(by)


class Choices(LineList):
    """The choices of a job, one of them in hand."""

    def __init__(self, choices: tuple[tuple[str, str], ...]) -> None:
        super().__init__()
        self.choices = choices
        self.styles.height = len(choices)

    def count(self) -> int:
        """How many."""
        return len(self.choices)

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """The choice in words."""
        return [mark(chosen), (self.choices[index][1], "strong" if chosen else "plain")]
