"""`counter treat`: may this be treated that way? The verdict, why, what is asked, the hazards."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict
from typing import Any

from counter.cli.call import Call, Reply
from counter.cli.strength import hazard_lines, hazards_data
from counter.desk.treatments.case import (
    Treatable,
    answered,
    treatable_of_text,
    treatment_named,
    verdict_of,
)
from counter.judge.treat.fluids import label_of
from counter.judge.treat.plan import Plan, TreatmentVerdict
from counter.values.errors import InputError
from counter.values.item import Item
from counter.values.seconds import read_seconds
from counter.values.strength_words import read_label

_MEANS = {
    "tolerates": "tolerates",
    "with care": "with care",
    "never": "never",
    "unknown": "unknown: do not",
}


def arguments(parser: ArgumentParser) -> None:
    """The item as typed (or its stock number), the treatment, how strong and how long."""
    parser.add_argument(
        "text", metavar="TEXT", nargs="+", help='the item: "1d blk imp used loose", or a stock number'
    )
    parser.add_argument(
        "--with",
        required=True,
        dest="treatment",
        metavar="TREATMENT",
        help="float, soak, peroxide, uv lamp ... or a liquid by its name",
    )
    parser.add_argument("--strength", metavar="LABEL", help='what the bottle says: "3 %% w/v"')
    parser.add_argument("--seconds", metavar="TIME", help="how long: 30, 90 s, 10 min")
    parser.add_argument("--product", default="", metavar="NAME", help="the name on the bottle")
    parser.add_argument(
        "--answer",
        action="append",
        default=[],
        metavar="QUESTION=ANSWER",
        help="answer a question it asked: gum=used (may be repeated)",
    )
    parser.add_argument(
        "--confirm",
        action="append",
        default=[],
        metavar="CONDITION",
        help="confirm a condition it asked for: photographed (may be repeated)",
    )
    parser.add_argument("--at-stall", action="store_true", help="at a public table, not at home")


def run(chosen: Namespace, call: Call) -> Reply:
    """{verdict, disputed, classes, reasons, questions, hazards, cautions, ...}.

    While its issue is not settled `if_issue` lists what each would be: {issue, name, classes, verdict}.
    """
    library = call.library
    treatment, liquid = treatment_named(chosen.treatment, library.treatments)
    label = label_of(chosen.treatment) if chosen.strength is None else read_label(chosen.strength)
    readings = label.readings(library.treatments.scale) if label else None

    def item_of(number: str) -> Item | None:
        return call.desk.item(number)

    found = treatable_of_text(" ".join(chosen.text), library, item_of)
    answers = dict(_pair(each) for each in chosen.answer)
    subject = answered(found.subject, answers, chosen.confirm, library.treatments)
    found = Treatable(found.words, subject, found.reading, found.item)
    plan = Plan(
        treatment,
        readings,
        None if chosen.seconds is None else read_seconds(chosen.seconds),
        product=chosen.product or liquid,
        where="stall" if chosen.at_stall else "home",
    )
    verdict = verdict_of(found, plan, library, call.today)
    return Reply(_data(verdict, found), "\n".join(_lines(verdict)))


def _pair(text: str) -> tuple[str, str]:
    key, equals, value = text.partition("=")
    if not equals or not value.strip():
        raise InputError(f"An answer is written like gum=used, not {text!r}.")
    return key.strip(), value.strip()


def _data(verdict: TreatmentVerdict, found: Treatable) -> dict[str, Any]:
    return {
        "verdict": verdict.verdict,
        "disputed": verdict.disputed,
        "could_be": verdict.could_be,
        "treatment": verdict.treatment,
        "issues": list(found.subject.issues),
        "classes": list(verdict.classes),
        "if_issue": [asdict(each) for each in verdict.if_issue],
        "reasons": [asdict(reason) for reason in verdict.reasons],
        "questions": [
            {
                "key": ask.key,
                "question": ask.words,
                "choices": [
                    {"answer": value, "words": words, "verdict": then}
                    for value, words, then in ask.choices
                ],
            }
            for ask in verdict.asks
        ],
        **hazards_data(verdict.hazards),
        "cautions": [*verdict.cautions, *(each.text for each in verdict.hazards.warnings)],
        "usual_seconds": verdict.seconds[0],
        "most_seconds": verdict.seconds[1],
        "unread": [run.text for run in found.reading.unread] if found.reading else [],
    }


def _lines(verdict: TreatmentVerdict) -> list[str]:
    head = f"{verdict.name}: {_MEANS[verdict.verdict]}"
    if verdict.asks:
        head += f" until these are answered; then it could be {_MEANS[verdict.could_be]}"
    lines = [f"{head}{', disputed' if verdict.disputed else ''}."]
    for ask in verdict.asks:
        choices = "; ".join(f"{value} ({words}): {then}" for value, words, then in ask.choices)
        lines.append(f"  ? {ask.words}  {ask.key}= {choices}")
    if verdict.if_issue and all(ask.key != "issue" for ask in verdict.asks):
        count = len(verdict.if_issue)
        lines.append(
            f"  Which of {count} issues it is, is not settled; the verdict is the same for each."
        )
    signs = {"for": "+", "against": "-", "neutral": " "}
    for reason in verdict.reasons:
        lines.append(f"  {signs[reason.speaks]} {reason.text} [{reason.source}, {reason.confidence}]")
    lines += [f"  {caution}" for caution in verdict.cautions]
    return lines + [f"  {line}" for line in hazard_lines(verdict.hazards)]
