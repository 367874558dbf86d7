"""Imports run downwards only: values, reference, judge beside ledger, desk, then tui and cli."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent / "counter"
MAY_IMPORT = {
    "values": {"values"},
    "reference": {"values", "reference"},
    "judge": {"values", "reference", "judge"},
    "ledger": {"values", "reference", "ledger"},
    "desk": {"values", "reference", "judge", "ledger", "desk"},
    "tui": {"values", "reference", "judge", "ledger", "desk", "tui"},
    "cli": {"values", "reference", "judge", "ledger", "desk", "cli"},
}
DOORS = {("cli/main.py", "tui")}  # with no command, the command line opens the app


def floors_imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: say imports in full, so that the floor is seen"
            names.add(node.module or "")
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    parts = [name.split(".") for name in names if name.startswith("counter.")]
    return {part[1] for part in parts if part[1] in MAY_IMPORT}


@pytest.mark.parametrize("floor", MAY_IMPORT)
def test_a_floor_imports_only_itself_and_what_is_below(floor: str) -> None:
    for path in (ROOT / floor).rglob("*.py"):
        above = floors_imported(path) - MAY_IMPORT[floor]
        place = path.relative_to(ROOT).as_posix()
        assert all((place, name) in DOORS for name in above), f"{place} imports {sorted(above)}"


def test_only_the_screens_know_textual() -> None:
    for path in ROOT.rglob("*.py"):
        if path.relative_to(ROOT).parts[0] != "tui":
            assert "textual" not in path.read_text(encoding="utf-8").split("import", 1)[0]
            tree = ast.parse(path.read_text(encoding="utf-8"))
            for node in ast.walk(tree):
                if isinstance(node, ast.ImportFrom | ast.Import):
                    module = getattr(node, "module", None) or node.names[0].name  # type: ignore[union-attr]
                    assert not module.startswith("textual"), path
