"""A desk over a throw-away demo, its clock standing still."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

import pytest

from counter.desk.desk import Desk
from counter.desk.opening import open_desk
from counter.reference.library import Library

LIBRARY = Library()
NOW = datetime.fromisoformat("2026-05-02T10:00:00+01:00")


@pytest.fixture
def desk() -> Iterator[Desk]:
    opened = open_desk(None, demo=True, library=LIBRARY, clock=lambda: NOW)
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def library() -> Library:
    return LIBRARY
