"""What the liquid may do to the person, as lines of a page."""

from __future__ import annotations

from collections.abc import Sequence

from counter.judge.treat.hazards import Hazards, Notice
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.text import Line


def hazard_rows(hazards: Hazards, cited: Cited, width: int) -> list[Line]:
    """Statements and precautions first, then what to mind, never to mix, and first aid."""
    lines: list[Line] = []
    signal = f"{hazards.signal}: " if hazards.signal else ""
    for code, words in zip(hazards.h_codes, hazards.h_words, strict=True):
        lines += prose(f"{signal}{words}", width, "bad", head=(f"  {code}  ", "bad"))
    if hazards.p_words:
        codes = f"({', '.join(hazards.p_codes)})"
        lines += prose(f"{'; '.join(hazards.p_words)}.", width, head=("  Do    ", "accent"), tail=codes)
    for each in (*hazards.further, *hazards.law):
        lines += _notice(each, cited, width, "care")
    for each in hazards.warnings:
        lines += _notice(each, cited, width, "plain")
    lines += _part("Never mix", hazards.never_mix, cited, width, "bad")
    return lines + _part("If it happens", hazards.first_aid, cited, width, "plain")


def _part(head: str, notices: Sequence[Notice], cited: Cited, width: int, ink: str) -> list[Line]:
    if not notices:
        return []
    lines: list[Line] = [[], [(f"  {head}", "head")]]
    for each in notices:
        lines += _notice(each, cited, width, ink)
    return lines


def _notice(notice: Notice, cited: Cited, width: int, ink: str) -> list[Line]:
    tail = cited.mark(notice.source, notice.confidence)
    return prose(notice.text, width, ink, head=("  · ", "dim"), tail=tail)
