"""What to look at next: the look with the most information for its seconds."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import log2

from counter.judge.identify.model import Model, model_of, weighable
from counter.judge.identify.shares import Shares, weigh
from counter.judge.identify.words import value_words
from counter.judge.seen import Observation, Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_error import Look

_LEAST_SHARE = 1e-4  # issues less likely than this do not steer the next look
_LEAST_BITS = 0.02
_MOST_PLATES = 12  # more numbers than this are not a choice, but something to type


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
    model = model_of(stamps)
    seen = weighable(reading.observations, model)
    shares = weigh(seen, model)
    looks = looks_worth(seen, shares, model, wet=wet)
    looks.sort(key=lambda look: (-look.bits / look.seconds, look.seconds))
    chosen: dict[str, NextLook] = {}
    for look in looks:
        chosen.setdefault(look.kind if not look.wets else look.id, look)
    return tuple(chosen.values())[:most]


def looks_worth(
    seen: Sequence[Observation], shares: Shares, model: Model, *, wet: bool
) -> list[NextLook]:
    """Every look that would still say something, in no order."""
    done = {each.kind for each in seen}
    live = _live(shares, model)
    handling = model.stamps.errors.figures["handling_seconds"]
    found = []
    for look in model.stamps.errors.looks:
        if look.kind in done or (look.wets and not wet):
            continue
        values = values_of(look.kind, live, model)
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


def _live(shares: Shares, model: Model) -> tuple[str, ...]:
    return tuple(name for name, share in shares.issues.items() if share >= _LEAST_SHARE)


def values_of(kind: str, live: Iterable[str], model: Model) -> tuple[str, ...]:
    """The values a look could find on any of the live issues, in the order first met."""
    values: dict[str, None] = {}
    for name in live:
        start, end = model.spans[name]
        for variant in model.variants[start:end]:
            for value in model.possible(kind, variant):
                values[value] = None
    if kind == "plate" and len(values) > _MOST_PLATES:
        return ()
    return tuple(values)


def information(
    kind: str, values: Sequence[str], live: Sequence[str], shares: Shares, model: Model
) -> tuple[float, tuple[float, ...]]:
    """Expected information in bits that the answer carries about the issue, and the chance of
    each value. This is the mutual information of answer and issue: H(answer) - H(answer | issue).
    """
    rows = [model.row(kind, value).chances for value in values]
    whole = sum(shares.issues[name] for name in live)
    marginal = [0.0] * len(values)
    within = 0.0
    for name in live:
        share = shares.issues[name] / whole
        told = _answers_given(name, rows, shares, model)
        for place, chance in enumerate(told):
            marginal[place] += share * chance
        within += share * entropy(told)
    return max(entropy(marginal) - within, 0.0), tuple(marginal)


def _answers_given(
    name: str, rows: Sequence[tuple[float, ...]], shares: Shares, model: Model
) -> list[float]:
    """The chances of the answers on one issue, summing to 1, over its stamps by their shares."""
    start, end = model.spans[name]
    mine = shares.issues[name]
    told = [0.0] * len(rows)
    for place in range(start, end):
        weight = shares.variants[place] / mine
        column = [row[place] for row in rows]
        part = weight / sum(column)
        for spot, chance in enumerate(column):
            told[spot] += part * chance
    return told


def entropy(chances: Iterable[float]) -> float:
    """Shannon's entropy in bits of chances that sum to 1."""
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
