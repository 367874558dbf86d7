"""Periods of the book: from a few words, and their neighbours."""

from __future__ import annotations

import pytest

from counter.values.errors import InputError
from counter.values.periods import neighbour, read_period_words


@pytest.mark.parametrize(
    ("words", "since", "until"),
    [
        ("", "2026-04-01", "2026-06-30"),
        ("2026 q1", "2026-01-01", "2026-03-31"),
        ("2026-02", "2026-02-01", "2026-02-28"),
        ("2024-02", "2024-02-01", "2024-02-29"),
        ("2025", "2025-01-01", "2025-12-31"),
        ("tax 2025", "2025-04-06", "2026-04-05"),  # the tax year runs from 6 April (common practice)
        ("2026-04-03 to 2026-04-09", "2026-04-03", "2026-04-09"),
        ("2026-04-03", "2026-04-03", "2026-04-03"),
        ("2026-04-03 - 2026-04-09", "2026-04-03", "2026-04-09"),
        ("2026-04-03-2026-04-09", "2026-04-03", "2026-04-09"),
        ("2026-04-03..2026-04-09", "2026-04-03", "2026-04-09"),
        ("2026-04-03 2026-04-09", "2026-04-03", "2026-04-09"),
        ("Q1", "2026-01-01", "2026-03-31"),
        ("q4 2025", "2025-10-01", "2025-12-31"),
        ("2025q4", "2025-10-01", "2025-12-31"),
        ("Apr 2026", "2026-04-01", "2026-04-30"),
        ("1 may 2026", "2026-05-01", "2026-05-01"),
        ("1.4.26 to 30.6.26", "2026-04-01", "2026-06-30"),
        ("1/4/26 - 30/6/26", "2026-04-01", "2026-06-30"),
        ("3 apr 2026 – 9 apr 2026", "2026-04-03", "2026-04-09"),
        ("jan 2026 to mar 2026", "2026-01-01", "2026-03-31"),
        ("2024 to 2025", "2024-01-01", "2025-12-31"),
    ],
)
def test_a_period_is_read_from_a_few_words(words: str, since: str, until: str) -> None:
    assert read_period_words(words, "2026-05-02") == (since, until)


@pytest.mark.parametrize(
    "words",
    [
        "last week", "2026 q5", "2025 q1 2026", "2026-13", "2026-05-02 2026-05-01", "[/]",
        "may 2026 to april 2026", "1.4.26 to", "2024 to 2025 to 2026", "30 feb 2026", "april 26",
    ],
)  # fmt: skip
def test_what_is_no_period_is_refused_in_one_sentence(words: str) -> None:
    with pytest.raises(InputError):
        read_period_words(words, "2026-05-02")


def test_the_period_before_and_after() -> None:
    assert neighbour("2026-01-01", "2026-03-31", -1) == ("2025-10-01", "2025-12-31")
    assert neighbour("2025-10-01", "2025-12-31", 1) == ("2026-01-01", "2026-03-31")
    assert neighbour("2025-04-06", "2026-04-05", -1) == ("2024-04-06", "2025-04-05")
    assert neighbour("2026-04-03", "2026-04-09", 1) == ("2026-04-10", "2026-04-16")
