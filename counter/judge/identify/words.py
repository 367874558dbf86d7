"""Plain words for ids and values."""

from __future__ import annotations

from counter.judge.identify.model import Model
from counter.reference.stamps_issue import Issue
from counter.values.dates import day_words


def value_words(kind: str, value: str, model: Model) -> str:
    """A value in the trade's words: a watermark by its name, "large white letters" for the id."""
    if kind == "watermark":
        mark = model.stamps.watermarks.get(value)
        name = mark.name if mark and mark.id != "no_watermark" else value.replace("_", " ")
        return name.replace(",", "")  # these names stand in lists
    words = model.stamps.errors.answers.get(kind, {})
    return words.get(value, value.replace("_", " "))


def date_words(issue: Issue) -> str:
    """When an issue was current, as its source says."""
    until = day_words(issue.date_superseded)
    first = day_words(issue.date_first_issued)
    return f"{first} to {until}" if until else f"{first} on"
