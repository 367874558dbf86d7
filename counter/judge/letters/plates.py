"""Which plates there were: used, never put to press, easily misread."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.judgement import Judgement, Reason
from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Issue
from counter.reference.stamps_plate import Plate, numbers_of


def plate_judgement(
    issue: Issue, number: str, stamps: Stamps, *, both_sides: bool = False
) -> Judgement:
    """Whether an issue has a plate of that number and how far the reading may be trusted.

    `both_sides` is true when the number was read on both sides of the stamp.
    """
    used, unused = stamps.plate_numbers[issue.id], stamps.unused_plates[issue.id]
    records = tuple(_own(issue, number, stamps))
    if not used:
        return Judgement("the plates of this issue are not recorded")
    status = next((each.status for each in records if not each.used), "")
    if number in used:
        verdict = f"plate {number} was used for this issue"
    elif number in unused:
        verdict = f"plate {number}: {status or 'not a regular plate of this issue'}"
    else:
        verdict = f"no plate {number} is recorded for this issue"
    first = Reason(
        f"plate_{number}",
        verdict,
        records[0].source if records else issue.source,
        records[0].confidence if records else issue.confidence,
        "for" if number in used else "against",
        "strong" if number in unused else "moderate",
        "plate",
    )
    notes = tuple(
        Reason(f"plate_{number}", each.note, each.source, each.confidence, rests_on="plate")
        for each in records
        if each.note
    )
    fakes = tuple(_faked(issue, number, stamps))
    asks, cautions = _reading(issue, number, both_sides)
    irregular = tuple(
        f"plate {each.plate}: {each.why}" for each in issue.plates_not_regular if each.plate == number
    )
    return Judgement(verdict, (first, *notes, *fakes), asks, (*cautions, *irregular))


def _faked(issue: Issue, number: str, stamps: Stamps) -> Iterator[Reason]:
    """What the reference knows of false plates of that number on stamps of this value."""
    value = issue.characters.stamps[0].value
    for fake in stamps.lookalikes.values():
        values = {stamps.issues[each].characters.stamps[0].value for each in fake.looks_like}
        if fake.plate == number and value in values:
            text = f"{fake.what}: {'; '.join(fake.tell)}"
            yield Reason(fake.id, text, fake.source, fake.confidence, rests_on="plate")


def _own(issue: Issue, number: str, stamps: Stamps) -> Iterator[Plate]:
    """Records of a number that agree with the issue in die and in whether the stamp shows it."""
    seen = issue.characters
    for plate in stamps.plates_of(issue.id, number):
        if (
            plate.plate_number_on_stamp is not None
            and plate.plate_number_on_stamp != seen.number_on_stamp
        ):
            continue
        if plate.die and seen.dies and plate.die not in seen.dies:
            continue
        yield plate


def _reading(issue: Issue, number: str, both_sides: bool) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What to ask and beware of in reading the number off the stamp."""
    if not issue.characters.number_on_stamp:
        return (), (f"The number is {issue.plate_number_where}.",) if issue.plate_number_where else ()
    if both_sides:
        return (), ()
    where = issue.plate_number_where or "on both sides of the stamp"
    alike = [each for each in _misread_for(number) if each in _numbers(issue) and each != number]
    asks = (f"Is {number} read on both sides? It stands {where}.",)
    if not alike:
        return asks, (f"Plate {number} read on one side only is not sure.",)
    others = ", ".join(alike)
    return asks, (f"Plate {number} read on one side only is not sure: it may be {others}.",)


def _numbers(issue: Issue) -> set[str]:
    return {each for entry in issue.characters.plates for each in numbers_of(entry)}


def _misread_for(number: str) -> list[str]:
    """Numbers a half-hidden or upturned one may be: a figure lost at either end, or 6 for 9."""
    if not number.isdecimal():
        return []
    turned = number[::-1].translate(str.maketrans("69", "96")) if set(number) <= set("0689") else ""
    lost = [f"{figure}{number}" for figure in "12"] + [f"{number}{figure}" for figure in "0123456789"]
    return [each for each in (turned, *lost) if each and len(each) < 4]
