"""When a candidate contradicts what was seen: the trade's explanation, and the test to settle it."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify.evidence import Clue
from counter.judge.identify.likelihood import STATES, states
from counter.judge.identify.model import Model
from counter.judge.identify.variants import Variant
from counter.judge.judgement import Reason
from counter.reference.stamps import Stamps
from counter.reference.stamps_error import Explanation
from counter.reference.stamps_issue import Issue


def explanations_of(
    against: tuple[Reason, ...], seen: tuple[Clue, ...], variant: Variant, model: Model
) -> tuple[Reason, ...]:
    """For each contradiction the first explanation that fits it, then the plain misreading."""
    kinds = {reason.rests_on for reason in against}
    found: list[Reason] = []
    for each in seen:
        if each.kind not in kinds:
            continue
        row = next(_fitting(each, variant, model), None)
        if row is not None:
            found.append(_explained(row, model.stamps))
        found.append(_misread(each, variant, model, explained=row is not None))
    return tuple(found)


def _fitting(seen: Clue, variant: Variant, model: Model) -> Iterator[Explanation]:
    values = _forms(seen, model)
    truths = _truths(seen.kind, variant, model)
    for row in model.stamps.errors.explanations:
        if (
            row.kind == seen.kind
            and (not row.seen or row.seen in values)
            and (not row.truly or row.truly in truths)
            and (not row.issues or variant.issue.id in row.issues)
        ):
            yield row


def _forms(seen: Clue, model: Model) -> set[str]:
    """What was seen, with the families of a colour and the common name of both large crowns."""
    values = set(model.values(seen.kind, seen.value))
    if seen.kind == "colour":
        values |= set(model.palette.families(seen.value))
    if seen.kind == "watermark" and any(value.startswith("large_crown") for value in values):
        values.add("large_crown")
    return values


def _truths(kind: str, variant: Variant, model: Model) -> set[str]:
    if kind == "colour":
        listed = variant.stamp.colours
        return {family for name in listed for family in model.palette.families(name)}
    return set(states(kind, variant)) if kind in STATES else set()


def _explained(row: Explanation, stamps: Stamps) -> Reason:
    lookalike = stamps.lookalikes.get(row.lookalike)
    if lookalike is None:
        return Reason(f"{row.kind}.explained", f"{row.says}: {row.test}", "common practice", "medium")
    test = "; ".join(lookalike.tell[:2])
    return Reason(
        lookalike.id, f"{row.says}: {test}", lookalike.source, lookalike.confidence, rests_on=row.kind
    )


def _misread(seen: Clue, variant: Variant, model: Model, *, explained: bool) -> Reason:
    """The plain explanation: it was misread, with why that happens and how to look again."""
    character = model.stamps.errors.characters[seen.kind]
    code = f"{seen.kind}.misread"
    for state in states(seen.kind, variant) if seen.kind in STATES and not explained else ():
        for value, row in model.stamps.errors.seen_as.get((seen.kind, state), {}).items():
            if value in model.values(seen.kind, seen.value):
                text = f"misread ({row.why}): {character.recheck}"
                return Reason(code, text, row.source, "medium", rests_on=seen.kind)
    text = f"{'or ' if explained else ''}a slip in reading the {character.words}: {character.recheck}"
    return Reason(code, text, character.source, "medium", rests_on=seen.kind)


def told_from(issue: Issue, listed: list[str], stamps: Stamps) -> tuple[Reason, ...]:
    """How the issue is told from the other candidates, and what else passes for it."""
    reasons = []
    for confusion in issue.confused_with:
        if confusion.issue and confusion.issue not in listed:
            continue
        what = confusion.words
        if confusion.issue:
            what = stamps.issues[confusion.issue].name
        elif confusion.lookalike:
            what = stamps.lookalikes[confusion.lookalike].name
        code = confusion.issue or confusion.lookalike or f"{issue.id}.confused"
        text = f"from {what}: {confusion.tell}"
        reasons.append(Reason(code, text, *issue.trade_standing))
    return tuple(reasons)
