"""The reference, read once for all tests of this folder."""

import pytest

from counter.reference.library import Library
from counter.reference.stamps import Stamps
from counter.reference.vocabulary import Vocabulary


@pytest.fixture(scope="session")
def library() -> Library:
    return Library()


@pytest.fixture(scope="session")
def vocabulary(library: Library) -> Vocabulary:
    return library.vocabulary


@pytest.fixture(scope="session")
def stamps(library: Library) -> Stamps:
    return library.stamps
