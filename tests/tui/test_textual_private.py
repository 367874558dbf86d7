"""The private names of Textual that the counter leans on, each looked up in the Textual installed."""

from __future__ import annotations

import ast
import os
import tomllib
from importlib import import_module
from importlib.metadata import version
from pathlib import Path

import pytest
from textual.app import App

from counter.tui.textual_private import PRIVATE

TUI = Path(__file__).resolve().parents[2] / "counter" / "tui"
#: Set when an app is made, not on its class.
MADE = {"_exception", "_exception_event", "_return_code"}


@pytest.mark.parametrize("name", PRIVATE)
def test_a_private_name_is_still_there(name: str) -> None:
    module, _, inside = name.partition(":")
    if module.endswith("linux_driver") and os.name != "posix":
        pytest.skip("another driver reads the keys there")
    lost = f"Textual {version('textual')} has no {name} any more: without it {PRIVATE[name]}."
    try:
        found: object = import_module(module)
        for part in inside.split("."):
            found = App() if found is App and part in MADE else found
            assert hasattr(found, part), lost
            found = getattr(found, part)
    except ImportError:
        pytest.fail(lost)


def test_the_version_of_textual_is_pinned() -> None:
    project = tomllib.loads((TUI.parents[1] / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [each for each in project["dependencies"] if each.startswith("textual")]
    assert wanted == [f"textual=={version('textual')}"]


def test_no_other_module_reaches_for_a_private_name() -> None:
    named = {name.rpartition(".")[2].rpartition(":")[2] for name in PRIVATE}
    for path in TUI.rglob("*.py"):
        if path.name == "textual_private.py":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            where = f"{path}:{getattr(node, 'lineno', 0)}: its place is textual_private.py"
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("textual"):
                words = [*(node.module or "").split("."), *(each.name for each in node.names)]
                assert not any(each.startswith("_") for each in words), where
            if isinstance(node, ast.FunctionDef | ast.Attribute):
                name = node.name if isinstance(node, ast.FunctionDef) else node.attr
                assert name not in named, where
