"""The form of a sale: its questions, and the terms that the answers make."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from counter.desk.trade.sell import SaleTerms, read_parts
from counter.store.records.money import PAYMENTS
from counter.tui.widgets.form import Field
from counter.tui.widgets.form_screen import NOTE
from counter.values.date_words import day_of_words
from counter.values.money import read_pence

_WAYS = tuple((each, each) for each in PAYMENTS if each not in ("exchange", "owed"))
_HOW = (("complete", "sold"), ("deposit", "held on a deposit"), ("on approval", "on approval"))
_APPROVAL_DAYS = 14


def questions(answers: Mapping[str, str], day: str, read_back: str) -> tuple[Field, ...]:
    """The questions of a sale; the last one notes it."""

    def field(key: str, label: str, hint: str, choices: tuple[tuple[str, str], ...] = ()) -> Field:
        return Field(key, label, answers.get(key, ""), choices, hint)

    how = answers.get("how", "complete")
    due = Field("due", "due back", answers.get("due", _due(day)), (), "The day by which it is back.")
    return (
        field("payment", "paid by", "How it is paid, or how the rest is.", _WAYS),
        Field("how", "how", how, _HOW, ""),
        *((due,) if how == "on approval" else ()),
        field("now", "paid now", "Empty: all of it. A sum, or parts: cash 20, card 52.50."),
        field("buyer", "buyer", "A name, or the number of a person. Invoices want it."),
        field("exchange", "taken in exchange", "A purchase line: 1d red pl 9 £20. Two deals."),
        field("currency", "other currency", "A code, as EUR, at your own dated rate."),
        field("postage", "postage charged", "Belongs to the selling price; shared over the lines."),
        Field(NOTE, "note it", "Enter, or F9", (), read_back),
    )


def terms_of(answers: Mapping[str, str], day: str) -> SaleTerms:
    """The terms of a sale; raises InputError for an answer that cannot be read."""
    how = answers.get("how") or "complete"
    method, now = answers.get("payment", ""), answers.get("now", "")
    paid = read_parts(now, method)
    postage = answers.get("postage", "")
    return SaleTerms(
        day=day,
        status=how,
        payment="" if now or how != "complete" else method,
        paid=paid,
        due_back=day_of_words(answers.get("due") or _due(day)) if how == "on approval" else "",
        buyer=answers.get("buyer", ""),
        postage_pence=read_pence(postage, "the postage") if postage else 0,
        currency=answers.get("currency", ""),
        exchange=answers.get("exchange", ""),
    )


def _due(day: str) -> str:
    return (date.fromisoformat(day) + timedelta(days=_APPROVAL_DAYS)).isoformat()
