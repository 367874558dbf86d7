"""The whole reference behind one door; each subject is read when it is first asked for."""

from __future__ import annotations

# Property imports are local on purpose: the first screen must not wait for every subject.


class Library:
    """Every fact by subject."""
