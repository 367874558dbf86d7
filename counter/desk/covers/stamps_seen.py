"""The issues that the stamps of a line may be, stamp by stamp, each with its dates."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from counter.judge.cover.cover_facts import Franked
from counter.judge.cover.franked_stamps import NamedStamp, named_stamps
from counter.judge.cover.from_reading import postage_or_none
from counter.judge.cover.stamp_dates import stamp_dates
from counter.judge.identify import Candidate, identify
from counter.judge.observation import Observation, Reading
from counter.reference.library import Library
from counter.reference.stamps import Stamps

_LIKELY = 0.2  # an issue is likely from this part of the likeliest one's share
_REST = 0.02  # more than this among issues not listed: the date may bring in another


def franked_of(library: Library, reading: Reading) -> tuple[tuple[Franked, ...], Franked | None]:
    """The stamps of the franking in the line's order, and the postage due labels."""
    if reading.first("stampless") and not reading.first("denomination"):
        return (), None
    date = tuple(_bare(seen) for seen in reading.all("date"))[:1]
    named = named_stamps(reading)
    if reading.first("attachment") == "stationery":
        named = tuple(_impressed(each) for each in named)
    made = [_franked(library.stamps, each, date) for each in named]
    dues = [each for each, name in zip(made, named, strict=True) if name.due]
    stamps = [each for each, name in zip(made, named, strict=True) if not name.due]
    return tuple(stamps), dues[0] if dues else None


def _franked(stamps: Stamps, named: NamedStamp, date: tuple[Observation, ...]) -> Franked:
    value = named.value()
    if named.impressed:
        return Franked((), postage_or_none(value), named.count)
    told = tuple(_bare(seen) for seen in named.told)
    if named.due and not any(seen.kind == "colour" for seen in told):
        # the sum that the labels show: it may be that of several
        told = tuple(seen for seen in told if seen.kind != "denomination")
    colours = frozenset(seen.value for seen in told if seen.kind == "colour")
    plate = next((seen.value for seen in told if seen.kind == "plate"), "")
    dates = tuple(
        stamp_dates(stamps, issue, plate, value=value, colours=colours, likely=likely)
        for issue, likely in issues_told(stamps, told, date)
    )
    return Franked(dates, postage_or_none(value), named.count)


def _impressed(named: NamedStamp) -> NamedStamp:
    """An impressed stamp is none of the issues: of it only the value is kept, unless an adhesive's
    characters are told."""
    if any(seen.kind not in ("denomination", "colour", "process") for seen in named.told):
        return named
    return replace(
        named, told=tuple(seen for seen in named.told if seen.kind == "denomination"), impressed=True
    )


@lru_cache(maxsize=512)
def issues_told(
    stamps: Stamps, told: tuple[Observation, ...], date: tuple[Observation, ...]
) -> tuple[tuple[str, bool], ...]:
    """The issues that nothing seen of the stamp itself speaks against, likeliest first, and whether
    each is likely."""
    if not told:
        return ()
    by_itself = identify(_reading(told), stamps)
    fitting = {each.issue_id: each.share for each in by_itself.candidates if not each.against}
    if not fitting:  # all but the plate fits: it is for the plate's own check to say that it cannot be
        fitting = {each.issue_id: each.share for each in by_itself.candidates if _but_plate(each)}
    if by_itself.others > _REST:
        # Of many issues of a value only some are listed: those in use on the day must be among them.
        in_use = identify(_reading((*told, *date)), stamps).candidates
        fitting |= {
            each.issue_id: 0.0 for each in in_use if not each.against and each.issue_id not in fitting
        }
    # a reprint or a forgery has no dates of its own: the traps say it, the dates are the issues'
    fitting = {issue: share for issue, share in fitting.items() if issue in stamps.issues}
    fitting = _numbered(stamps, told, _usual(stamps, told, fitting))
    least = max(fitting.values(), default=0.0) * _LIKELY
    return tuple((issue, share >= least) for issue, share in fitting.items())


def _but_plate(candidate: Candidate) -> bool:
    return all(reason.rests_on == "plate" for reason in candidate.against)


def _usual(
    stamps: Stamps, told: tuple[Observation, ...], fitting: dict[str, float]
) -> dict[str, float]:
    """An overprint, a postage due label, a stamp never issued: only where the line names it."""
    if any(seen.kind in ("overprint", "series") for seen in told):
        return fitting
    traits = {issue: stamps.issues[issue].characters for issue in fitting}
    usual = {
        issue: share
        for issue, share in fitting.items()
        if traits[issue].standing != "not_issued"
        and not traits[issue].overprints
        and "postage_due" not in traits[issue].series
    }
    return usual or dict(list(fitting.items())[:1])


def _numbered(
    stamps: Stamps, told: tuple[Observation, ...], fitting: dict[str, float]
) -> dict[str, float]:
    """A plate is read on the stamp where an issue that fits prints its number there."""
    if not any(seen.kind == "plate" for seen in told):
        return fitting
    printed = {
        issue: share
        for issue, share in fitting.items()
        if stamps.issues[issue].characters.number_on_stamp
    }
    return printed or fitting


def _reading(observations: tuple[Observation, ...]) -> Reading:
    return Reading("", observations)


def _bare(seen: Observation) -> Observation:
    """Without its place in the line, so that the same stamp is weighed once."""
    return replace(seen, words="", start=0, end=0)
