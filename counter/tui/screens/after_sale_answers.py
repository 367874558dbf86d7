"""The form of what became of a sale: its questions, and the settlement the answers make."""

from __future__ import annotations

from collections.abc import Mapping

from counter.desk.trade.after_sale import WAYS, Settlement
from counter.store.records.money import PAYMENTS
from counter.store.records.sale import Sale
from counter.tui.widgets.form import Field
from counter.tui.widgets.form_screen import NOTE
from counter.values.errors import InputError
from counter.values.money import read_pence

_METHODS = tuple((each, each) for each in PAYMENTS if each != "exchange")
_PIECES = {
    "keep": ("kept", "Which were kept: their places above (1 3) or numbers; empty: all."),
    "refund": ("came back", "Which came back: their places above (1 3) or numbers; empty: all left."),
    "allowance": ("allowed on", "Which of them: their places above (1 3) or numbers; empty: all left."),
}
_UNPAID = ("sent back", "buyer", "hand over")
_BACK = ("refund", "allowance", "cancel")
_SUMS = {
    "balance": ("sum", "Empty: all that is owed."),
    "allowance": ("money back", "The buyer keeps the pieces."),
    "cancel": ("kept of the deposit", "By agreement; empty: nothing."),
}


def after_sale_questions(ways: tuple[str, ...], answers: Mapping[str, str]) -> tuple[Field, ...]:
    """The questions for the way chosen; none when nothing can become of the sale any more."""
    what = answers.get("what", "") or (ways[0] if ways else "")
    if not what:
        return ()
    given = answers.get
    fields = [Field("what", "what became of it", what, tuple((each, WAYS[each]) for each in ways))]
    if what in _PIECES:
        label, hint = _PIECES[what]
        fields.append(Field("pieces", label, given("pieces", ""), (), hint))
    if what in _SUMS:
        label, hint = _SUMS[what]
        fields.append(Field("sum", label, given("sum", ""), (), hint))
    if what == "buyer":
        hint = "A name, or the number of a person already known."
        fields.append(Field("buyer", "buyer", given("buyer", ""), (), hint, needed=True))
    if what in _BACK:
        hint = "Empty: the way it was paid. What is owed is cancelled first."
        fields.append(Field("payment", "paid back by", given("payment", ""), _METHODS, hint))
    elif what not in _UNPAID:
        fields.append(Field("payment", "paid by", given("payment", ""), _METHODS, needed=True))
    if what in ("refund", "allowance"):
        fields.append(
            Field("reason", "why", given("reason", ""), (), "The book wants it.", needed=True)
        )
    return (*fields, Field(NOTE, "note it", "Enter, or F9", (), "As an entry of its own."))


def settlement(sale: Sale, ways: tuple[str, ...], answers: Mapping[str, str], day: str) -> Settlement:
    """What the answers say. Raises InputError for one that is missing or cannot be read."""
    what = answers.get("what", "") or (ways[0] if ways else "")
    if not what:
        raise InputError(f"Nothing more can become of {sale.id}.")
    if what not in (*_UNPAID, *_BACK) and not answers.get("payment"):
        raise InputError("Say how it is paid.")
    words = answers.get("sum", "").strip()
    pieces = read_pieces(sale, answers.get("pieces", "")) if what in _PIECES else ()
    return Settlement(
        what,
        day,
        answers.get("payment", ""),
        pieces or (tuple(line.item for line in sale.lines) if what == "keep" else ()),
        read_pence(words, "a sum") if words and what in _SUMS else None,
        answers.get("reason", ""),
        answers.get("buyer", ""),
    )


def read_pieces(sale: Sale, words: str) -> tuple[str, ...]:
    """Pieces by their places in the sale (1 3) or by stock number. Raises InputError."""
    found = []
    for each in words.replace(",", " ").upper().split():
        if each.isdecimal() and each.isascii() and 1 <= int(each) <= len(sale.lines):
            found.append(sale.lines[int(each) - 1].item)
        elif any(line.item == each for line in sale.lines):
            found.append(each)
        else:
            raise InputError(f"{each} is not in {sale.id}; write a place from 1 to {len(sale.lines)}.")
    return tuple(dict.fromkeys(found))
