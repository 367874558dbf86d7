"""From a typed line or a stock number to a treatment's verdict: reader, identifier, judge joined."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from time import monotonic

from counter.judge.identify import Identification, identify
from counter.judge.observation import Reading
from counter.judge.reading import read_line
from counter.judge.treat.fluids import name_fluid
from counter.judge.treat.guide import Guided
from counter.judge.treat.observed import subject_of_item, subject_of_reading
from counter.judge.treat.plan import Plan, TreatmentVerdict
from counter.judge.treat.subject import Subject
from counter.judge.treat.verdict import may_i_treat
from counter.reference.library import Library
from counter.reference.treatments import Treatments
from counter.store.ledger import Ledger
from counter.store.records.bath import BathStage
from counter.trade.treatment_log import BathPlan, Baths
from counter.values.errors import InputError
from counter.values.item import Item

#: An issue less likely than this is not held against the stamp.
_LIKELY = 0.05


@dataclass(frozen=True, slots=True)
class Treatable:
    """What is to be treated: in words, as the judge needs it, and the stock line if it is one."""

    words: str
    subject: Subject
    reading: Reading | None = None
    item: Item | None = None


def treatable_of_text(text: str, library: Library, item_of: Callable[[str], Item | None]) -> Treatable:
    """Read a line. A stock number of ours gives the item; anything typed beside it is added.

    Raises InputError when a stock number is typed that is not in the stock.
    """
    reading = read_line(text, library.vocabulary)
    return treatable_of_reading(reading, lambda: identify(reading, library.stamps), library, item_of)


def treatable_of_reading(
    reading: Reading,
    identified: Callable[[], Identification],
    library: Library,
    item_of: Callable[[str], Item | None],
) -> Treatable:
    """The same of a line that was read already; `identified` is asked only when no piece is named."""
    seen = subject_of_reading(reading, library.treatments)
    number = reading.first("stock_number")
    if number:
        item = item_of(number)
        if item is None:
            raise InputError(f"There is no stock number {number}.")
        return treatable_of_item(item, library, seen, reading)
    return Treatable(reading.text, replace(seen, issues=likely(identified())), reading)


def treatable_of_item(
    item: Item, library: Library, seen: Subject | None = None, reading: Reading | None = None
) -> Treatable:
    """A line of stock; what was `seen` besides counts with what was noted."""
    subject = subject_of_item(item, library.treatments)
    if seen:
        subject = replace(
            subject,
            answers={**subject.answers, **seen.answers},
            classes=subject.classes | seen.classes,
            conditions=subject.conditions | seen.conditions,
            refuted=subject.refuted | seen.refuted,
        )
    return Treatable(item.number, subject, reading, item)


def likely(found: Identification) -> tuple[str, ...]:
    """The issues a stamp may be: those not told apart and every other likely one; none if unsure."""
    if not found.candidates or found.none_of_these > 0.5:
        return ()
    order = sorted(found.shares, key=lambda issue: -found.shares[issue])
    ids = [issue for issue in order if found.shares[issue] >= _LIKELY] or order[:1]
    return tuple(dict.fromkeys((*ids, *found.together)))


def answered(
    subject: Subject, answers: Mapping[str, str], confirmed: Iterable[str], treatments: Treatments
) -> Subject:
    """The subject with questions answered and conditions confirmed; raises InputError for wrong ones."""
    given = dict(subject.answers)
    issues = subject.issues
    confirmed = [
        *confirmed,
        *(key for key, value in answers.items() if key in treatments.conditions and value == "yes"),
    ]
    for key, value in answers.items():
        if key in treatments.conditions and value in ("yes", "no"):
            continue
        if key == "issue":
            if value not in treatments.of_issue:
                raise InputError(f"There is no issue {value!r}; an id looks like penny_black_1840.")
            issues = (value,)
        elif key in treatments.questions:
            known = [choice.value for choice in treatments.questions[key].choices]
            if value not in known:
                raise InputError(f"{key} cannot be {value!r}; answer {', '.join(known)}.")
            given[key] = (value,)
        elif key in treatments.classes and value in ("yes", "no"):
            given[key] = (value,)
        else:
            raise InputError(f"There is no question {key!r}; ask without answers to see them.")
    wrong = [name for name in confirmed if name not in treatments.conditions]
    if wrong:
        raise InputError(
            f"{wrong[0]!r} is not to be confirmed; try {', '.join(treatments.conditions)}."
        )
    against = sorted(subject.refuted & set(confirmed))
    if against:
        raise InputError(f"{against[0]!r} cannot be confirmed: what is noted of it says the opposite.")
    return replace(
        subject, issues=issues, answers=given, conditions=subject.conditions | frozenset(confirmed)
    )


def treatment_named(name: str, treatments: Treatments) -> tuple[str, str]:
    """A treatment by its id or by the liquid's name: (treatment id, liquid named or "").

    A barred liquid comes back with its name, so that the verdict says why. Raises InputError.
    """
    plain = name.strip().casefold().replace(" ", "_").replace("-", "_")
    if plain in treatments.treatments:
        return plain, ""
    spoken = " ".join(name.casefold().split())
    for each in treatments.treatments.values():
        if spoken in (each.name.casefold(), *each.called):
            return each.id, ""
    match = name_fluid(name, treatments)
    if match is None:
        known = ", ".join(
            treatments.treatments[each].called[0]
            for each in treatments.limits.matrix_treatments
            if treatments.treatments[each].called
        )
        raise InputError(
            f"Nothing is known of {name!r}, and unknown means don't; what is known: {known}, "
            "or a liquid by the name on its bottle."
        )
    return match.fluid.treatment or "watermark_petroleum_spirit", name


def verdict_of(treatable: Treatable, plan: Plan, library: Library, today: date) -> TreatmentVerdict:
    """The verdict, with what the item has been through already."""
    earlier = treatable.item.treatments if treatable.item else ()
    return may_i_treat(
        treatable.subject,
        replace(plan, earlier=earlier),
        library.stamps,
        library.treatments,
        today=today,
    )


def open_baths(ledger: Ledger, treatments: Treatments, ticks: Callable[[], float] = monotonic) -> Baths:
    """The baths of a ledger, knowing which treatments wet."""
    wet = {each.id for each in treatments.treatments.values() if each.wet}
    return Baths(ledger, monotonic=ticks, wet=wet)


def bath_plan(
    guided: Guided,
    treatable: Treatable,
    treatments: Treatments,
    *,
    ticked: Collection[str],
    product: str = "",
    strength: str = "",
    by: str = "",
    before: str = "",
) -> BathPlan:
    """A guided run as the baths take it; `ticked` are ids of the checks that were ticked."""
    return BathPlan(
        treatment=guided.treatment,
        name=guided.name,
        stages=tuple(
            BathStage(each.words, each.seconds, each.works, each.last, each.look_every_s)
            for each in guided.stages
        ),
        of=treatable.words,
        item=treatable.item.number if treatable.item else "",
        product=product,
        strength=strength,
        by=by,
        before=before,
        wet=treatments.treatments[guided.treatment].wet,
        checks=tuple(check.id for check in guided.checks),
        ticked=frozenset(ticked),
    )
