"""Guards on how screens are made: no markup, no double keys, a whole foot line, help everywhere."""

import ast
from collections import Counter as Tally
from pathlib import Path

import pytest

from counter.tui.actions import actions_on, every_action, help_for
from counter.tui.widgets.action import EVERYWHERE
from counter.tui.widgets.key_bar import KeyBar

TUI = Path(__file__).resolve().parents[2] / "counter" / "tui"
PLACES = sorted({each.screen for each in every_action()} - {EVERYWHERE})
#: Taken by terminals, shells or desktops before a program sees them.
TAKEN = ("ctrl+s", "ctrl+z", "ctrl+c", "f11")
#: Widgets and calls whose plain text argument the framework would parse as markup.
PARSES_MARKUP = {"Static", "Label", "Button", "Option", "Checkbox", "Select", "Tree", "TabPane"}


@pytest.mark.parametrize("place", PLACES)
def test_no_key_does_two_things(place: str) -> None:
    keys = Tally(key for action in actions_on(place) for key in action.keys)
    assert [key for key, times in keys.items() if times > 1] == []
    assert not set(keys) & set(TAKEN) and not any(key.startswith("alt+") for key in keys)


@pytest.mark.parametrize("place", PLACES)
def test_every_screen_has_help_and_every_action_a_sentence(place: str) -> None:
    assert help_for(place).paragraphs
    for action in actions_on(place):
        assert action.help.endswith(".") and action.label, action.id


@pytest.mark.parametrize("place", PLACES)
def test_the_foot_line_is_whole_at_80_columns(place: str) -> None:
    foot = KeyBar(place)
    shown = {action.id for action in foot.fitting(80)}
    left_out = {action.id for action in foot.actions if action.foot < 10} - shown
    assert not left_out and {"help", "find"} <= shown
    text = "".join(part for part, _ in foot.line_at(0, 80))
    assert len(text) <= 80 and "help" in text


def test_no_screen_hands_text_to_a_markup_parser() -> None:
    for path in TUI.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            where = f"{path.name}:{node.lineno}"
            assert name not in PARSES_MARKUP, f"{where}: draw it with kit/drawn.py instead"
            assert name not in ("from_markup", "escape"), where
            assert name != "notify", f"{where}: tell it above the foot line (BaseScreen.say)"
