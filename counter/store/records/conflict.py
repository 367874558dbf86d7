"""A row with more than one version: what another laptop noted of it, held back until a person says."""

from __future__ import annotations

from typing import Any

from counter.values.record import Name, Record, Words


class HeldVersion(Record, frozen=True):
    """A row as an entry of another laptop left it (None: taken out)."""

    entry: Words
    laptop: Words
    at: Words
    verb: Words
    row: dict[str, Any] | None


class HeldRow(Record, frozen=True):
    """The row of a table under a key, with the versions that wait."""

    id: Name
    table: Words
    key: Words
    versions: tuple[HeldVersion, ...] = ()
