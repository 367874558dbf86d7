"""Which issue it is: candidates with shares, what speaks for and against, what was not looked at."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counter.judge.identify.case import case_of
from counter.judge.identify.details import too_early
from counter.judge.identify.evidence import Clue, without_stamp
from counter.judge.identify.explain import explanations_of, told_from
from counter.judge.identify.kinds import beside_a_stamp, kind_reasons, other_kinds, takes_over
from counter.judge.identify.model import Model
from counter.judge.identify.reasons import not_looked_at, reasons_of
from counter.judge.identify.remarks import remarks_on
from counter.judge.identify.shares import Shares, weigh
from counter.judge.identify.standing_remarks import standing_remarks
from counter.judge.identify.variants import Variant
from counter.judge.identify.variety_remarks import variety_remarks
from counter.judge.identify.words import value_words
from counter.judge.judgement import Reason
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_kinds import OtherKind, Stationery

#: Below this share a candidate is not told by itself.
FAINT = 0.01
_SHOWN = 12
_LEAST_SHARE = 0.0005


@dataclass(frozen=True, slots=True)
class Candidate:
    """An issue it could be. `share` is 0 to 1. `denomination` and `colour` are the likeliest
    stamp of an issue of several. `explanations` are the trade's reasons for what speaks against,
    each with the test that settles it; `told_from` tells it from the next candidates."""

    issue_id: str
    name: str
    share: float
    denomination: str
    colour: str
    speaks_for: tuple[Reason, ...]
    against: tuple[Reason, ...]
    not_looked_at: tuple[str, ...]
    explanations: tuple[Reason, ...]
    told_from: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Identification:
    """The answer: `candidates` by falling share.

    `together` are the ids of the candidates that what was seen does not tell apart (one id:
    decided; none: nothing seen). `others` is the share of all issues not listed; the candidates'
    shares, `others` and `none_of_these` sum to 1. `remarks` name impossible combinations.
    `shares` holds every issue.
    """

    candidates: tuple[Candidate, ...]
    together: tuple[str, ...]
    none_of_these: float
    others: float
    remarks: tuple[Reason, ...]
    shares: dict[str, float]

    def told(self, most: int = _SHOWN) -> tuple[Candidate, ...]:
        """The candidates told by themselves: the first, and others of one per cent or more."""
        found = self.candidates[:most]
        return tuple(each for place, each in enumerate(found) if place == 0 or each.share >= FAINT)

    def gathered(self, told: Iterable[Candidate]) -> float:
        """The share of every issue that is not told by itself, 0 to 1."""
        return max(1.0 - sum(each.share for each in told) - self.none_of_these, 0.0)


def identify(reading: Reading, stamps: Stamps) -> Identification:
    """Weigh everything seen against every issue.

    When nothing was seen that tells issues apart there are no candidates, only `shares`.
    """
    model, seen = case_of(reading, stamps)
    shares = weigh(seen, model)
    if without_stamp(reading.observations, model.stamps.errors):
        return _no_stamp(shares)
    kinds = other_kinds(reading, stamps)
    if takes_over(reading, kinds):
        return _other_kind(kinds, shares)
    # issues run by date: of equals the older stands first
    listed = _listed(shares.issues) if seen else []
    candidates = tuple(_candidate(name, seen, shares, model, listed) for name in listed)
    rest = 1.0 - shares.none_of_these - sum(each.share for each in candidates)
    return Identification(
        candidates=candidates,
        together=_together(candidates, shares, model),
        none_of_these=shares.none_of_these,
        others=max(rest, 0.0),
        remarks=(
            *(_remarks(reading, candidates[0], shares.issues, model) if candidates else ()),
            *kind_reasons(beside_a_stamp(kinds, stamps)),
        ),
        shares=shares.issues,
    )


def _listed(issues: dict[str, float]) -> list[str]:
    """The issues worth a candidate, best first; the best of all where none is."""
    live = [name for name, share in issues.items() if share >= _LEAST_SHARE]
    live.sort(key=lambda name: -round(issues[name], 6))
    return live[:_SHOWN] or [max(issues, key=lambda name: issues[name])]


def _no_stamp(shares: Shares) -> Identification:
    """A letter without an adhesive: nothing to identify, and no issue has a share in it."""
    text = "a letter without a stamp: nothing to identify; the cover check reads its charge and marks"
    remark = Reason("no_adhesive", text, "common practice", "high")
    return Identification((), (), 1.0, 0.0, (remark,), dict.fromkeys(shares.issues, 0.0))


def _remarks(
    reading: Reading, first: Candidate, shares: dict[str, float], model: Model
) -> tuple[Reason, ...]:
    """What is to be said of the first candidate whatever the shares say."""
    early = too_early(first.issue_id, first.denomination, first.colour, reading, model.stamps)
    return (
        *remarks_on(reading, first.issue_id, model),
        *standing_remarks(first.issue_id, reading, shares, model),
        *variety_remarks(reading, first.issue_id, model.stamps),
        *((early,) if early else ()),
    )


def _other_kind(kinds: tuple[OtherKind | Stationery, ...], shares: Shares) -> Identification:
    """Stationery, a fiscal, a label: named, and no issue has a share in it."""
    return Identification(
        (), (), 1.0, 0.0, tuple(kind_reasons(kinds)), dict.fromkeys(shares.issues, 0.0)
    )


def _candidate(
    name: str, seen: tuple[Clue, ...], shares: Shares, model: Model, listed: list[str]
) -> Candidate:
    start, end = model.spans[name]
    place = max(range(start, end), key=lambda each: shares.variants[each])
    variant = model.variants[place]
    reasons = reasons_of(seen, place, model)
    against = tuple(each for each in reasons if each.speaks == "against")
    several = len(variant.characters.stamps) > 1
    known = any(each.kind == "denomination" for each in seen)
    country = next((each.value for each in seen if each.kind == "country"), "")
    return Candidate(
        issue_id=name,
        name=_name(variant, model, country) if several and known else variant.issue.name,
        share=shares.issues[name],
        denomination=variant.stamp.value if known or not several else "",
        colour=_colour(variant),
        speaks_for=tuple(each for each in reasons if each.speaks == "for"),
        against=against,
        not_looked_at=not_looked_at(seen, place, model),
        explanations=explanations_of(against, seen, variant, model),
        told_from=told_from(variant.issue, listed, model.stamps),
    )


def _name(variant: Variant, model: Model, country: str) -> str:
    """The name of one stamp of an issue of several: value and colour before the issue's name, and the
    country of a regional stamp."""
    colour = model.palette.main(_colour(variant))
    stamp = f"{variant.stamp.value} {colour}".strip()
    if country in variant.stamp.countries:
        stamp += f", {value_words('country', country, model)}"
    return f"{stamp}, {variant.issue.name}"


def _colour(variant: Variant) -> str:
    return variant.stamp.colours[0] if variant.stamp.colours else ""


#: A candidate that what was seen fits as well is not told apart though it is rarer, from this share on.
_RARER = 0.05


def _together(candidates: tuple[Candidate, ...], shares: Shares, model: Model) -> tuple[str, ...]:
    """The first candidate and those as free of contradiction and not much less likely, or less likely
    only because there were fewer of them.

    A stamp that nothing but a certificate can make good is never put beside another.
    """
    if not candidates:
        return ()
    first, tie = candidates[0], model.stamps.errors.figures["tie"]
    least = max(first.share, shares.none_of_these) * tie
    fits = _fit_of(first.issue_id, shares, model) * tie
    return tuple(
        each.issue_id
        for each in candidates
        if each is first
        or (
            (
                each.share >= least
                or (each.share >= _RARER and _fit_of(each.issue_id, shares, model) >= fits)
            )
            and len(each.against) <= len(first.against)
            and model.stamps.weighed(each.issue_id).characters.standing != "certificate"
        )
    )


def _fit_of(issue: str, shares: Shares, model: Model) -> float:
    """How far what was seen raised the likeliest stamp of an issue above what there were of it."""
    start, end = model.spans[issue]
    return max(shares.variants[place] / model.prior[place] for place in range(start, end))
