"""The rate page: what it cost to send, by which rule and source, and what explains the franking."""

from __future__ import annotations

from counter.desk.covers.rate import CoverRate, rate_of
from counter.desk.covers.session import CoverNotes
from counter.judge.cover.postage_scale import weight_words
from counter.judge.cover.question import RateAnswer, RateQuestion
from counter.tui.screens.cover.reasons import sources
from counter.tui.widgets.citations import sure_words
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.text import Line
from counter.values.postage import Postage, number_words


def rate_page(notes: CoverNotes, width: int) -> list[Line]:
    """The figure, or in plain words that it is not established."""
    found = rate_of(notes.case)
    if found is None:
        return [[("  ? not established", "unknown"), ("  The date is needed: answer it below.", "dim")]]
    answer, cited = found.answer, Cited(sources(notes))
    lines: list[Line] = [[(f"  {_asked(found.asked)}", "dim")], _figure(answer)]
    told = ", ".join(cited.mark(each) for each in answer.source.split("; ") if each)
    sure = f"{sure_words(answer.confidence)} {told}" if told else ""
    lines += prose(answer.text, width, head=("    ", "plain"), tail=sure)
    for asked in answer.asks:
        lines += _part("asked", asked, width, "care")
    if found.weights:
        lines += _part("franking", found.weights, width, "strong")
    if answer.rule:
        lines += _part("scale", answer.rule, width, "plain")
    lines += _beside(found, width)
    for also in answer.also:
        lines += _part("also", also, width, "dim")
    return [*lines, *cited.lines(width)]


def _asked(asked: RateQuestion) -> str:
    """12 March 1842 · letter · ½ oz · inland"""
    size = [weight_words(asked.ounces, "oz")] if asked.ounces else []
    size += [f"{asked.sheets} sheets"] if asked.sheets else []
    size += [f"{number_words(asked.miles)} miles"] if asked.miles else []
    late = ["handed in late"] if asked.late_at else []
    where = f"to {asked.to}" if asked.to else "inland"
    parts = (asked.when.words(), asked.service, *(size or ["weight not known"]), where, *late)
    return " · ".join(parts)


def _figure(answer: RateAnswer) -> Line:
    if answer.pence is None:
        return [("  ? not established", "unknown")]
    return [(f"  ✓ {Postage(answer.pence, answer.unit).words()}", "price")]


def _beside(found: CoverRate, width: int) -> list[Line]:
    lines: list[Line] = []
    for way, answer in found.beside:
        known = answer.pence is not None
        figure = Postage(answer.pence, answer.unit).words() if answer.pence is not None else "?"
        why = f"{figure}  {' + '.join(answer.parts)}" if known else answer.text
        lines += _part(way, why, width, "plain" if known else "dim")
    return lines


def _part(label: str, words: str, width: int, ink: str, tail: str = "") -> list[Line]:
    return prose(words, width, ink, head=(f"  {label}".ljust(19), "dim"), tail=tail)
