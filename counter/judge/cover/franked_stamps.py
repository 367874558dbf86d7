"""The stamps that a line names one by one: each new face value, with what is said of it, is another."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from counter.judge.observation import Observation, Reading

#: Kinds that tell which stamp it is; the cover's own date and cancel must not choose the stamp that
#: they are then held against.
STAMP_KINDS = frozenset(
    {"denomination", "colour", "shade", "separation", "gauge", "plate", "letters", "corners"}
    | {"watermark", "watermark_way", "paper", "lines", "die", "alphabet", "reign", "process"}
    | {"dots", "overprint", "phosphor", "series", "subject", "tell"}
)
#: What stands before the face value as readily as after it.
_BEFORE = frozenset({"multiple", "quantity", "series", "reign", "orientation"})
_JOINED = re.compile(
    r"[\s,;/]*(?:and|plus|with|&|\+|beside|,|/)?(?:\s+(?:a|an|the))?\s*", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class NamedStamp:
    """One of the stamps of a line: what is said of it, how many there are, whether it is a due label
    or impressed on stationery."""

    told: tuple[Observation, ...]
    count: int = 1
    due: bool = False
    impressed: bool = False

    def value(self) -> str:
        """Its face value as read, or ""."""
        return next((each.value for each in self.told if each.kind == "denomination"), "")


def named_stamps(reading: Reading) -> tuple[NamedStamp, ...]:
    """The stamps that a line names, in its order; one without a face value where none is named."""
    parts: list[list[Observation]] = [[]]
    waiting: list[Observation] = []
    for seen in reading.observations:
        if seen.kind == "franking":
            continue  # a sum beside the stamps, or made of a count and a value: 2 x 1d
        if seen.said != "is" or seen.kind not in STAMP_KINDS | _BEFORE:
            parts[-1] += [each for each in waiting if each.kind != "denomination"]
            waiting = []
        elif seen.kind == "quantity" and _follows(reading, seen):
            parts[-1].append(seen)
        elif seen.kind in _BEFORE:
            waiting.append(seen)
        elif seen.kind == "denomination" and _has_value(parts[-1]):
            parts.append([*waiting, seen])
            waiting = []
        else:
            parts[-1] += [*waiting, seen]
            waiting = []
    parts[-1] += waiting
    named = [
        part for at, part in enumerate(parts) if at == 0 or _is_stamp(reading, parts[at - 1], part)
    ]
    return tuple(_named(reading, part) for part in named if part)


def keeping(reading: Reading, kinds: frozenset[str]) -> Reading:
    """The reading with nothing but certain kinds."""
    return replace(reading, observations=tuple(o for o in reading.observations if o.kind in kinds))


def _follows(reading: Reading, quantity: Observation) -> bool:
    """Whether a count stands behind what it counts: 1d red x 2."""
    return reading.text[quantity.start : quantity.start + 1].casefold() in ("x", "×")


def _has_value(part: list[Observation]) -> bool:
    return any(each.kind == "denomination" for each in part)


def _is_stamp(reading: Reading, before: list[Observation], part: list[Observation]) -> bool:
    """A bare value is another stamp only where it follows the stamp before it, joined by "and"."""
    if len(part) > 1 or not before:
        return True
    end = max(each.end for each in before)
    return bool(_JOINED.fullmatch(reading.text[end : part[0].start]))


def _named(reading: Reading, part: list[Observation]) -> NamedStamp:
    multiple = next((each.value for each in part if each.kind == "multiple"), "")
    lettered = sum(each.kind == "letters" for each in part)
    told = tuple(each for each in part if each.kind in STAMP_KINDS)
    count = count_of(multiple or "single", lettered)
    counted = next((each.value for each in part if each.kind == "quantity"), "")
    if not multiple and counted.isdigit():
        count = int(counted)
    due = any(each.kind == "series" and each.value == "postage_due" for each in told)
    return NamedStamp(told, count, due)


def count_of(multiple: str, lettered: int) -> int:
    """How many stamps a multiple is; without a name as many as were lettered."""
    figure = re.search(r"\d+$", multiple)
    return int(figure[0]) if figure else {"pair": 2}.get(multiple, max(lettered, 1))
