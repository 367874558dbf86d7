"""`counter compare`: two issues side by side, or the first two that a line could be."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict
from typing import TYPE_CHECKING

from counter.cli.call import Call, Reply
from counter.values.errors import InputError

if TYPE_CHECKING:
    from counter.judge.identify import SideBySide
    from counter.judge.observation import Reading
    from counter.reference.stamps import Stamps

_WIDE = 34


def arguments(parser: ArgumentParser) -> None:
    """Two ids, or a line as it is typed at the counter."""
    parser.add_argument(
        "what",
        metavar="WHAT",
        nargs="+",
        help="two issue ids, and what was seen; or a line, such as 1d red imperf: its first two",
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """JSON: {left, right, names: [left, right], rows: [{kind, label, left, right, parts, seconds, how,
    sources: [left, right]}], first (the kind that parts them first, or null), proof_of_left,
    proof_of_right, told}."""
    from counter.judge.identify import side_by_side
    from counter.judge.reading import read_line

    stamps = call.library.stamps
    words = " ".join(chosen.what).split()
    known = [each for each in words[:2] if each in stamps.issues or each in stamps.hypotheses]
    line = words if len(known) < 2 else words[2:]
    reading = read_line(" ".join(line), call.library.vocabulary)
    left, right = known if len(known) == 2 else _first_two(reading, stamps)
    found = side_by_side(left, right, reading, stamps)
    data = asdict(found) | {"first": found.first.kind if found.first else None}
    return Reply(data, "\n".join(_lines(found)))


def _first_two(reading: Reading, stamps: Stamps) -> tuple[str, str]:
    from counter.judge.identify import identify

    found = identify(reading, stamps).candidates
    if len(found) < 2:
        raise InputError(
            "There are no two to compare: give two issue ids, or a line that leaves more than one open."
        )
    return found[0].issue_id, found[1].issue_id


def _lines(found: SideBySide) -> list[str]:
    wide = max((len(row.label) for row in found.rows), default=0)
    lines = [f"{'':{wide}}    {_cut(found.names[0]):{_WIDE}}  {_cut(found.names[1])}"]
    for row in found.rows:
        sign = "≠" if row.parts else " "
        lines.append(
            f"{row.label:{wide}}  {sign} {_cut(row.left or '?'):{_WIDE}}  {_cut(row.right or '?')}"
        )
    if found.first:
        lines.append(f"Look first: {found.first.how} ({found.first.seconds:.0f} s).")
    else:
        lines.append("Nothing on the stamp itself parts them.")
    lines.append(f"It is the {found.names[0]}: {found.proof_of_left}.")
    lines.append(f"It is the {found.names[1]}: {found.proof_of_right}.")
    lines += [f"Told apart: {each}" for each in found.told]
    return lines


def _cut(words: str) -> str:
    return words if len(words) <= _WIDE else f"{words[: _WIDE - 1]}…"
