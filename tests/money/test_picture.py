"""The price picture: every row as wide as asked, every price in its place."""

from hypothesis import given
from hypothesis import strategies as st

from counter.judge.price.price_chart import Picture, Point

PRICES = st.integers(1, 10**7)
POINTS = st.lists(
    st.builds(Point, PRICES, st.sampled_from(["sold", "asking"]), st.booleans(), st.floats(0, 1)),
    max_size=15,
)


@given(POINTS, st.none() | PRICES, st.none() | PRICES, st.integers(30, 140))
def test_rows_are_exactly_as_wide_as_asked(
    points: list[Point], price: int | None, asking: int | None, width: int
) -> None:
    drawn = Picture(tuple(points), price, price, price, asking)
    for row in drawn.rows(width):
        assert len(row) == width
    for each in points:
        assert 0 <= drawn.column(each.price, width) < width


def test_the_picture_shows_sales_asking_outliers_and_the_suggestion() -> None:
    points = (
        Point(4000, "sold", False, 1.0),
        Point(4000, "sold", False, 1.0),
        Point(4500, "sold", False, 0.5),
        Point(5000, "asking", False, 0.5),
        Point(9000, "sold", True, 1.0),
    )
    rows = Picture(points, 4500, 4000, 5000, 5500).rows(60)
    words = [row.split()[0] for row in rows]
    assert words == ["sold", "asked", "range", "suggest", "asking", "price"]
    assert rows[0].count("8") == 1 and rows[0].count("o") == 1 + 1  # the o of "sold" and one sale
    assert rows[0].rstrip().endswith("!")
    assert rows[3].index("^") == rows[0].index("o", 8)  # the suggestion stands under the sale of 45
    assert "£45" in rows[3] and "£55" in rows[4]


def test_nothing_known_draws_nothing() -> None:
    assert Picture((), None, None, None, 4500).rows(60) == []
