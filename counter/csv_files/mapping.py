"""Which heading of a stock list means which of our columns: said, remembered or guessed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from counter.csv_files.columns import BY_HEADING, Column, guess
from counter.store.ledger import Ledger
from counter.values.errors import InputError

SKIP = "-"
REMEMBERED = "import headings"
Columns = dict[str, Column | None]
"""Our column for each heading of a file; None leaves it out."""


def mapping_for(ledger: Ledger, headings: Sequence[str], said: Mapping[str, str]) -> Columns:
    """Which column each heading is: as `said`, else as remembered, else as its words suggest.

    Raises InputError on a heading or column that is not there, or when two headings mean one column.
    """
    for heading in said:
        if heading not in headings:
            raise InputError(f"The file has no column {heading!r}; it has {', '.join(headings)}.")
    remembered = ledger.row("settings", REMEMBERED) or {}
    chosen = {
        heading: _column(heading, said.get(heading, remembered.get(heading))) for heading in headings
    }
    _each_once(chosen, headings)
    return chosen


def suggested(ledger: Ledger, headings: Sequence[str]) -> Columns:
    """As `mapping_for` with nothing said, but where two headings mean one column the first has it."""
    remembered = ledger.row("settings", REMEMBERED) or {}
    chosen: Columns = {}
    for heading in headings:
        column = _column(heading, remembered.get(heading))
        taken = column is not None and column in chosen.values()
        chosen[heading] = None if taken or headings.count(heading) > 1 else column
    return chosen


def named(columns: Columns) -> dict[str, str]:
    """The columns by their headings, as they are said and remembered."""
    return {heading: column.heading if column else SKIP for heading, column in columns.items()}


def _column(heading: str, name: str | None) -> Column | None:
    if name is None:
        return guess(heading)
    if name == SKIP:
        return None
    if name not in BY_HEADING:
        raise InputError(f"There is no stock column {name!r}; there are {', '.join(BY_HEADING)}.")
    return BY_HEADING[name]


def _each_once(chosen: Columns, headings: Sequence[str]) -> None:
    twice = [heading for heading, times in Counter(headings).items() if times > 1 and chosen[heading]]
    if twice:
        raise InputError(f"The file has two columns called {twice[0]!r}: leave it out or rename one.")
    seen: dict[str, str] = {}
    for heading, column in chosen.items():
        if column is None:
            continue
        if column.heading in seen:
            raise InputError(
                f"{seen[column.heading]!r} and {heading!r} both seem to be the {column.heading}; "
                f"leave one of them out."
            )
        seen[column.heading] = heading
