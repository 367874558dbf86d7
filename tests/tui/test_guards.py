"""Guards on how screens are made: no markup, no double keys, a whole foot line, help everywhere."""

import ast
import inspect
from collections import Counter as Tally
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest

from counter.tui.app import CounterApp
from counter.tui.navigation import SCREENS, screen_class
from counter.tui.widgets.action import EVERYWHERE, Action
from counter.tui.widgets.base_screen import BaseScreen, in_short
from counter.tui.widgets.key_bar import KeyBar

TUI = Path(__file__).resolve().parents[2] / "counter" / "tui"
#: Taken by terminals, shells or desktops before a program sees them.
TAKEN = ("ctrl+s", "ctrl+z", "ctrl+c", "f11")
#: Widgets and calls whose plain text argument the framework would parse as markup.
PARSES_MARKUP = {"Static", "Label", "Button", "Option", "Checkbox", "Select", "Tree", "TabPane"}


def calls() -> Iterator[tuple[str, ast.Call, str]]:
    """(where, call, name called) of every call in the screens."""
    for path in TUI.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                name = getattr(node.func, "id", getattr(node.func, "attr", ""))
                yield f"{path.name}:{node.lineno}", node, name


def test_every_screen_stands_in_the_table_under_its_own_name() -> None:
    def below(kind: type) -> Iterator[type]:
        for each in kind.__subclasses__():
            yield each
            yield from below(each)

    table = {name: screen_class(name) for name in SCREENS}
    assert {kind.NAME: kind for kind in table.values()} == table
    named = {kind for kind in below(BaseScreen) if kind.NAME}  # type: ignore[attr-defined]
    assert named == set(table.values())


@pytest.mark.parametrize("name", SCREENS)
def test_no_key_does_two_things(name: str) -> None:
    keys = Tally(key for action in screen_class(name).all_actions() for key in action.keys.split())
    assert [key for key, times in keys.items() if times > 1] == []
    assert not set(keys) & set(TAKEN) and not any(key.startswith("alt+") for key in keys)


@pytest.mark.parametrize("name", SCREENS)
def test_every_action_has_its_method_its_key_and_a_sentence(name: str) -> None:
    kind = screen_class(name)
    assert kind.ABOUT.title and kind.ABOUT.paragraphs
    for action in kind.all_actions():
        if not any(action.id.startswith(row) for row in ("tick_", "pick_")):  # digits of a list
            method = getattr(kind, f"do_{action.id}", None) or getattr(
                CounterApp, f"do_{action.id}", None
            )
            assert callable(method), f"{name}: there is no do_{action.id}"
        assert action.help.endswith(".") and action.label, action.id
        assert action.keys or action in EVERYWHERE, f"{name}: {action.id} has no key"


def test_no_key_is_harmless_here_and_throws_something_away_there() -> None:
    does: defaultdict[str, dict[bool, list[str]]] = defaultdict(dict)
    actions: list[tuple[str, Action]] = [("everywhere", each) for each in EVERYWHERE]
    actions += [(name, each) for name in SCREENS for each in screen_class(name).ACTIONS]
    for name, action in actions:
        for key in action.keys.split():
            does[key].setdefault(action.takes_away, []).append(f"{name}.{action.id}")
    assert {key: kinds for key, kinds in does.items() if len(kinds) > 1} == {}
    assert any(True in kinds for kinds in does.values())


@pytest.mark.parametrize("name", SCREENS)
def test_the_foot_line_is_whole_at_80_columns(name: str) -> None:
    foot = KeyBar(screen_class(name).all_actions())
    shown = {action.id for action in foot.fitting(80)}
    left_out = {action.id for action in foot.actions if action.foot < 10} - shown
    assert not left_out and {"help", "find"} <= shown
    text = "".join(part for part, _ in foot.line_at(0, 80))
    assert len(text) <= 80 and "help" in text


def test_every_screen_is_opened_by_a_name_there_is_with_what_it_asks_for() -> None:
    """The table is read when a screen is opened: what no type checker sees is seen here."""
    for where, call, name in calls():
        first = call.args[0] if call.args else None
        if name in ("open_screen", "replace_screen", "open_once") and isinstance(first, ast.Constant):
            assert first.value in SCREENS, where
            if any(isinstance(each, ast.Starred) for each in call.args):
                continue
            words = {each.arg: None for each in call.keywords if each.arg and each.arg != "then"}
            given = [None] * (len(call.args) - 1)
            inspect.signature(screen_class(first.value)).bind(*given, **words)


def test_no_screen_imports_another() -> None:
    for path in (TUI / "screens").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(
                "counter.tui.screens"
            ):
                names = [each.name for each in node.names if each.name.endswith("Screen")]
                assert not names, f"{path.name}:{node.lineno} imports {names}: open it by its name"


def test_no_screen_hands_text_to_a_markup_parser() -> None:
    for where, _, name in calls():
        assert name not in PARSES_MARKUP, f"{where}: draw it with widgets/line_widget.py instead"
        assert name not in ("from_markup", "escape"), where
        assert name != "notify", f"{where}: tell it above the foot line (BaseScreen.say)"


def test_a_widgets_own_rules_name_it() -> None:
    """The framework says nothing when a rule fits no widget: the widget is only as tall as it likes."""
    for path in TUI.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef):
                rules = [
                    ast.unparse(each.value)
                    for each in node.body
                    if isinstance(each, ast.Assign) and ast.unparse(each.targets[0]) == "DEFAULT_CSS"
                ]
                assert all(node.name in each for each in rules), f"{path}: {node.name}"


def test_of_many_sentences_two_are_told_and_the_rest_counted() -> None:
    """A status line of a dozen sentences buries the one that matters."""
    said = [f"Sentence {number}." for number in range(1, 6)]
    assert in_short(said[:2]) == "Sentence 1. Sentence 2."
    assert in_short(said).startswith("Sentence 1. Sentence 2. And 3 more: Ctrl+E")
