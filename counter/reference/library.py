"""The whole reference behind one door; each subject is read when it is first asked for."""

from __future__ import annotations


class Library:
    """Every fact by subject."""
