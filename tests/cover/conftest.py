import pytest

from counter.reference.postal import Postal, read_postal


@pytest.fixture(scope="session")
def postal() -> Postal:
    return read_postal()
