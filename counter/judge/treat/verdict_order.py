"""The four verdicts, mildest first; the strictest over everything known always wins."""

from __future__ import annotations

from collections.abc import Iterable

from counter.reference.treatment_records import Verdict

MILDEST: Verdict = "tolerates"
STRICTEST: Verdict = "never"
_ORDER: dict[Verdict, int] = {"tolerates": 0, "with care": 1, "unknown": 2, "never": 3}
_INK_WORDS: dict[str, Verdict] = {"only with care": "with care"}


def strictness(verdict: Verdict) -> int:
    """0 for the mildest verdict, 3 for never."""
    return _ORDER[verdict]


def strictest(verdicts: Iterable[Verdict]) -> Verdict:
    """The strictest of some verdicts; "tolerates" of none."""
    return max(verdicts, key=_ORDER.__getitem__, default=MILDEST)


def of_ink(words: str) -> Verdict:
    """The verdict of the ink table's own words; words it does not use are "unknown"."""
    plain = _INK_WORDS.get(words, words)
    return next((verdict for verdict in _ORDER if verdict == plain), "unknown")
