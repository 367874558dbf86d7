"""The robust statistics against their published numbers and the standard library and scipy.

The numbers and their sources are in data/money/methods.toml. Methods the program does not use are
recorded there too; for those the recorded figures themselves are checked against an outside sum.
"""

import math
import statistics
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.judge.price import robust
from counter.reference.money import read_money_facts

METHODS = read_money_facts().methods


def told(method: str) -> tuple[dict[str, Any], dict[str, Any]]:
    return METHODS[method].example_in, METHODS[method].example_out


def exact(texts: list[str]) -> list[Fraction]:
    return [Fraction(each) for each in texts]


def test_every_recorded_method_is_checked_here() -> None:
    assert len(METHODS) == 25


def test_median() -> None:
    given_, out = told("median")
    assert robust.median(exact(given_["values"])) == Fraction(out["median"])
    assert statistics.mean(map(int, given_["values"])) == int(out["mean"])


@given(st.lists(st.integers(-(10**9), 10**9), min_size=1))
def test_median_is_the_standard_librarys(values: list[int]) -> None:
    assert robust.median(values) == statistics.median(Fraction(value) for value in values)


@pytest.mark.parametrize(
    "method",
    [name for name in METHODS if name.startswith("weighted-median")],
)
def test_weighted_median(method: str) -> None:
    # "weighted-median-trap" was published with the answer 30: it must come out as 40.
    given_, out = told(method)
    found = robust.weighted_median(exact(given_["values"]), exact(given_["weights"]))
    assert [found.lower, found.upper, found.midpoint] == exact(
        [out["lower"], out["upper"], out["midpoint"]]
    )


@given(st.lists(st.tuples(st.integers(0, 10**6), st.integers(1, 6)), min_size=1, max_size=12))
def test_a_weight_is_so_many_copies(pairs: list[tuple[int, int]]) -> None:
    copies = [value for value, weight in pairs for _ in range(weight)]
    found = robust.weighted_median([v for v, _ in pairs], [w for _, w in pairs])
    assert found.lower == statistics.median_low(copies)
    assert found.upper == statistics.median_high(copies)


def test_spread_and_outliers() -> None:
    from scipy import stats  # seconds to import: only where it is asked

    given_, out = told("mad")
    values = exact(given_["values"])
    assert robust.absolute_deviation(values) == Fraction(out["mad"])
    assert float(robust.absolute_deviation(values)) == stats.median_abs_deviation(
        [float(v) for v in values]
    )
    given_, out = told("modified-z")
    scores = robust.modified_scores(exact(given_["values"]))
    assert scores == tuple(exact(out["scores"]))
    flagged = [v for v, s in zip(given_["values"], scores, strict=True) if abs(s) > robust.FLAG_BEYOND]
    assert flagged == out["flagged"]
    assert robust.modified_scores([5, 5, 5, 9]) is None


def test_quartiles_and_fences() -> None:
    given_, out = told("quartiles-two-ways")
    low, high = robust.hinges(exact(given_["values"]))
    assert [low, robust.median(exact(given_["values"])), high] == exact(out["inclusive"])
    assert [str(int(q)) for q in statistics.quantiles(map(int, given_["values"]))] == out["exclusive"]
    given_, out = told("fences")
    assert list(robust.fences(exact(given_["values"]))) == exact([out["low"], out["high"]])


def test_half_life_weights() -> None:
    given_, out = told("half-life-weights")
    half_life = int(given_["half_life_months"])
    weights = [robust.age_weight(float(age), half_life) for age in given_["ages_months"]]
    assert [f"{float(weight):.4f}" for weight in weights] == out["weights"]
    given_, out = told("decayed-weighted-median")
    weights = [robust.age_weight(float(age), half_life) for age in given_["ages_months"]]
    found = robust.weighted_median(exact(given_["values"]), weights)
    assert found.midpoint == Fraction(out["weighted_median"])


def test_median_interval() -> None:
    from scipy import stats  # seconds to import: only where it is asked

    given_, out = told("median-interval")
    assert [robust.coverage(n, k) for n, k in given_["pairs"]] == exact(out["coverage"])
    for count, place in given_["pairs"]:
        outside = 2 * stats.binom.cdf(place - 1, count, 0.5)
        assert math.isclose(float(robust.coverage(count, place)), 1 - outside)
    # fewer than six comparables cannot give 95 %
    assert robust.median_interval([1, 2, 3, 4, 5]) == (1, 5, Fraction(15, 16))
    assert robust.median_interval(range(1, 10)) == (2, 8, Fraction("0.9609375"))


