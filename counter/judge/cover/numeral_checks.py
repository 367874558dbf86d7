"""Checks by the number in a cancel: the office that had it, its days, and numbers of offices abroad."""

from __future__ import annotations

from collections.abc import Iterable

from counter.judge.cover.cancels import CancelSeen
from counter.judge.cover.case import Case
from counter.judge.cover.result import (
    CheckResult,
    gravest,
    not_asked,
    speaks_against,
    speaks_for,
    tells_nothing,
    undecided,
)
from counter.judge.judgement import Strength
from counter.reference.postal_numerals import Numeral, is_code_abroad, plain_name

_NUMBERED = ("numeral", "duplex", "squared_circle", "")
_OF_REGION = {"england_wales": "england_wales", "scotland": "scotland", "ireland": "ireland"}


def numeral_town(case: Case) -> CheckResult:
    """Does the number belong to the town the letter was posted at?"""
    check = case.check("numeral_town")
    numbered = [each for each in case.cancels if each.number and each.family in _NUMBERED]
    numbered = [each for each in numbered if not _abroad(case, each)]
    if not numbered:
        return not_asked(check, "No number of a home office is noted.")
    if case.seen.region == "london":
        return tells_nothing(
            check, "London's numbers stood for clerks and district offices, not towns."
        )
    return gravest([_at_home(case, each) for each in numbered])


def _at_home(case: Case, cancel: CancelSeen) -> CheckResult:
    check, numerals = case.check("numeral_town"), case.postal.numerals
    series = numerals.series_of(cancel.type) or _OF_REGION.get(cancel.region, "")
    offices = [each for each in numerals.offices(cancel.number, series) if each.series != "abroad"]
    sourced = [each for each in offices if each.sourced]
    if not cancel.town:
        known = f"{cancel.number} is {_names(sourced)}; " if sourced else ""
        return undecided(check, f"{known}no town is noted to hold the number against.")
    here = [each for each in offices if _is_at(each, cancel.town)]
    if here:
        return _its_own(case, cancel, here[0])
    if sourced:
        return _of_another(case, cancel, series, sourced)
    return _by_alphabet(case, cancel, series, offices)


def _its_own(case: Case, cancel: CancelSeen, office: Numeral) -> CheckResult:
    check, when = case.check("numeral_town"), case.seen.when
    more = _from(office)
    use = office.use(when) if when else ""
    if use in ("before", "after") and office.sourced and when:
        text = f"{cancel.number} is {office.office}, but {_days(office)}; {when.words()} is {use} that."
        return speaks_against(check, "moderate", text, **more)
    if not office.sourced:
        text = f"{cancel.number} is recalled as {office.office}, as here; no source was read for it."
        return tells_nothing(check, text, **more)
    return speaks_for(check, "moderate", f"{cancel.number} is the number of {office.office}.", **more)


def _of_another(case: Case, cancel: CancelSeen, series: str, offices: list[Numeral]) -> CheckResult:
    """A sourced number of another office: strong where the town named had a number of its own."""
    check, own = case.check("numeral_town"), case.postal.numerals.of_place(cancel.town, series)
    own = tuple(each for each in own if each.series != "abroad")
    sure = [each for each in own if each.sourced]
    sourced = f"{cancel.number} is the number of {_names(offices)}"
    if sure:
        text = f"{sourced}; {cancel.town} had {sure[0].number}."
        return speaks_against(check, "strong", text, **_from(offices[0]))
    text = (
        f"{sourced}, not of {cancel.town}. Was the letter handed in at a place under "
        f"{offices[0].names[0]}?"
    )
    return speaks_against(check, "moderate", text, **_from(offices[0]))


def _by_alphabet(case: Case, cancel: CancelSeen, series: str, recalled: list[Numeral]) -> CheckResult:
    """A number without a sourced record: only the alphabetical allotment may say anything."""
    check, when = case.check("numeral_town"), case.seen.when
    told = f"; it is recalled as {_names(recalled)}" if recalled else ""
    found = case.postal.numerals.between(cancel.number, series, when) if series and when else None
    if found is None:
        return undecided(check, f"Which office had {cancel.number} is not established{told}.")
    text = f"{found.words()} in the alphabetical list of 1844"
    if found.fits(cancel.town) == "no":
        more = {"source": found.order.source, "confidence": "low"}
        return speaks_against(
            check,
            found.strength,
            f"{text}: a place named like {cancel.town} should not stand there (an inference).",
            **more,
        )
    return undecided(check, f"Which office had {cancel.number} is not established; {text}{told}.")


