"""What an issue is called in a line of stock, and the words it can also be asked for by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class IssueName:
    """An issue in few words: "2d", "blue", "1841 white lines".

    `also` are words of the reference that a line does not show but a dealer may type: the
    separation, the watermark, the reign. `title` and `issued` serve the long description.
    """

    denomination: str = ""
    colour: str = ""
    tail: str = ""
    also: tuple[str, ...] = ()
    title: str = ""
    issued: str = ""
    separation: str = ""
    process: str = ""


Names = Mapping[str, IssueName]
_UNKNOWN = IssueName()


def name_of(issue: str, names: Names) -> IssueName:
    """The name of an issue; an id that the reference does not know is shown as its own words."""
    if not issue:
        return _UNKNOWN
    return names.get(issue) or IssueName(tail=issue.replace("_", " "))
