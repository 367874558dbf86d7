"""A stock line at 80 columns: the issue's name gives way before the faults do (common practice: a
fault is told with the price)."""

from hypothesis import given
from hypothesis import strategies as st

from counter.describe.description import lowering, short_line
from counter.describe.names import issue_names
from counter.tui.narrow_line import narrowed
from counter.values.item import Fault, Item
from tests.tui.conftest import LIBRARY

NAMES = issue_names(LIBRARY.stamps)
#: What a line of 80 columns leaves for the words, beside the cursor, the number and the price.
ROOM = 59


def line_of(item: Item, room: int = ROOM) -> str:
    """The words as they are seen: cut behind `room` cells."""
    text, _ = narrowed(short_line(item, NAMES), (), item, NAMES, room)
    return text if len(text) <= room else text[: room - 1] + "…"


def test_a_short_line_stays_as_it_is() -> None:
    item = Item(
        "A-1", issue="two_pence_1841_white_lines", letters=("KC",), faults=(Fault("thin", "at top"),)
    )
    words = short_line(item, NAMES)
    assert len(words) <= ROOM
    assert line_of(item) == words


@given(
    st.sampled_from(sorted(NAMES)),
    st.sampled_from([(), ("KC",), ("CKKC",)]),
    st.sampled_from(["thin", "crease", "closed tear", "light toning"]),
    st.sampled_from(["at top", "top left corner", "lower right corner"]),
)
def test_a_fault_is_seen_whatever_the_issue_is_called(
    issue: str, letters: tuple[str, ...], term: str, where: str
) -> None:
    item = Item("A-1", issue=issue, letters=letters, cancel="numeral", faults=(Fault(term, where),))
    short = lowering(item).replace(" corner)", ")")
    seen = line_of(item)
    assert short in seen or lowering(item) in seen, seen
    assert len(seen) <= ROOM


@given(
    st.sampled_from(sorted(NAMES)),
    st.lists(st.sampled_from(["thin", "crease", "tear at left", "stain"]), max_size=4),
    st.integers(0, 80),
    st.data(),
)
def test_what_was_asked_for_stays_marked_where_it_still_stands(
    issue: str, faults: list[str], room: int, data: st.DataObject
) -> None:
    item = Item("A-1", issue=issue, letters=("KC",), faults=tuple(Fault(each) for each in faults))
    words = short_line(item, NAMES)
    start = data.draw(st.integers(0, len(words) - 1))
    end = data.draw(st.integers(start + 1, len(words)))
    text, marked = narrowed(words, ((start, end),), item, NAMES, room)
    assert [text[left:right] for left, right in marked] in ([], [words[start:end]])
