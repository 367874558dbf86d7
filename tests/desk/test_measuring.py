"""A count of holes as typed: holes in two centimetres (the gauge's definition, common practice)."""

import contextlib
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.desk.identify.gauge_input import read_count
from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.values.errors import InputError

LIBRARY = Library()


@pytest.mark.parametrize(
    ("typed", "across", "down"),
    [
        ("20 over 25 mm", 16.0, None),
        ("20/25mm", 16.0, None),
        ("14 in 2 cm", 14.0, None),
        ("20½ teeth / 1 inch", 20.5 * 20 / 25.4, None),
        ("20/25mm x 18/22mm", 16.0, 18 * 20 / 22),
        ("15/20 by 14/20", 15.0, 14.0),
        ("15/20mm×14/20mm", 15.0, 14.0),
    ],
)
def test_counts_as_typed(typed: str, across: float, down: float | None) -> None:
    counted = read_count(typed, LIBRARY.stamps)
    assert math.isclose(counted.across.value, across)
    assert (counted.down and counted.down.value) == (down and pytest.approx(down))
    seen = read_line(counted.words, LIBRARY.vocabulary)
    assert [(each.kind, each.value) for each in seen.observations] == [("gauge", counted.gauge)]


@pytest.mark.parametrize(
    "typed", ["", "20", "20 over", "20/0 mm", "1/1/1", "20/25mm x 1/2 x 3/4", "[red]", "9/9**9**9**9 m"]
)
def test_no_count_is_one_sentence(typed: str) -> None:
    with pytest.raises(InputError) as bad:
        read_count(typed, LIBRARY.stamps)
    assert str(bad.value).endswith(".") and len(str(bad.value)) < 200


@given(st.text(max_size=60))
def test_nothing_typed_breaks_it(text: str) -> None:
    with contextlib.suppress(InputError):
        read_count(text, LIBRARY.stamps)
