"""What to look at next: the look with the most information for its seconds."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import log2
from operator import mul, truediv

from counter.judge.identify.case import case_of
from counter.judge.identify.evidence import Clue, without_stamp
from counter.judge.identify.kinds import other_kinds, takes_over
from counter.judge.identify.model import Model
from counter.judge.identify.shares import Shares, weigh
from counter.judge.identify.words import value_words
from counter.judge.observation import Observation, Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_error import Look

_LEAST_SHARE = 1e-4  # issues less likely than this do not steer the next look
_SURE = 0.95  # a first candidate of this share needs no look
_LEAST_BITS = 0.02
_OFFERED_SHARE = 0.001  # answers are values that issues of at least this share together show
_MOST_CHOICES = 12  # more plate numbers are no choice; more colours are asked by family


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer to a look: its words, the observation it stands for, and its chance (0 to 1)."""

    words: str
    observation: Observation
    chance: float


@dataclass(frozen=True, slots=True)
class NextLook:
    """A look worth taking. `words` ask it plainly; `bits` is the expected information about which
    issue it is; `seconds` includes taking up the glass; `wets` says that it wets the stamp.
    `answers` run from the likeliest; "not seen" needs no answer."""

    id: str
    words: str
    kind: str
    bits: float
    seconds: float
    wets: bool
    answers: tuple[Answer, ...]
    source: str


def next_looks(
    reading: Reading, stamps: Stamps, *, wet: bool = False, most: int = 3
) -> tuple[NextLook, ...]:
    """At most `most` looks by bits per second, one a kind; looks that wet only when `wet`."""
    model, seen = case_of(reading, stamps)
    if without_stamp(reading.observations, model.stamps.errors) or takes_over(
        reading, other_kinds(reading, stamps)
    ):
        return ()
    shares = weigh(seen, model)
    looks = looks_worth(seen, shares, model, wet=wet)
    looks.sort(key=lambda look: (-look.bits / look.seconds, look.seconds))
    chosen: dict[str, NextLook] = {}
    for look in looks:
        chosen.setdefault(look.kind if not look.wets else look.id, look)
    if not chosen and seen:
        return _look_again(seen, shares, model)
    return tuple(chosen.values())[:most]


def _look_again(seen: Sequence[Clue], shares: Shares, model: Model) -> tuple[NextLook, ...]:
    """Where nothing is left to look at and the first is not sure: the thing that decides, once more."""
    first = max(shares.issues, key=lambda name: shares.issues[name])
    if shares.issues[first] >= _SURE:
        return ()
    falls = []
    for each in seen:
        rest = [other for other in seen if other is not each]
        without = weigh(rest, model)
        falls.append((without.issues[first], each, rest, without))
    for _, each, rest, without in sorted(falls, key=lambda fall: fall[0]):
        for look in looks_worth(rest, without, model, wet=False):
            if look.kind == each.kind:
                return (replace(look, id=f"again_{look.id}", words=f"look again: {look.words}"),)
    return ()


def looks_worth(seen: Sequence[Clue], shares: Shares, model: Model, *, wet: bool) -> list[NextLook]:
    """Every look that would still say something, in no order."""
    done = {each.kind for each in seen}
    live = tuple(name for name, share in shares.issues.items() if share >= _LEAST_SHARE)
    handling = model.stamps.errors.figures["handling_seconds"]
    found = []
    for look in model.stamps.errors.looks:
        if look.kind in done or (look.wets and not wet):
            continue
        values = look_values(look.kind, live, shares, model)
        if len(values) < 2:
            continue
        bits, chances = information(look.kind, values, live, shares, model)
        if bits < _LEAST_BITS:
            continue
        answers = _answers(look, values, chances, model)
        seconds = look.seconds + handling
        words = _question(look, answers)
        found.append(
            NextLook(look.id, words, look.kind, bits, seconds, look.wets, answers, look.source)
        )
    return found


def look_values(kind: str, live: Iterable[str], shares: Shares, model: Model) -> tuple[str, ...]:
    """The values that a look could find, in the order first met; rare ones are left out."""
    values: dict[str, float] = {}
    for name in live:
        start, end = model.spans[name]
        shown = {value for each in model.variants[start:end] for value in model.possible(kind, each)}
        for value in sorted(shown):
            values[value] = values.get(value, 0.0) + shares.issues[name]
    offered = tuple(value for value, share in values.items() if share >= _OFFERED_SHARE)
    if len(offered) > _MOST_CHOICES and kind == "plate":
        return ()
    if len(offered) > _MOST_CHOICES and kind == "colour":
        families = (family for value in offered for family in model.palette.families(value))
        return tuple(dict.fromkeys(families))
    return offered


def information(
    kind: str, values: Sequence[str], live: Sequence[str], shares: Shares, model: Model
) -> tuple[float, tuple[float, ...]]:
    """Expected information in bits that the answer carries about the issue, and the chance of
    each value: the mutual information H(answer) + H(issue) - H(answer and issue).

    Every answer is one of `values`, so a stamp's chances are taken to sum to 1 over them.
    """
    spans = [model.spans[name] for name in live]
    places = [place for start, end in spans for place in range(start, end)]
    rows = [[row[place] for place in places] for row in _chances(kind, values, model)]
    whole = sum(shares.issues[name] for name in live)
    weights = [shares.variants[place] / whole for place in places]
    scale = list(map(truediv, weights, map(sum, zip(*rows, strict=True))))
    counts = [end - start for start, end in spans]
    marginal, joint = [], 0.0
    for row in rows:
        each = _by_issue(list(map(mul, scale, row)), counts)
        marginal.append(sum(each))
        joint += entropy(each)
    issues = [shares.issues[name] / whole for name in live]
    return max(entropy(marginal) + entropy(issues) - joint, 0.0), tuple(marginal)


def _chances(kind: str, values: Sequence[str], model: Model) -> list[tuple[float, ...]]:
    return [model.row(kind, value).chances for value in values]


def _by_issue(amounts: list[float], counts: Sequence[int]) -> list[float]:
    """Amounts of stamps added up to their issues."""
    if len(counts) == len(amounts):
        return amounts
    added, start = [], 0
    for count in counts:
        added.append(amounts[start] if count == 1 else sum(amounts[start : start + count]))
        start += count
    return added


def entropy(chances: Iterable[float]) -> float:
    """Shannon's entropy in bits of chances; those of 0 add nothing."""
    return -sum(chance * log2(chance) for chance in chances if chance > 0)


def _answers(
    look: Look, values: Sequence[str], chances: Sequence[float], model: Model
) -> tuple[Answer, ...]:
    order = sorted(zip(values, chances, strict=True), key=lambda pair: -pair[1])
    return tuple(
        Answer(words, Observation(look.kind, value, words), chance)
        for value, chance in order
        if (words := value_words(look.kind, value, model))
    )


def _question(look: Look, answers: Sequence[Answer]) -> str:
    named = [answer.words for answer in answers[:3]]
    more = " or another" if len(answers) > 3 else ""
    if more:
        return f"{look.ask}: {', '.join(named)}{more}?"
    return f"{look.ask}: {', '.join(named[:-1])} or {named[-1]}?"
