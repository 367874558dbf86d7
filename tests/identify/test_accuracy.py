"""The shares must go on being right and honest: a fixed sample of the generated cases.

The full figures are printed by tests/benchmarks/identify_accuracy.py.
"""

import random
from collections.abc import Callable

from counter.judge.identify import identify
from counter.judge.identify.model import Model
from tests.benchmarks.identify_cases import allowed, clean, reading, spoil

Said = dict[str, str]


def rate(model: Model, change: Callable[[Said, random.Random], Said]) -> float:
    """How often the truth, or an issue no examiner could tell from it, stands first."""
    luck = random.Random(1)
    right = 0
    for name, (start, end) in model.spans.items():
        said = clean(luck.choice(model.variants[start:end]), model, luck)
        could_be = allowed(said, model)
        assert name in could_be
        answer = identify(reading(change(said, luck)), model.stamps)
        right += answer.candidates[0].issue_id in could_be
    return right / len(model.spans)


def test_clean_observations(model: Model) -> None:
    assert rate(model, lambda said, _: said) >= 0.97


def test_one_observation_wrong(model: Model) -> None:
    assert rate(model, lambda said, luck: spoil(said, model, luck)[0]) >= 0.90
