"""Checks by looking: the tie, the back, the letters of a multiple, faults, and how complete it is."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from counter.judge.cover.case import Case
from counter.judge.cover.result import (
    CheckResult,
    not_asked,
    speaks_against,
    speaks_for,
    tells_nothing,
    undecided,
)
from counter.judge.letters.adjoining import adjoins
from counter.values.dates import When
from counter.values.letters import counts

_CROSS_YEARS = ("1840", "1844")
_COVERS = ("cover", "front", "piece", "entire", "stationery")
#: Days after which a letter was seldom still unposted.
_POSTED_WITHIN = 31
_HIDDEN = (
    "thin",
    "tear",
    "closed_tear",
    "pinhole",
    "cut_into",
    "repaired",
    "rebacked",
    "margins_added",
)


def tie(case: Case) -> CheckResult:
    """Does the cancel run from the stamp onto the cover?"""
    check, seen = case.check("tie"), case.seen
    if seen.tied == "tied":
        return speaks_for(check, "strong", "Tied: the cancel runs from the stamp onto the cover.")
    if seen.tied != "not_tied":
        return undecided(check)
    note = case.postal.notes["untied_normal_1840s"]
    cross = seen.cancel in ("", "maltese_cross")
    years = seen.when is None or (
        str(seen.when.latest.year) >= _CROSS_YEARS[0]
        and str(seen.when.earliest.year) <= _CROSS_YEARS[1]
    )
    if cross and years:
        return tells_nothing(check, f"Not tied. {note.text}", source=note.source)
    return speaks_against(check, "weak", "Not tied: nothing joins stamp and cover. A weak point alone.")


def hidden_fault(case: Case) -> CheckResult:
    """Could a fault of the stamp be hidden against the cover?"""
    check, seen = case.check("hidden_fault"), case.seen
    found = [fault for fault in seen.faults if fault in _HIDDEN]
    if not found or seen.attachment not in _COVERS:
        return undecided(check)
    names = ", ".join(found).replace("_", " ")
    text = f"The stamp has a fault ({names}) that the cover hides: a usual way to sell one."
    return speaks_against(check, "moderate", text)


def sulphided_colour(case: Case) -> CheckResult:
    """Is the colour the work of sulphur rather than of printing?"""
    check = case.check("sulphided_colour")
    if "sulphided" in case.seen.faults:
        change = case.postal.ink_changes["sulphiding_red_lead"]
        more = {"source": change.source, "confidence": change.confidence}
        text = f"Sulphided: {change.what}; the colour is no evidence of the issue."
        return speaks_against(check, "moderate", text, **more)
    return undecided(check)


def transit_time(case: Case) -> CheckResult:
    """Are the arrival marks possible, and in the right order?"""
    check, when = case.check("transit_time"), case.seen.when
    if when is None or not case.seen.arrivals:
        return undecided(check)
    early = [arrival for arrival in case.seen.arrivals if arrival.compared(when) == "before"]
    if early:
        text = f"A mark of {early[0].words()} on the back, before the despatch of {when.words()}."
        return speaks_against(check, "strong", text)
    first = min(case.seen.arrivals, key=lambda arrival: arrival.latest)
    fast = _too_fast(case, when, first)
    if fast:
        rule = case.postal.transit["transit-rule"]
        more = {"source": rule.source, "confidence": rule.confidence}
        return speaks_against(check, "strong", fast, **more)
    return speaks_for(check, "weak", f"Arrived {first.words()}, after the despatch of {when.words()}.")


def _too_fast(case: Case, when: When, arrival: When) -> str:
    """Why it cannot have come so far so soon; only days are known, so the longest time is allowed."""
    miles = case.seen.miles
    if miles is None or not (when.exact and arrival.exact):
        return ""
    hours = Fraction(((arrival.latest - when.earliest).days + 1) * 24)
    limit = _fastest(case, when.earliest.year)
    needed = miles / hours
    if needed <= Fraction(limit):
        return ""
    return (
        f"{miles} miles by {arrival.words()} is over {limit} miles an hour, faster than any mail then."
    )


def _fastest(case: Case, year: int) -> Decimal:
    rule = case.postal.transit["transit-rule"]
    if year < 1838:  # the first railway mails
        limit = rule.max_mph_coach
    else:
        limit = rule.max_mph_rail_1840s if year < 1850 else rule.max_mph_rail_1860s
    return limit or Decimal(0)


def route_and_backstamps(case: Case) -> CheckResult:
    """Do the marks on the back fit the route?"""
    check, seen = case.check("route_and_backstamps"), case.seen
    if seen.backstamp == "none":
        note = case.postal.notes["absence_is_not_proof"]
        return tells_nothing(check, f"No backstamp. {note.text}", source=note.source)
    if seen.arrivals and seen.when:
        late = all(arrival.compared(seen.when) != "before" for arrival in seen.arrivals)
        if late:
            return undecided(check, "Dated marks on the back, in order; is the road right too?")
    return undecided(check)


def corner_letters_multiple(case: Case) -> CheckResult:
    """Do the letters and plate of a multiple belong together?"""
    check, seen = case.check("corner_letters_multiple"), case.seen
    if seen.multiple == "single" and len(seen.letters) < 2:
        return not_asked(check, "It is a single stamp.")
    if len(set(seen.plates)) > 1:
        return speaks_against(
            check, "strong", f"Two plates ({', '.join(seen.plates)}) cannot be joined."
        )
    if len(seen.letters) < 2:
        return undecided(check)
    said = "-".join(seen.letters)
    if neighbours_check(seen.letters, seen.multiple):
        return speaks_for(check, "strong", f"{said}: neighbouring places on the sheet.")
    return speaks_against(check, "strong", f"{said}: these places are not neighbours on a sheet.")


def neighbours_check(letters: tuple[str, ...], multiple: str) -> bool:
    """Whether the letters adjoin on a sheet, and a pair or strip of them lies in one line."""
    places = [counts(each) for each in letters]
    in_line = len({row for row, _ in places}) == 1 or len({column for _, column in places}) == 1
    return adjoins(places) and (in_line or not multiple.startswith(("pair", "strip")))


def certificate(case: Case) -> CheckResult:
    """Is there a certificate, and what does it say?"""
    check = case.check("certificate")
    if case.seen.certificate:
        return undecided(
            check, "There is a certificate: is its photograph of this item, and what does it say?"
        )
    return undecided(check)


def water_or_peroxide_ok(case: Case) -> CheckResult:
    """May it be soaked or treated? Never on a cover; bears on treatment, not on belonging."""
    check = case.check("water_or_peroxide_ok")
    if case.seen.attachment in _COVERS:
        text = (
            "A cover must not be wetted, and peroxide never goes on one: see what the treatments say."
        )
        return undecided(check, text, source="aic1997", confidence="high")
    return not_asked(check, "For a loose stamp the treatments decide.")


def letter_content(case: Case) -> CheckResult:
    """Was the letter written when the strike says that it went?"""
    check, seen = case.check("letter_content"), case.seen
    if seen.written is None or seen.when is None or case.has("reused_letter"):
        return undecided(check)
    written, struck = seen.written, seen.when
    said = f"The letter is dated {written.words()}, the strike {struck.words()}"
    if written.compared(struck) == "after":
        return speaks_against(check, "moderate", f"{said}: it was struck before it was written.")
    if (struck.earliest - written.latest).days > _POSTED_WITHIN:
        text = f"{said}: so long between them that the strike, and its stamp, may be another letter's."
        return speaks_against(check, "moderate", text)
    return tells_nothing(check, f"{said}: they agree.")


def reused_letter(case: Case) -> CheckResult:
    """A turned or re-used letter?"""
    check = case.check("reused_letter")
    if case.has("reused_letter"):
        text = "A letter that went twice: to which journey does the stamp belong?"
        return speaks_against(check, "weak", text)
    return undecided(check)


def front_only(case: Case) -> CheckResult:
    """Is the cover complete?"""
    check, attached = case.check("front_only"), case.seen.attachment
    if attached in ("front", "piece"):
        return speaks_against(check, "weak", f"Only a {attached}: the marks of the back are lost.")
    if attached == "entire":
        return speaks_for(check, "weak", "A complete entire.")
    return undecided(check)


def as_answered(case: Case, name: str) -> CheckResult | None:
    """The check as a person who looked has answered it; None when it was not answered."""
    value = case.seen.answers.get(name, "")
    if not value:
        return None
    check = case.check(name)
    answer = next((each for each in check.answers if each.value == value), None)
    if answer is None:
        return None
    text = f"{answer.text[:1].upper()}{answer.text[1:]}."
    if answer.speaks == "for":
        return speaks_for(check, answer.strength, text)
    return speaks_against(check, answer.strength, text)