def test_median_of_slopes() -> None:
    from scipy import stats  # seconds to import: only where it is asked

    given_, out = told("median-of-slopes")
    x, y = exact(given_["x"]), exact(given_["y"])
    assert robust.slope(x, y) == Fraction(out["slope"])
    assert math.isclose(stats.theilslopes([float(v) for v in y], [float(v) for v in x])[0], 19 / 12)
    intercept = statistics.median(b - Fraction(out["slope"]) * a for a, b in zip(x, y, strict=True))
    assert intercept == Fraction(out["intercept"])
    with pytest.raises(ValueError, match="two different"):
        robust.slope([1, 1], [2, 3])


def test_effective_number() -> None:
    given_, out = told("effective-n")
    assert robust.effective_number(exact(given_["weights"])) == Fraction(out["n_eff"])
    assert robust.effective_number([0, 0]) == 0


def test_condition_normalised_prices() -> None:
    given_, out = told("condition-normalise")
    normal = [
        Fraction(p) / Fraction(f) for p, f in zip(given_["prices"], given_["factors"], strict=True)
    ]
    assert normal == exact(out["normalised"])
    assert robust.median(normal) * Fraction(given_["subject_factor"]) == Fraction(out["quote"])


def test_figures_of_the_methods_not_used() -> None:
    """Recorded for the reader; the record itself is checked against statistics and scipy."""
    from scipy import stats  # seconds to import: only where it is asked

    given_, out = told("hodges-lehmann")
    values = exact(given_["values"])
    sums = [(a + b) / 2 for i, a in enumerate(values) for b in values[i:]]
    pairs = [(a + b) / 2 for i, a in enumerate(values) for b in values[i + 1 :]]
    assert statistics.median(sums) == Fraction(out["with_self_pairs"])
    assert statistics.median(pairs) == Fraction(out["without_self_pairs"])
    given_, out = told("winsorized-mean")
    values = sorted(exact(given_["values"]))
    winsorized = [values[1], *values[1:-1], values[-2]]
    assert statistics.mean(values) == Fraction(out["mean"])
    assert statistics.mean(winsorized) == Fraction(out["winsorized"])
    given_, out = told("trimmed-mean")
    assert math.isclose(stats.trim_mean([float(v) for v in values], 1 / 20), float(out["trimmed"]))
    assert statistics.median(values) == Fraction(out["median"])
    given_, out = told("trimean")
    low, high = robust.hinges(exact(given_["values"]))
    assert (low + 2 * robust.median(exact(given_["values"])) + high) / 4 == Fraction(out["trimean"])
    given_, out = told("geometric-mean-ratio")
    mean = statistics.geometric_mean(float(each) for each in given_["ratios"])
    assert f"{mean:.6f}" == out["geometric_mean"]


def test_figures_of_the_remaining_methods_not_used() -> None:
    given_, out = told("exponential-smoothing")
    alpha, y = Decimal(given_["alpha"]), [Decimal(each) for each in given_["y"]]
    smooth = [y[0]]
    for value in y[1:-1]:
        smooth.append(alpha * value + (1 - alpha) * smooth[-1])
    assert [f"{each:.2f}" for each in smooth] == out["s"]
    errors = [(a - b) ** 2 for a, b in zip(y[1:], smooth, strict=True)]
    assert f"{statistics.mean(errors):.2f}" == out["mse"]
    given_, out = told("credibility")
    z = Fraction(int(given_["n"]), int(given_["n"]) + int(given_["k"]))
    assert (z, z * int(given_["own"]) + (1 - z) * int(given_["group"])) == (
        Fraction(out["z"]),
        Fraction(out["estimate"]),
    )
    given_, out = told("inverse-variance")
    weights = [1 / Fraction(each) for each in given_["variances"]]
    mean = statistics.fmean(map(float, given_["estimates"]), [float(w) for w in weights])
    assert math.isclose(mean, float(out["mean"])) and 1 / sum(weights) == Fraction(out["variance"])
    given_, out = told("index-uplift")
    assert Fraction(given_["price"]) * Fraction(given_["index_now"]) / int(
        given_["index_then"]
    ) == Fraction(out["price_now"])
    assert told("report-rule")[1]["suggestion"] == "none"
