"""Where a person's own data is, and the time on their clock."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path


def local_time() -> datetime:
    """The time now, with the local zone."""
    return datetime.now().astimezone()


def own_folder() -> Path:
    """The platform's place for a user's own data."""
    from platformdirs import user_data_path

    return user_data_path("counter", appauthor=False)
