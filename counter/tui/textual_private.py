"""Every private name of Textual that the counter uses, and why: nothing else reaches for one.

The version of Textual is pinned exactly for their sake. A test looks each of them up (`PRIVATE`), so
that a newer Textual says at once which feature is at stake.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable
from contextlib import suppress

from textual import events
from textual._xterm_parser import XTermParser
from textual.app import App
from textual.drivers._writer_thread import WriterThread
from textual.message import Message
from textual.widgets import Input

#: Where a private name is found -> what is lost without it.
PRIVATE = {
    "textual.app:App._handle_exception": "the polite crash: drafts kept, a log without anyone's data",
    "textual.app:App._exception": "the polite crash: only the first fault is told, not its echoes",
    "textual.app:App._exception_event": "the polite crash: whoever waits for the app hears of the fault",
    "textual.app:App._return_code": "the polite crash: the counter ends with exit code 1",
    "textual.widgets:Input._on_paste": "pasting: every line of a paste is kept, not only the first",
    "textual._xterm_parser:XTermParser": "Esc: a key typed in a hurry after it is not swallowed",
    "textual.drivers.linux_driver:XTermParser": "Esc: the driver is given our reader of keys",
    "textual.drivers._writer_thread:WriterThread": "a window closed by its cross: the counter ends",
    "textual.drivers.linux_driver:LinuxDriver": "a counter stopped and let go on: its keys are read once",
    "textual.drivers.linux_driver:WriterThread": "the same: the driver is given our writer",
}


class PoliteApp(App[None]):
    """An app whose own fault is logged, told in one line and ends it with exit code 1."""

    def on_fault(self, error: Exception) -> str:
        """Save what can be saved and write the log; the line to end with."""
        raise NotImplementedError

    def _handle_exception(self, error: Exception) -> None:
        if self._exception is not None:
            return  # what follows a fault is its echo
        self._exception = error
        message = "The counter stopped on a fault of its own."
        try:
            message = self.on_fault(error)
        finally:
            self._return_code = 1
            self._exception_event.set()
            self.exit(return_code=1, message=message)


class PasteInput(Input):
    """An input line that is handed the whole of a paste."""

    def pasted(self, text: str) -> None:
        """Take what was pasted."""
        raise NotImplementedError

    def _on_paste(self, event: events.Paste) -> None:
        """The framework would keep only the first line."""
        event.stop()
        event.prevent_default()
        self.pasted(event.text)


class PromptParser(XTermParser):
    """The framework's reader of keys, for which Esc and the key behind it are two keys.

    A terminal sends Esc as the character that also begins the sequences of the function keys, so the
    framework waits ESCDELAY for more. But it looks at its watch only every tenth of a second, not
    before it reads on, and takes any character behind Esc for one key with it: "2d" typed in a hurry after
    Esc became "™d", and the Esc was lost. Only [ and O begin a sequence; for what else comes behind
    Esc, Esc is written out in its long form first.
    """

    _PASTE = re.compile("\x1b\\[20([01])~")
    _LONE = re.compile("\x1b(?=[^\\[O])")
    _LONG = "[27u"  # what makes the character Esc the key, and nothing but the key

    def __init__(self, debug: bool = False) -> None:
        super().__init__(debug)
        self._open = False  # Esc was read, and what comes next decides what it is
        self._pasting = False

    def tick(self) -> Iterable[Message]:
        """A wait that is over ends."""
        for token in super().tick():
            self._open = False
            yield token

    def feed(self, data: str) -> Iterable[Message]:
        """The keys in what came."""
        yield from self.tick()
        yield from super().feed(self._apart(data))

    def _apart(self, data: str) -> str:
        if not data or self._pasting or self._PASTE.search(data):
            for match in self._PASTE.finditer(data):
                self._pasting = match[1] == "0"
            self._open = False
            return data
        begun = self._LONG if self._open and data[0] not in "[O" else ""
        self._open = data[-1] == "\x1b"
        return begun + self._LONE.sub("\x1b" + self._LONG, data)


class LastingWriter(WriterThread):
    """The framework's writer to the terminal, which outlives a terminal that is gone.

    The framework's own dies of the first write that fails; its queue then fills, and the counter,
    told to end because its window was closed, waits for ever for a place in it.
    """

    def run(self) -> None:
        """Write what comes until told to stop; drop it when nobody is there to read it."""
        text: str | None = ""
        while text is not None:
            text = self._queue.get()
            with suppress(OSError):
                self._file.write(text or "")
                if self._queue.qsize() == 0:
                    self._file.flush()


def mend_driver() -> None:
    """Esc, and another key a moment after it, are two keys; a terminal that goes takes nothing along;
    a counter that was stopped from outside and goes on reads its keys once."""
    if os.name == "posix":
        from textual.drivers import linux_driver

        class LastingDriver(linux_driver.LinuxDriver):
            """The framework's driver, which goes on as it was when it was only stopped for a while.

            The framework's own begins anew on every signal to go on: a second reader then takes every other
            key, and the terminal is left as it is in the counter when the counter is closed.
            """

            _aside = False

            def suspend_application_mode(self) -> None:
                """The terminal is given back for a while."""
                self._aside = True
                super().suspend_application_mode()

            def resume_application_mode(self) -> None:
                """Take the terminal again, if it was given back."""
                if self._aside:
                    self._aside = False
                    super().resume_application_mode()

        linux_driver.LinuxDriver = LastingDriver  # type: ignore[misc]
        linux_driver.XTermParser = PromptParser  # type: ignore[attr-defined]
        linux_driver.WriterThread = LastingWriter  # type: ignore[attr-defined]
