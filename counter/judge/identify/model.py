"""The tables of the examination: how likely each piece of evidence is on each stamp, kept once made."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from math import log

from counter.judge.identify import figures, in_use, likelihood
from counter.judge.identify.colours import Palette
from counter.judge.identify.evidence import Clue
from counter.judge.identify.how_many import priors
from counter.judge.identify.variants import Variant, all_variants
from counter.judge.judgement import Reason
from counter.judge.observation import Said
from counter.reference.stamps import Stamps

#: Bands by their place are weighed as bands: issues have them by value and by printing.
_BANDS = {"two_bands": "bands", "centre_band": "bands", "side_band": "bands"}
_LEAST = 1e-12  # nothing said of a stamp is impossible
_MOST_ROWS = 1000  # some 30 KB each: a day of typing dates and letters must not grow without end


@dataclass(frozen=True, slots=True)
class Row:
    """One piece of evidence weighed: its chance on each variant, its logs, its mean over all issues,
    and its chance on a stamp that is none of them. `reasons` keeps what was made of it, by place."""

    chances: tuple[float, ...]
    logs: tuple[float, ...]
    mean: float
    outside: float
    reasons: dict[int, Reason] = field(default_factory=dict, compare=False, repr=False)


@dataclass
class Model:
    """The stamps with everything worked out about them so far, with or without the commemorative
    `sets`. One of each is made for a reference."""

    stamps: Stamps
    sets: bool = False
    variants: tuple[Variant, ...] = field(init=False)
    spans: dict[str, tuple[int, int]] = field(init=False)
    slices: tuple[slice, ...] = field(init=False)
    prior: tuple[float, ...] = field(init=False)
    prior_logs: tuple[float, ...] = field(init=False)
    palette: Palette = field(init=False)
    overprints: set[str] = field(init=False)
    rows: dict[tuple[str, str, Said, str], Row] = field(default_factory=dict)
    open_looks: dict[int, tuple[tuple[str, str], ...]] = field(default_factory=dict)
    silences: dict[frozenset[str], tuple[float, ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.variants = all_variants(self.stamps, sets=self.sets)
        self.palette = Palette(self.stamps.errors)
        self.spans = {}
        for place, variant in enumerate(self.variants):
            start, _ = self.spans.get(variant.issue.id, (place, place))
            self.spans[variant.issue.id] = (start, place + 1)
        self.slices = tuple(slice(*span) for span in self.spans.values())
        self.prior = priors(self.variants, self.stamps.errors)
        self.prior_logs = tuple(log(each) for each in self.prior)
        states = (likelihood.states("overprint", variant) for variant in self.variants)
        self.overprints = {words for each in states for words in each}

    def row_of(self, seen: Clue) -> Row:
        """The weighed evidence; made once for a kind, value and what is said of it."""
        return self.row(seen.kind, seen.value, seen.said, seen.given)

    def row(self, kind: str, value: str, said: Said = "is", given: str = "") -> Row:
        """The same, by its parts."""
        key = (kind, value, said, given)
        if key not in self.rows:
            if len(self.rows) > _MOST_ROWS:
                self.rows.clear()
            self.rows[key] = self._weigh(kind, value, said, given)
        return self.rows[key]

    def silent(self, spoken: frozenset[str]) -> tuple[float, ...]:
        """The priors in logs, with what it says of each variant that its most striking characters were
        not spoken of: an overprint is seen and said first, a plate number on the stamp mostly given."""
        if spoken not in self.silences:
            rows = [row for row in self.stamps.errors.unsaid if row.kind not in spoken]
            self.silences[spoken] = tuple(
                before + sum(log(row.weight) for row in rows if likelihood.striking(row, variant))
                for before, variant in zip(self.prior_logs, self.variants, strict=True)
            )
        return self.silences[spoken]

    def _weigh(self, kind: str, value: str, said: Said, given: str) -> Row:
        made: dict[object, float | None] = {}
        known = []
        for variant in self.variants:
            grounds = _grounds(kind, variant)
            if grounds not in made:
                made[grounds] = self.chance(variant, kind, value, given)
            known.append(made[grounds])
        weighed = [(p, c) for p, c in zip(self.prior, known, strict=True) if c is not None]
        whole = sum(p for p, _ in weighed)
        mean = sum(p * c for p, c in weighed) / whole if whole else 1.0
        chances = [max(mean if c is None else c, _LEAST) for c in known]
        outside = 0.5 * mean + 0.5 * self._flat(kind)
        if said == "is not":
            wrong = self.stamps.errors.characters[kind].misread
            chances = [max(1 - each, wrong) for each in chances]
            mean, outside = max(1 - mean, wrong), max(1 - outside, wrong)
        elif said == "perhaps":
            chances = [0.5 * each + 0.5 * mean for each in chances]
            outside = 0.5 * outside + 0.5 * mean
        return Row(tuple(chances), tuple(log(c) for c in chances), max(mean, _LEAST), outside)

    def _flat(self, kind: str) -> float:
        return 1 / (self.stamps.errors.characters[kind].others + 1)

    def chance(self, variant: Variant, kind: str, value: str, given: str = "") -> float | None:
        """P(the value is said | the stamp); None when the reference does not say.

        Alternatives ("6|7") add up: it may be said of the stamp for the one or for the other.
        """
        errors = self.stamps.errors
        if kind in likelihood.STATES:
            values = self.values(kind, value)
            if kind == "overprint" and not self.overprints.intersection(values):
                return None  # SPECIMEN and the like were struck on any issue
            return likelihood.state_likelihood(kind, variant, values, errors)
        alternatives = (value,) if kind == "subject" else value.split("|")
        each = [self._one_chance(variant, kind, one, given) for one in alternatives]
        known = [one for one in each if one is not None]
        return min(sum(known), 1.0) if known else None

    def _one_chance(self, variant: Variant, kind: str, value: str, given: str) -> float | None:
        errors = self.stamps.errors
        if kind == "colour":
            return self._colour(variant, value)
        if kind == "gauge":
            return figures.gauge_likelihood(variant, value, given, errors)
        if kind == "plate":
            return figures.plate_likelihood(variant, value, self.stamps)
        if kind == "letters":
            return figures.letters_likelihood(variant, value, errors)
        if kind == "date":
            return in_use.date_likelihood(variant, value, errors)
        if kind == "cancel":
            return in_use.cancel_likelihood(variant, value, given, errors)
        if kind in likelihood.TELLS:
            return likelihood.tell_likelihood(kind, variant, value, self.stamps)
        character = errors.characters[kind]
        if self.of_set(variant, value):
            return 1 - character.misread
        return character.misread / character.others

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
        return max(self.palette.fit(value, each) for each in listed)

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
        return variant.first, variant.last, variant.soft, told.standing == "not_issued"
    if kind == "gauge":
        return told.gauges, told.separations
    if kind in likelihood.STATES:
        return likelihood.states(kind, variant), told.processes
    return variant.issue.id, variant.stamp.value


def _short_gauge(gauge: str) -> str:
    """One figure where both sides agree: "14x14" is 14."""
    across, _, down = gauge.partition("x")
    return across if across == down else gauge


@lru_cache(maxsize=4)
def model_of(stamps: Stamps, *, sets: bool = False) -> Model:
    """The model of a reference, made once."""
    return Model(stamps, sets)
