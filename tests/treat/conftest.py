"""The reference, read once for the whole folder."""

import pytest

from counter.reference.library import Library
from counter.reference.stamps import Stamps
from counter.reference.treatments import Treatments

_LIBRARY = Library()


@pytest.fixture(scope="session")
def treatments() -> Treatments:
    return _LIBRARY.treatments


@pytest.fixture(scope="session")
def stamps() -> Stamps:
    return _LIBRARY.stamps
