"""The tables of the examination: how likely each observation is on each stamp, kept once made."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache
from math import log

from counter.judge.identify import figures, likelihood
from counter.judge.identify.colours import Palette
from counter.judge.identify.variants import Variant, all_variants
from counter.judge.observation import Observation
from counter.reference.stamps import Stamps

#: Bands by their place are weighed as bands: issues have them by value and by printing.
_BANDS = {"two_bands": "bands", "centre_band": "bands", "side_band": "bands"}
#: Kinds of which one stamp may show several.
_SEVERAL = frozenset({"series", "phosphor"})
_LEAST = 1e-12  # nothing said of a stamp is impossible
_FIGURES = frozenset({"plate", "gauge", "letters"})  # of alternatives the chances add up


@dataclass(frozen=True, slots=True)
class Row:
    """One observation weighed: its chance on each variant, its logs, its mean over all issues, and
    its chance on a stamp that is none of them."""

    chances: tuple[float, ...]
    logs: tuple[float, ...]
    mean: float
    outside: float


@dataclass
class Model:
    """The stamps with everything worked out about them so far, with or without the commemorative
    `sets`. One of each is made for a reference."""

    stamps: Stamps
    sets: bool = False
    variants: tuple[Variant, ...] = field(init=False)
    spans: dict[str, tuple[int, int]] = field(init=False)
    prior: tuple[float, ...] = field(init=False)
    prior_logs: tuple[float, ...] = field(init=False)
    palette: Palette = field(init=False)
    overprints: set[str] = field(init=False)
    unsaid_logs: dict[str, tuple[float, ...]] = field(init=False)
    rows: dict[tuple[str, str], Row] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.variants = all_variants(self.stamps, sets=self.sets)
        self.palette = Palette(self.stamps.errors)
        self.spans = {}
        for place, variant in enumerate(self.variants):
            start, _ = self.spans.get(variant.issue.id, (place, place))
            self.spans[variant.issue.id] = (start, place + 1)
        self.prior = self._prior()
        self.prior_logs = tuple(log(each) for each in self.prior)
        states = (likelihood.states("overprint", variant) for variant in self.variants)
        self.overprints = {words for each in states for words in each}
        unsaid = log(self.stamps.errors.figures["overprint_unsaid"])
        self.unsaid_logs = {
            "overprint": tuple(
                0.0 if "none" in likelihood.states("overprint", each) else unsaid
                for each in self.variants
            ),
            "country": tuple(unsaid if each.stamp.countries else 0.0 for each in self.variants),
        }

    def _prior(self) -> tuple[float, ...]:
        """Each stamp counts once, by the standing of its issue; what is left to 1 is none of these."""
        errors = self.stamps.errors
        outside = errors.figures["none_of_these"]
        weights = []
        for variant in self.variants:
            weight = errors.standings[variant.characters.standing].weight
            if variant.characters.processes == ("line_engraved",):
                weight *= errors.figures["line_engraved_weight"]
            weights.append(weight)
        whole = sum(weights) / (1 - outside)
        return tuple(weight / whole for weight in weights)

    def row(self, kind: str, value: str) -> Row:
        """The weighed observation; made once for a kind and value."""
        key = (kind, value)
        if key not in self.rows:
            if len(self.rows) > 1000:  # some 30 KB each
                self.rows.clear()  # a day of typing dates and letters must not grow without end
            self.rows[key] = self._weigh(kind, value)
        return self.rows[key]

    def _weigh(self, kind: str, value: str) -> Row:
        made: dict[object, float | None] = {}
        known = []
        for variant in self.variants:
            grounds = _grounds(kind, variant)
            if grounds not in made:
                made[grounds] = self.chance(variant, kind, value)
            known.append(made[grounds])
        weighed = [(p, c) for p, c in zip(self.prior, known, strict=True) if c is not None]
        whole = sum(p for p, _ in weighed)
        mean = sum(p * c for p, c in weighed) / whole if whole else 1.0
        chances = tuple(max(mean if c is None else c, _LEAST) for c in known)
        outside = 0.5 * mean + 0.5 * self._flat(kind)
        return Row(chances, tuple(log(c) for c in chances), max(mean, _LEAST), outside)

    def _flat(self, kind: str) -> float:
        return 1 / (self.stamps.errors.characters[kind].others + 1)

    def chance(self, variant: Variant, kind: str, value: str) -> float | None:
        """P(the value is said | the stamp); None when the reference does not say."""
        errors = self.stamps.errors
        if "|" in value and kind in _FIGURES:
            each = [self.chance(variant, kind, part) for part in value.split("|")]
            return None if None in each else sum(filter(None, each))
        if kind == "colour":
            return self._colour(variant, value)
        if kind == "gauge":
            return figures.gauge_likelihood(variant, value, errors)
        if kind == "plate":
            return figures.plate_likelihood(variant, value, self.stamps)
        if kind == "letters":
            return figures.letters_likelihood(variant, value, errors)
        if kind == "date":
            return figures.date_likelihood(variant, value, errors)
        if kind == "cancel":
            return figures.cancel_likelihood(variant, value, errors)
        if kind == "subject":
            character = errors.characters[kind]
            if self.of_set(variant, value):
                return 1 - character.misread
            return character.misread / character.others
        values = self.values(kind, value)
        if kind == "overprint" and not self.overprints.intersection(values):
            return None  # SPECIMEN and the like were struck on any issue
        return likelihood.state_likelihood(kind, variant, values, errors)

    def of_set(self, variant: Variant, subject: str) -> bool:
        """Whether a stamp is of a commemorative set: the PUC £1 came out on the day of its set."""
        each = self.stamps.sets.get(variant.issue.id)
        if each is not None:
            return each.speaks_of(subject)
        value = variant.stamp.value
        return any(
            each.date == variant.stamp.issued
            for each in self.stamps.commemoratives_of(subject=subject, value=value)
        )

    def _colour(self, variant: Variant, value: str) -> float | None:
        listed = variant.stamp.colours
        if not listed or not self.palette.main(value):
            return None
        return max(self.palette.fit(seen, each) for seen in value.split("|") for each in listed)

    def possible(self, kind: str, variant: Variant) -> tuple[str, ...]:
        """The values a look at the stamp may find, as an observation writes them."""
        told = variant.characters
        if kind == "colour":
            return tuple(
                main for each in variant.stamp.colours[:1] if (main := self.palette.main(each))
            )
        if kind == "gauge":
            return tuple(_short_gauge(each) for each in told.gauges)
        if kind == "plate":
            numbers = self.stamps.plate_numbers[variant.issue.id]
            return tuple(sorted(numbers)) if told.number_on_stamp else ()
        return likelihood.states(kind, variant)

    def values(self, kind: str, value: str) -> tuple[str, ...]:
        """The values meant by an observation: alternatives, and ids behind a looser name."""
        if kind == "overprint":
            return ("".join(letter for letter in value if letter.isalnum() or letter == " "),)
        if kind == "phosphor":
            return tuple(dict.fromkeys(_BANDS.get(each, each) for each in value.split("|")))
        if kind != "watermark":
            return tuple(dict.fromkeys(value.split("|")))
        marks = self.stamps.watermarks
        meant: list[str] = []
        for name in value.split("|"):
            mark = marks.get(name)
            meant += mark.stands_for if mark and mark.stands_for else (name,)
        return tuple(dict.fromkeys(meant))


def _grounds(kind: str, variant: Variant) -> object:
    """All that the chance of a kind rests on: stamps alike in it need weighing only once."""
    told = variant.characters
    if kind == "colour":
        return variant.stamp.colours
    if kind == "letters":
        return told.corners == (), told.letters, told.rows, told.columns
    if kind in ("date", "cancel"):
        return variant.first, variant.last, variant.soft
    if kind == "gauge":
        return told.gauges, told.separations
    if kind in likelihood.STATES:
        return likelihood.states(kind, variant), told.processes
    return variant.issue.id


def _short_gauge(gauge: str) -> str:
    """One figure where both sides agree: "14x14" is 14."""
    across, _, down = gauge.partition("x")
    return across if across == down else gauge


@lru_cache(maxsize=4)
def model_of(stamps: Stamps, *, sets: bool = False) -> Model:
    """The model of a reference, made once."""
    return Model(stamps, sets)


def weighable(observations: Iterable[Observation], model: Model) -> tuple[Observation, ...]:
    """The observations that tell one issue from another, the first of each kind.

    Further letterings of a multiple say no more about the issue. Two colours are one observation
    ("green and carmine"), and so is a red Maltese cross. Two names of a series both count: a
    Seahorse may be re-engraved too; so do graphite lines beside phosphor bands.
    """
    kinds = model.stamps.errors.characters
    kept: dict[str, Observation] = {}
    observations = tuple(each for each in observations if each.said == "is")
    for each in observations:
        if each.kind == "colour" and "colour" in kept:
            kept["colour"] = _both_colours(kept["colour"], each)
        elif each.kind in kinds:
            name = f"{each.kind} {each.value}" if each.kind in _SEVERAL else each.kind
            kept.setdefault(name, each)
    red = any(each.kind == "cancel_colour" and each.value == "red" for each in observations)
    return tuple(_red_cross(each) if red else each for each in kept.values())


def without_stamp(observations: Iterable[Observation], model: Model) -> bool:
    """Whether the line is of a letter without a stamp: it says so, or says nothing of a stamp and is
    dated before there were any (1 May 1840)."""
    said = tuple(each for each in observations if each.said == "is")
    if any(each.kind == "stampless" for each in said):
        return True
    dates = [each.value for each in said if each.kind == "date"]
    of_stamp = model.stamps.errors.characters.keys() - {"date", "cancel"}
    return (
        bool(dates)
        and max(dates) < "1840-05"[: len(max(dates))]
        and not any(each.kind in of_stamp for each in said)
    )


def _both_colours(first: Observation, second: Observation) -> Observation:
    values = [*first.value.split("|")[0].split(" and "), second.value.split("|")[0]]
    words = first.words if second.words in first.words else f"{first.words} and {second.words}"
    return Observation("colour", " and ".join(dict.fromkeys(values)), words, first.start, second.end)


def _red_cross(seen: Observation) -> Observation:
    if seen.kind != "cancel" or seen.value != "maltese_cross":
        return seen
    return Observation("cancel", "maltese_cross_red", f"red {seen.words}", seen.start, seen.end)
