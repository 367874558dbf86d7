"""The command line: finds the command, prints its answer as text or JSON, keeps the exit codes.

0 answered; 2 bad words on the command line; 1 anything else, with one sentence on stderr.
"""

from __future__ import annotations

import argparse
import json
import re
import shlex
import sys
from argparse import Namespace
from collections.abc import Sequence
from importlib import import_module
from io import TextIOWrapper
from itertools import takewhile
from typing import Any, NoReturn

from counter import __version__
from counter.cli.call import Call, Reply
from counter.cli.commands import COMMANDS
from counter.values.errors import InputError, UserError
from counter.values.visible import visible, visible_lines

_ABOUT = "The stall-table tool of a dealer in classic British stamps and covers."
_AFTER = "With no command the counter opens on the screen. Nothing here ever uses a network."


class _Once(argparse._StoreAction):  # the library's own way to say how an option is taken
    """An option that holds one value: given twice, the first would be lost without a word."""

    given = False

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        if self.given and self.option_strings:
            raise InputError(f"{option_string} was given twice; give it once.")
        self.given = True
        super().__call__(parser, namespace, values, option_string)


class _Parser(argparse.ArgumentParser):
    """An argument parser that says what is wrong in one sentence."""

    def __init__(self, *words: Any, **how: Any) -> None:
        super().__init__(*words, **how)
        self.register("action", None, _Once)
        self.register("action", "store", _Once)

    def error(self, message: str) -> NoReturn:
        raise InputError(f"{message[:1].upper()}{message[1:]} (try: {self.prog} --help).")


def _everywhere() -> _Parser:
    """Options understood both before and after the command's name."""
    shared = _Parser(add_help=False, argument_default=argparse.SUPPRESS)
    shared.add_argument("--data", metavar="DIR", help="your data folder (or set COUNTER_DATA)")
    shared.add_argument("--demo", action="store_true", help="use a throw-away copy of the demo stock")
    shared.add_argument(
        "--costs", action="store_true", help="show the dealer's own too: suggestions, costs, floors"
    )
    shared.add_argument("--json", action="store_true", help="print the answer as JSON")
    return shared


def _parser(name: str | None) -> argparse.ArgumentParser:
    """The parser with only the named command's own arguments loaded: the others cost start-up."""
    shared = _everywhere()
    parser = _Parser(prog="counter", description=_ABOUT, epilog=_AFTER, parents=[shared])
    parser.add_argument("--version", action="version", version=f"counter {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    for each in COMMANDS:
        sub = commands.add_parser(each.name, help=each.help, description=each.help, parents=[shared])
        if each.name == name:
            import_module(each.module).arguments(sub)
    return parser


def main(words: Sequence[str] | None = None) -> int:
    """Run one command (or open the app) and return the exit code."""
    words = list(sys.argv[1:] if words is None else words)
    for out in (sys.stdout, sys.stderr):
        if isinstance(out, TextIOWrapper):
            out.reconfigure(errors="replace")  # a sign the terminal lacks must not end the command
    try:
        return _run(words)
    except InputError as bad:
        _tell(str(bad))
        return 2
    except UserError as trouble:
        _tell(str(trouble))
        return 1
    except KeyboardInterrupt:
        _tell("Stopped; nothing was left half-written.")
        return 1


def _run(words: list[str]) -> int:
    """One command, its desk closed again whatever happens. Raises UserError."""
    names = {each.name: each for each in COMMANDS}
    name = next((word for word in words if word in names), None)
    chosen = _chosen(words, name)
    call = Call.from_arguments(chosen)
    try:
        if chosen.command is None:
            from counter.tui.start import start

            return start(call.open_desk)
        reply: Reply = import_module(names[chosen.command].module).run(chosen, call)
    finally:
        call.close()
        for sentence in call.told:
            _tell(sentence)
    _print(reply, as_json=getattr(chosen, "json", False))
    return reply.code


def _chosen(words: list[str], name: str | None) -> Namespace:
    """The words of the command line taken apart. Raises InputError."""
    options = takewhile(lambda word: word != "--", words)
    if empty := next((word for word in options if re.fullmatch(r"--[\w-]+=--", word)), None):
        raise InputError(f"{empty} says nothing; give it a value.")  # argparse hands on a list for it
    chosen, more = _parser(name).parse_known_args(words)
    if more:
        helps = f"counter {chosen.command} --help" if chosen.command else "counter --help"
        raise InputError(f"Not understood here: {shlex.join(more)} (try: {helps}).")
    return chosen


def _tell(sentence: str) -> None:
    print(visible(sentence), file=sys.stderr)


def _print(reply: Reply, *, as_json: bool) -> None:
    shown = json.dumps(reply.data, ensure_ascii=False, indent=2) if as_json else reply.text
    try:
        print(visible_lines(shown))
    except BrokenPipeError:  # `counter ... | head` is a normal thing to do
        sys.stderr.close()
