"""A line that names a commemorative: the set is found, and no other issue's ink speaks for it."""

from counter.desk.desk import Desk
from counter.tui.board import Board


def test_the_set_stands_above_the_card(desk: Desk) -> None:
    board = Board()
    board.desk = desk
    board.type("4d world cup winners 66")
    first = board.card()[0]
    assert first.label == "commemorative"
    assert "World Cup" in first.text and "(4d" in first.text
    assert first.source in {*desk.library.stamps.sources, "memory"}


def test_its_ink_is_that_of_its_process_or_unknown(desk: Desk) -> None:
    """Photogravure to 1968 (common practice); for later sets the process is not established."""
    asked = desk.ask("4d world cup 1966")
    assert asked.candidates[0].issue_id == "set_1966_06_01"
    verdicts = {cell.verdict for cell in asked.strip(asked.candidates[0].issue_id)}
    assert "never" in verdicts
    later = desk.ask("13p roses 1976")
    verdicts = {cell.verdict for cell in later.strip(later.candidates[0].issue_id)}
    assert verdicts <= {"unknown", "never"}


def test_an_issue_keeps_its_own_strip(desk: Desk) -> None:
    asked = desk.ask("9d green 1884")
    assert asked.commemoratives == ()
    water = asked.strip("qv_9d_1883")[0]  # noqa: B005
    assert water.verdict == "never"
