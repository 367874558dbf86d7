"""Imports run downwards only, between rooms and inside them in no circle, wherever they stand."""

import ast
import itertools
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "counter"
#: The floors, lowest first: a room may import itself and what is on lower floors, never a neighbour.
FLOORS = (
    ("values",),
    ("reference",),
    ("store", "describe"),
    ("judge", "search"),
    ("trade", "csv_files"),
    ("documents",),
    ("desk",),
    ("tui",),
    ("cli",),
)
FLOOR = {room: number for number, rooms in enumerate(FLOORS) for room in rooms}
#: The judges never see what the dealer owns: what they need of it is handed to them.
BLIND = {"judge": {"store"}}


def name_of(path: Path) -> str:
    """The module's whole name: counter.values.money."""
    parts = ("counter", *path.relative_to(PACKAGE).with_suffix("").parts)
    return ".".join(parts).removesuffix(".__init__")


MODULES = {name_of(path): path for path in sorted(PACKAGE.rglob("*.py"))}


@cache
def trees() -> dict[str, ast.Module]:
    return {name: ast.parse(path.read_text(encoding="utf-8")) for name, path in MODULES.items()}


def module_named(name: str) -> str:
    """The longest beginning of a dotted name that is a module of the counter, or ""."""
    parts = name.split(".")
    tries = (".".join(parts[:count]) for count in range(len(parts), 0, -1))
    return next((each for each in tries if each in MODULES), "")


def imports_of(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """(line, whole name) of every import, at the top, in a function or for annotations alike."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"line {node.lineno}: say imports in full, so that the room is seen"
            yield from ((node.lineno, f"{node.module}.{alias.name}") for alias in node.names)


@cache
def arrows() -> tuple[tuple[str, int, str], ...]:
    """(module, line, module imported) within the counter."""
    return tuple(
        (name, line, target)
        for name, tree in trees().items()
        for line, whole in imports_of(tree)
        if whole.split(".")[0] == "counter" and (target := module_named(whole)) not in ("", name)
    )


def room(module: str) -> str:
    return module.split(".")[1] if module.count(".") else ""


@pytest.mark.parametrize("of", FLOOR)
def test_a_room_imports_itself_and_what_is_below(of: str) -> None:
    wrong = [
        f"{MODULES[name]}:{line} imports {target}"
        for name, line, target in arrows()
        if room(name) == of
        and room(target) in FLOOR
        and room(target) != of
        and (FLOOR[room(target)] >= FLOOR[of] or room(target) in BLIND.get(of, ()))
    ]
    assert not wrong, "\n".join(wrong)


def test_no_imports_run_in_a_circle() -> None:
    below: dict[str, dict[str, int]] = {name: {} for name in MODULES}
    for name, line, target in arrows():
        below[name].setdefault(target, line)
    done: set[str] = set()

    def visit(name: str, way: list[str]) -> None:
        if name in way:
            ring = [*way[way.index(name) :], name]
            lines = (f"{MODULES[a]}:{below[a][b]} imports {b}" for a, b in itertools.pairwise(ring))
            raise AssertionError("a circle:\n" + "\n".join(lines))
        if name not in done:
            for target in below[name]:
                visit(target, [*way, name])
            done.add(name)

    for name in MODULES:
        visit(name, [])


def test_only_the_screens_know_textual() -> None:
    wrong = [
        f"{MODULES[name]}:{line}"
        for name, tree in trees().items()
        if room(name) != "tui"
        for line, whole in imports_of(tree)
        if whole.split(".")[0] == "textual"
    ]
    assert not wrong, "\n".join(wrong)


def test_the_door_from_the_command_line_to_the_screens_is_the_only_one() -> None:
    doors = {name for name, _, target in arrows() if room(name) == "cli" and room(target) == "tui"}
    assert doors <= {"counter.cli.main"}, "with no command, main opens the app; nothing else does"