def used_abroad_on_inland(case: Case) -> CheckResult:
    """A cancel of an office abroad: does it fit the route, its office and its days?"""
    check = case.check("used_abroad_on_inland")
    coded = [each for each in case.cancels if _abroad(case, each)]
    if not coded:
        return not_asked(check, "The cancel is not one of an office abroad.")
    return gravest([_from_abroad(case, each) for each in coded])


def _from_abroad(case: Case, cancel: CancelSeen) -> CheckResult:
    check, seen = case.check("used_abroad_on_inland"), case.seen
    offices = case.postal.numerals.offices(cancel.number, "abroad")
    sourced = [each for each in offices if each.sourced]
    office = sourced[0] if sourced else None
    if seen.region not in ("", "abroad"):
        text = f"{_coded(cancel, offices)} on a letter posted at {cancel.town or 'home'}."
        return speaks_against(check, "strong", text, **(_from(office) if office else {}))
    if office is None:
        return undecided(check, f"{_coded(cancel, offices)}; its office is not established.")
    if cancel.town and not _same_country(case, office, cancel.town):
        text = f"{cancel.number} is {office.office}, not {cancel.town}."
        return speaks_against(check, "moderate", text, **_from(office))
    use = office.use(seen.when) if seen.when else ""
    if use in ("before", "after") and seen.when:
        text = f"{cancel.number} is {office.office}; British stamps {_days(office)}, and "
        sure = office.confidence == "high" and _by_a_year(office, case)
        strength: Strength = "strong" if sure else "moderate"
        return speaks_against(
            check, strength, f"{text}{seen.when.words()} is {use} that.", **_from(office)
        )
    if not office.british_stamps:
        text = f"{cancel.number} is {office.office}: known on a colony's own stamps only."
        return speaks_against(check, "moderate", text, **_from(office))
    text = f"{cancel.number} is {office.office}{', in its days' if use else ''}: used abroad."
    return speaks_for(check, "moderate", text, **_from(office))


def abroad_offices(case: Case) -> tuple[Numeral, ...]:
    """The offices abroad that the cancels name, sourced ones first."""
    codes = [each.number for each in case.cancels if _abroad(case, each)]
    return tuple(one for code in codes for one in case.postal.numerals.offices(code, "abroad"))


def _abroad(case: Case, cancel: CancelSeen) -> bool:
    """Whether it is a code of an office abroad: by its letter, or by a town abroad that had it."""
    if cancel.family == "maltese_cross" or not cancel.number:
        return False
    if cancel.type == "num_used_abroad":
        return True
    if is_code_abroad(cancel.number):
        return case.seen.region != "london"
    return case.seen.region == "abroad"


def _by_a_year(office: Numeral, case: Case) -> bool:
    last, when = office.last[:4], case.seen.when
    return bool(last and when) and when is not None and when.earliest.year > int(last)


def _same_country(case: Case, office: Numeral, town: str) -> bool:
    """Whether a place named may be that office, its island or its country; unlisted: it may."""
    if _is_at(office, town):
        return True
    elsewhere = case.postal.numerals.of_place(town)
    return not elsewhere


def _coded(cancel: CancelSeen, offices: Iterable[Numeral]) -> str:
    known = _names(each for each in offices if each.sourced)
    return f"{cancel.number} is a number of an office abroad{f' ({known})' if known else ''}"


def _is_at(office: Numeral, town: str) -> bool:
    return plain_name(town) in map(plain_name, office.names)


def _names(offices: Iterable[Numeral]) -> str:
    return " or ".join(dict.fromkeys(each.office for each in offices))


def _days(office: Numeral) -> str:
    ends = [each for each in (office.first, office.last) if each]
    return (
        f"from {ends[0]} to {ends[1]}"
        if len(ends) == 2
        else (f"from {office.first}" if office.first else f"to {office.last}")
    )


def _from(office: Numeral) -> dict[str, str]:
    return {"source": office.source, "confidence": office.confidence}
