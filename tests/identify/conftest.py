import pytest

from counter.judge.identify.model import Model, model_of
from counter.judge.observation import Observation, Reading
from counter.reference.library import Library
from counter.reference.stamps import Stamps


@pytest.fixture(scope="session")
def library() -> Library:
    return Library()


@pytest.fixture(scope="session")
def stamps(library: Library) -> Stamps:
    return library.stamps


@pytest.fixture(scope="session")
def model(stamps: Stamps) -> Model:
    return model_of(stamps)


def reading(**said: str) -> Reading:
    """A reading of one observation a kind, as answered on a form."""
    return Reading("", tuple(Observation(kind, value, value) for kind, value in said.items()))
