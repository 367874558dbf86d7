"""`counter gauge`: the perforation gauge from holes counted over any length."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Any

from counter.cli.call import Call, Reply
from counter.judge.gauge import gauge_for, read_gauges
from counter.values.errors import InputError
from counter.values.gauge import Measured, measure, read_length


def arguments(parser: ArgumentParser) -> None:
    """Holes or teeth and the length they were counted over; a second side and an issue if wanted."""
    parser.add_argument("--holes", type=_count, required=True, help="holes, or teeth, counted")
    parser.add_argument("--over", required=True, metavar="LENGTH", help='such as "25 mm" or "1 inch"')
    parser.add_argument("--down-holes", type=_count, metavar="HOLES", help="counted along the side")
    parser.add_argument("--down-over", metavar="LENGTH", help="length along the side")
    parser.add_argument("--issue", metavar="ID", help="can it be the gauge of this issue?")


def run(chosen: Namespace, call: Call) -> Reply:
    """JSON: {gauge, plus_minus, agrees_with, issues, how, cautions}; more with a side or an issue."""
    across = measure(chosen.holes, read_length(chosen.over))
    down = _down(chosen)
    stamps = call.library.stamps
    read = read_gauges(stamps, across, down)
    data: dict[str, Any] = {
        "gauge": round(across.value, 2),
        "plus_minus": round(across.plus_minus, 2),
        "agrees_with": list(read.agrees_with),
        "issues": list(read.issues),
        "how": across.how,
        "cautions": list(read.cautions),
    }
    lines = [
        f"Gauge {across.value:.1f} plus or minus {across.plus_minus:.1f} ({across.how}).",
        _agrees("It agrees with", read.agrees_with),
    ]
    if down:
        data |= {
            "down": {"gauge": round(down.value, 2), "plus_minus": round(down.plus_minus, 2)},
            "agrees_down": list(read.agrees_down),
            "sides": read.sides,
        }
        lines.append(f"Down the side {down.value:.1f} plus or minus {down.plus_minus:.1f}.")
        lines.append(_agrees("That agrees with", read.agrees_down) + f" The sides are {read.sides}.")
    lines.append(f"Issues left: {len(read.issues)}.")
    lines.extend(read.cautions)
    if chosen.issue:
        _for_issue(chosen.issue, call, across, down, data, lines)
    return Reply(data, "\n".join(lines))


def _count(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise InputError(f"{text!r} is no count of holes: write it like 14 or 14.5.") from None


def _down(chosen: Namespace) -> Measured | None:
    if (chosen.down_holes is None) != (chosen.down_over is None):
        raise InputError("The side needs both: --down-holes 15 --down-over '20 mm'.")
    if chosen.down_holes is None:
        return None
    return measure(chosen.down_holes, read_length(chosen.down_over))


def _agrees(words: str, gauges: tuple[float, ...]) -> str:
    told = " and ".join(f"{each:g}".replace(".5", "½") for each in gauges)
    return f"{words} {told}." if told else f"{words} no gauge that a British stamp has."


def _for_issue(
    name: str,
    call: Call,
    across: Measured,
    down: Measured | None,
    data: dict[str, Any],
    lines: list[str],
) -> None:
    issue = call.library.stamps.issues.get(name)
    if issue is None:
        raise InputError(f"There is no issue {name!r} in the reference.")
    judged = gauge_for(issue, call.library.stamps, across, down)
    data["issue"] = {
        "id": issue.id,
        "verdict": judged.verdict,
        "reasons": [{"text": each.text, "source": each.source} for each in judged.reasons],
    }
    lines.append(f"{issue.name}: {judged.verdict}.")
    lines.extend(each.text for each in judged.reasons)
