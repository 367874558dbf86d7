"""`counter card ID`: the card of one issue."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict
from difflib import get_close_matches
from typing import TYPE_CHECKING

from counter.cli.call import Call, Reply
from counter.values.errors import InputError

if TYPE_CHECKING:
    from counter.judge.identify import CardLine
    from counter.reference.library import Library

_HINTS = 3
_NEAR = 0.85  # an id with a slip of the finger or two, not other words for it


def arguments(parser: ArgumentParser) -> None:
    """The id of the issue."""
    parser.add_argument("id", metavar="ID", help="an issue id, such as penny_black_1840")


def run(chosen: Namespace, call: Call) -> Reply:
    """The card as {id, name, dates, lines: [{label, text, source, confidence}], sources: {id: title}}.

    `dates` are ISO text as the source gives them, "" where it gives none; the lines say them in words.
    """
    from counter.judge.identify import card_of

    stamps = call.library.stamps
    if chosen.id not in stamps.issues and chosen.id not in stamps.hypotheses:
        raise InputError(_unknown(chosen.id, call.library))
    issue, lines = stamps.weighed(chosen.id), card_of(chosen.id, stamps)
    named = {line.source for line in lines} & stamps.sources.keys()
    data = {
        "id": chosen.id,
        "name": issue.name,
        "dates": {
            "first_issued": issue.date_first_issued,
            "valid_from": issue.date_valid_from,
            "superseded": issue.date_superseded,
        },
        "lines": [asdict(line) for line in lines],
        "sources": {each: stamps.sources[each].title for each in sorted(named)},
    }
    return Reply(data, _text(issue.name, lines))


def _unknown(name: str, library: Library) -> str:
    """The id nearest to it, or those of the issues that it may name as a line would: "penny black"."""
    from counter.judge.identify import identify
    from counter.judge.reading import read_line

    near = get_close_matches(name.casefold(), library.stamps.issues, n=1, cutoff=_NEAR)
    if not near:
        reading = read_line(name.replace("_", " "), library.vocabulary)
        found = identify(reading, library.stamps).told()
        near = [each.issue_id for each in found if each.issue_id in library.stamps.issues][:_HINTS]
    hint = " or ".join(near or ["penny_black_1840"])
    return f"There is no issue {name!r}; an id looks like {hint}."


def _text(name: str, lines: tuple[CardLine, ...]) -> str:
    wide = max(len(line.label) for line in lines)
    rows = (f"{line.label:<{wide}}  {line.text}  [{line.source}, {line.confidence}]" for line in lines)
    return "\n".join((name, *rows))
