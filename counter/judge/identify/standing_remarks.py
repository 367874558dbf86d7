"""What the buyer of a scarce thing must hear: that it was never issued, or is proved by one thing alone."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify.model import Model
from counter.judge.judgement import Reason
from counter.judge.observation import Reading

#: A first candidate below this share is no answer yet, and its standing nobody's trouble.
_LEADS = 0.25
#: A scarce issue that one thing alone proves is named from this share on.
_IN_THE_RUNNING = 0.05


def standing_remarks(
    first: str, reading: Reading, shares: dict[str, float], model: Model
) -> Iterator[Reason]:
    """The standing of the first issue where it is out of the ordinary, and what alone proves a scarce
    issue that what was seen does not rule out. `shares` are 0 to 1 by issue."""
    errors = model.stamps.errors
    issue = model.stamps.weighed(first)
    standing = errors.standings[issue.characters.standing]
    if standing.says and shares[first] >= _LEADS:
        lookalike = model.stamps.lookalikes.get(first)
        tells = f" ({'; '.join(lookalike.tell[:3])})" if lookalike else ""
        text = f"{issue.name}: {standing.says}{tells}" if not lookalike else f"{issue.name}{tells}"
        yield Reason("standing", text, issue.source, issue.confidence)
    for name, known in errors.how_many.items():
        if known.proof and shares.get(name, 0.0) >= _IN_THE_RUNNING and not reading.first("plate"):
            yield Reason("proof", known.proof, known.source, "common practice")
