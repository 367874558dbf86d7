"""The base of every screen: its actions and help, a told line, Esc to step back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, ClassVar, TypeVar

from textual.app import ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import Binding, BindingType
from textual.screen import Screen

from counter.tui.widgets.action import EVERYWHERE, Action, Help
from counter.tui.widgets.app_services import AppServices
from counter.tui.widgets.background_job import in_background
from counter.tui.widgets.key_bar import KeyBar
from counter.tui.widgets.list_view import LineList
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.status_line import StatusLine
from counter.tui.widgets.text_entry import TextEntry
from counter.values.errors import UserError

#: So many sentences of the ledger are told at once.
_MOST_TOLD = 2
Result = TypeVar("Result")


def in_short(sentences: Sequence[str]) -> str:
    """The first sentences whole, and how many more there are."""
    more = len(sentences) - _MOST_TOLD
    words = " ".join(sentences[:_MOST_TOLD])
    return f"{words} And {more:,} more: Ctrl+E, look it over, lists them." if more > 0 else words


def bindings(actions: Sequence[Action]) -> list[BindingType]:
    """The keys of actions, for the BINDINGS of the class that carries them out."""
    return [
        Binding(key, f"do('{each.id}')", each.label, show=False, priority=True)
        for each in actions
        for key in each.keys.split()
    ]


class BaseScreen(Screen[None]):
    """A screen named `NAME` in the table of navigation, with its `ACTIONS` and its help (`ABOUT`).

    `body` yields its panes; the told line and the foot line come below them. An action `id` is
    carried out by the method `do_<id>` of the screen, or else of the app.
    """

    NAME: ClassVar[str] = ""
    ACTIONS: ClassVar[tuple[Action, ...]] = ()
    ABOUT: ClassVar[Help] = Help("", ())
    BINDINGS: ClassVar[list[BindingType]] = [  # where no entry takes them
        *(Binding(key, "do('find')", show=False) for key in ("slash", "colon")),
    ]
    app: AppServices
    costs = False  # whether the dealer's own is shown: a customer may be looking
    busy = ""  # the long work it is at, in words
    keys_wait = False  # at a short job, after which the screen may be left: keys wait for it
    _over = False  # left while another screen stands over it

    def __init_subclass__(cls, **words: Any) -> None:
        """The keys of the class's own actions become its bindings."""
        if "ACTIONS" in vars(cls):
            cls.BINDINGS = [*bindings(cls.ACTIONS), *vars(cls).get("BINDINGS", ())]
        super().__init_subclass__(**words)

    @classmethod
    def all_actions(cls) -> tuple[Action, ...]:
        """The screen's own actions and those that work everywhere, unless it has its own way."""
        own = {each.id for each in cls.ACTIONS}
        return (*cls.ACTIONS, *(each for each in EVERYWHERE if each.id not in own))

    def body(self) -> ComposeResult:
        """The panes of the screen."""
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        """The panes, what is told, the keys."""
        yield from self.body()
        yield StatusLine()
        yield KeyBar(self.all_actions(), self.offered)

    def offered(self, action: str) -> bool:
        """Whether an action, by its id, would do anything now; what would not leaves the foot line."""
        return True

    def dismiss(self, result: None = None) -> AwaitComplete:
        """Leave the screen, once it is in front: work that ends late takes no other screen away."""
        if self.app.screen is self:
            return super().dismiss(result)
        self._over = self in self.app.screen_stack
        return AwaitComplete()

    def on_screen_resume(self) -> None:
        """In front (again): a running bath stands at its top from the first frame on."""
        if self._over:
            self.dismiss()
            return
        if self.app.baths:
            self.app.baths.show_on(self)

    def on_screen_suspend(self) -> None:
        """Whatever is opened over it: the dealer's own is covered again."""
        if self.costs:
            self.costs = False
            self.draw_covered()

    def do_costs(self) -> None:
        """What is the dealer's own: shown, or covered again."""
        self.costs = not self.costs
        self.draw_covered()

    def draw_covered(self) -> None:
        """Draw again what the costs key covers and shows."""
        for pane in self.query(ScrollPage):
            pane.redraw()
        for rows in self.query(LineList):
            rows.refresh()

    def action_do(self, name: str) -> None:
        """Carry out an action; what was told before is done with."""
        self.say("")
        method = getattr(self, f"do_{name}", None) or getattr(self.app, f"do_{name}")
        try:
            method()
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
        self.tell_more()

    def tell_more(self) -> None:
        """What the ledger has to tell besides: a clock that went back, a line set aside."""
        desk = self.app.desk
        if desk is None or not desk.ledger.told or self.app.screen is not self:
            return
        told, wrong = "", True
        for each in self.query(StatusLine):
            told, wrong = each.words, each.wrong or not each.words
        self.say(f"{told} {in_short(desk.ledger.told)}".strip(), wrong=wrong)
        desk.ledger.told.clear()

    def redraw(self) -> None:
        """Show what holds now: something was noted, here or on another screen."""

    def keep_draft(self) -> None:
        """Keep what is unfinished for the next time. Raises UserError when it cannot be kept."""

    def on_key_bar_pressed(self, event: KeyBar.Pressed) -> None:
        """An action was clicked in the foot line."""
        event.stop()
        self.action_do(event.action)

    def on_text_entry_paste_cut(self, event: TextEntry.PasteCut) -> None:
        """More was pasted than a line holds."""
        self.say(
            f"A line holds {event.kept} characters; the rest of the paste was left out.", wrong=True
        )

    def in_background(
        self,
        name: str,
        work: Callable[[], Result],
        *,
        then: Callable[[Result], None],
        failed: Callable[[str], None] | None = None,
        still: Callable[[], bool] = lambda: True,
        keys_wait: bool = False,
    ) -> None:
        """Do `work` in a thread, then `then`; what goes wrong is told unless `failed` takes it.

        `keys_wait`: it is short and the screen may be left after it; keys typed meanwhile come after.
        """
        tell = failed or (lambda sentence: self.say(sentence, wrong=True))

        def ended(hear: Callable[[Any], None]) -> Callable[[Any], None]:
            def hearing(what: Any) -> None:
                self.keys_wait = False
                hear(what)

            return hearing

        self.keys_wait = keys_wait
        in_background(self, name, work, then=ended(then), failed=ended(tell), still=still)

    # The keys that most screens share

    def list_in_hand(self) -> LineList:
        """The list that the arrow keys move."""
        return self.query(LineList).first()

    def page_in_hand(self) -> ScrollPage:
        """The page that the page keys turn."""
        return self.query(ScrollPage).first()

    def do_up(self) -> None:
        """The row before."""
        self.list_in_hand().move(-1)

    def do_down(self) -> None:
        """The next row."""
        self.list_in_hand().move(1)

    def do_page_up(self) -> None:
        """A screenful back."""
        page = self.page_in_hand()
        page.turn(-page.screenful)

    def do_page_down(self) -> None:
        """A screenful on."""
        page = self.page_in_hand()
        page.turn(page.screenful)

    def do_back(self) -> None:
        """Step back to the screen before."""
        self.dismiss()

    def do_take_back(self) -> None:
        """Reverse the last entry; one of an earlier sitting or day is named and asked about first."""
        desk = self.app.desk
        if desk is None or self.app.bring_back():
            return
        last = desk.last_entry()
        if last is None:
            raise UserError("There is nothing to take back.")
        if not last.earlier:
            self._take_back(last.line)
            return
        from counter.desk.taking_back import asked_first

        def answered(asked: Any) -> None:
            if asked.yes:
                self._take_back(last.line)

        told = f"{asked_first(last)} It was not noted in this sitting."
        self.app.open_screen("confirm", "Take back what was noted earlier?", told, then=answered)

    def _take_back(self, line: str) -> None:
        desk = self.app.desk
        if desk and self.say_done(desk.take_back):
            told = next((each.words for each in self.query(StatusLine)), "")
            also = " It stands in the line again, to be put right." if self.app.type_again(line) else ""
            self.taken_back(f"{told}{also} Ctrl+Y puts it back.")

    def do_put_back(self) -> None:
        """What was just taken back stands again."""
        desk = self.app.desk
        if desk and self.say_done(desk.put_back):
            self.app.type_again("")
            self.taken_back(next((each.words for each in self.query(StatusLine)), ""))

    def taken_back(self, told: str) -> None:
        """Something was taken back or put back: show what holds now, and tell it."""
        self.redraw()
        self.say(told)

    def say_done(self, verb: Callable[[], str]) -> bool:
        """Do it and tell what it says; whether it was done, or else the sentence of its UserError."""
        try:
            self.say(verb())
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return False
        return True

    def say(self, words: str, *, wrong: bool = False) -> None:
        """Tell a sentence above the foot line, where it stays until the next action."""
        for told in self.query(StatusLine):
            told.tell(words, wrong=wrong)
