"""What a cover check may find, from best to worst, and how it is said."""

from __future__ import annotations

from typing import Literal

Finding = Literal["consistent", "undecided", "caution", "contradicts"]

#: From best to worst: more against never moves a finding to the left.
FINDINGS: tuple[Finding, ...] = ("consistent", "undecided", "caution", "contradicts")
WORDS: dict[Finding, str] = {
    "consistent": "speaks for belonging, as far as it was looked at",
    "undecided": "too little is known to say",
    "caution": "something speaks against belonging; take care",
    "contradicts": "speaks against belonging",
}
