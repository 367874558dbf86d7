"""Keys act in the order they were typed, however fast they come.

The framework looks for a screen's key bindings the moment a key arrives, while letters typed before it
may still be on their way to the entry: Enter would act on half a line, and a letter behind a key that opens a
screen would reach the screen that was left. So a key waits until those before it have done their work.
Letters behind letters to the same entry need not wait: they queue there in order. Where a screen is at a short
job after which it is left (a file is written), keys wait for that too.
"""

from __future__ import annotations

from collections import deque
from functools import partial

from textual import events
from textual.app import App
from textual.binding import Binding
from textual.message_pump import MessagePump
from textual.screen import Screen

from counter.tui.widgets.text_entry import FINDS, TextEntry

#: Seconds between two looks whether a screen's short job is done.
_LOOK_AGAIN = 0.01
#: Seconds after which a key is taken to have done its work, should its word of it be lost.
PATIENCE = 1.0


class KeysInOrder(App[None]):
    """An app that hands on one key at a time, and runs of letters together."""

    def __init__(self) -> None:
        super().__init__()
        self._typed: deque[events.Key | events.Paste] = deque()
        self._under_way = 0
        self._only_letters = True
        self._turn = 0  # which run of keys is under way: a late word of an earlier one counts nothing

    async def on_event(self, event: events.Event) -> None:
        """A key or a paste waits for its turn; everything else goes on at once."""
        if not isinstance(event, events.Key | events.Paste) or event.is_forwarded:
            await super().on_event(event)
        elif self._typed or not self._may_go(event):
            self._typed.append(event)
            if len(self._typed) == 1:
                turn = self._turn
                self.set_timer(PATIENCE, partial(self._give_up, turn))
        else:
            await self._hand_on(event)

    def _may_go(self, event: events.Key | events.Paste) -> bool:
        if getattr(self.screen, "keys_wait", False):
            return False
        return not self._under_way or (self._only_letters and self._is_letter(event))

    def _is_letter(self, event: events.Key | events.Paste) -> bool:
        """Whether it only adds to the entry in front: no key of the screen, and no control key."""
        if not isinstance(self.focused, TextEntry):
            return False
        if isinstance(event, events.Paste):
            return True
        if event.character in FINDS and not self.focused.value:
            return False  # it opens the finder, and what comes behind it is typed there
        return event.is_printable and event.key not in _keys_of(self.screen)

    async def _hand_on(self, event: events.Key | events.Paste) -> None:
        letter = self._is_letter(event)
        self._only_letters = letter and (self._only_letters or not self._under_way)
        self._under_way += 1
        screen, turn = self.screen, self._turn
        target: MessagePump = self.focused or screen
        await super().on_event(event)
        if not target.call_later(self._arrived, screen, turn):
            self.call_later(self._landed, turn)  # it went with its screen

    def _arrived(self, screen: Screen[object], turn: int) -> None:
        """The key was worked on; a screen that it opened or uncovered is waited for."""
        try:
            front = self.screen
        except Exception:  # the app is closing: there is no screen to wait for
            return
        if front is screen:
            self.call_later(self._landed, turn)
        else:
            front.call_after_refresh(self.call_later, self._landed, turn)

    async def _give_up(self, turn: int) -> None:
        if turn == self._turn:
            self._under_way = 0
            if getattr(self.screen, "keys_wait", False):
                self.screen.keys_wait = False  # type: ignore[attr-defined]
            await self._landed(turn)

    async def _landed(self, turn: int) -> None:
        if turn != self._turn:
            return
        self._under_way = max(self._under_way - 1, 0)
        if self._under_way:
            return
        if self._typed and getattr(self.screen, "keys_wait", False):
            self.set_timer(_LOOK_AGAIN, partial(self._landed, turn))
            return
        self._turn += 1
        self._only_letters = True
        while self._typed and self._may_go(self._typed[0]):
            await self._hand_on(self._typed.popleft())
        if self._typed:
            turn = self._turn
            self.set_timer(PATIENCE, partial(self._give_up, turn))


def _keys_of(screen: Screen[object]) -> frozenset[str]:
    """Every key that a screen's class binds."""
    kind = type(screen)
    if kind not in _KEYS:
        _KEYS[kind] = frozenset(
            each.key
            for part in kind.__mro__
            for each in vars(part).get("BINDINGS", ())
            if isinstance(each, Binding)
        )
    return _KEYS[kind]


_KEYS: dict[type, frozenset[str]] = {}
