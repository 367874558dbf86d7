"""A dealer's own cost code: ten letters stand for 1 to 9 and 0, so that a label says a cost to no one else."""

from __future__ import annotations

from counter.values.errors import InputError

_DIGITS = "1234567890"


def read_code_letters(text: str) -> str:
    """Ten different letters in capitals, as chosen ("" for none). Raises InputError in one sentence."""
    letters = "".join(text.split()).upper()
    if letters and (len(letters) != 10 or len(set(letters)) != 10 or not letters.isalpha()):
        raise InputError(
            f"{text!r} is no cost code; choose ten different letters, for 1 to 9 and then 0."
        )
    return letters


def in_code(pence: int, letters: str) -> str:
    """A cost in the letters: pounds, and pence after a stroke where there are any; "" without letters."""
    if not letters:
        return ""
    table = dict(zip(_DIGITS, letters, strict=True))
    whole, part = divmod(pence, 100)
    said = "".join(table[digit] for digit in str(whole))
    return f"{said}/{''.join(table[digit] for digit in f'{part:02d}')}" if part else said


def out_of_code(code: str, letters: str) -> int:
    """The pence that a code stands for; raises InputError when it is not of these letters."""
    table = dict(zip(letters, _DIGITS, strict=False))
    whole, _, part = code.strip().upper().partition("/")
    if not whole or len(part) not in (0, 2) or any(each not in table for each in whole + part):
        raise InputError(f"{code!r} is not written in your cost code.")
    pounds = int("".join(table[each] for each in whole))
    return 100 * pounds + (int("".join(table[each] for each in part)) if part else 0)
