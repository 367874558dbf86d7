"""Baths that cannot be forgotten: by a passed-in clock, and by a real kill."""

import subprocess
import sys
import textwrap
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.desk.treatments.case import Treatable, bath_plan, open_baths
from counter.judge.treat.guide import guide
from counter.judge.treat.plan import Plan
from counter.judge.treat.subject import Subject
from counter.judge.treat.verdict import may_i_treat
from counter.reference.library import Library
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.bath import Bath, BathStage
from counter.trade.treatment_clock import Anchor, countdown, seconds_run, taken_up
from counter.trade.treatment_log import BathPlan, Baths
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.record import read_record, write_row
from counter.values.strength_words import read_label

NOON = datetime(2025, 3, 1, 12, 0, tzinfo=UTC)
STAGES = (
    BathStage("Dip", 30, works=True, look_every=10),
    BathStage("First water", 120),
    BathStage("Dry", 86400, last=True),
)


@dataclass
class Clocks:
    """A time of day and a monotonic count that tests move by hand."""

    wall: datetime = NOON
    ticks: float = 1000.0
    plan: BathPlan = field(
        default_factory=lambda: BathPlan("peroxide_immersion", "Dip", STAGES, strength="3 % w/v")
    )

    def go(self, seconds: float, *, asleep: bool = False) -> None:
        self.wall += timedelta(seconds=seconds)
        self.ticks += 0 if asleep else seconds


@pytest.fixture
def clocks() -> Clocks:
    return Clocks()


def open_all(folder: Path, clocks: Clocks) -> tuple[Ledger, Baths]:
    ledger = Ledger.open(folder, clock=lambda: clocks.wall)
    return ledger, Baths(
        ledger, monotonic=lambda: clocks.ticks, wet={"peroxide_immersion", "soak_float"}
    )


Opened = tuple[Ledger, Baths]


@pytest.fixture
def opened(tmp_path: Path, clocks: Clocks) -> Opened:
    return open_all(tmp_path, clocks)


def test_it_counts_down_and_then_up_until_rinsed(opened: Opened, clocks: Clocks) -> None:
    _, baths = opened
    bath = baths.start(clocks.plan)
    clocks.go(12)
    (now,) = baths.running()
    assert (now.state, now.remaining, now.overdue, now.look_in) == ("running", 18, 0, 8)
    assert now.progress == pytest.approx(0.4) and now.words == "Dip: 0:18"
    clocks.go(18)
    assert baths.running()[0].state == "danger"
    clocks.go(95)
    (now,) = baths.running()
    assert (now.state, now.overdue, now.words) == ("danger", 95, "Out and rinse now: 1:35 over")
    rinsed = baths.next_stage(bath.id)
    assert rinsed.worked == 125
    (now,) = baths.running()
    assert (now.stage.words, now.remaining) == ("First water", 120)
    clocks.go(130)
    assert baths.running()[0].state == "over"  # a rinse that is up is no danger
    baths.next_stage(bath.id)
    assert baths.done(bath.id, "bright again").status == "done"
    assert baths.running() == ()


def test_after_a_restart_the_time_overdue_is_right(
    opened: Opened, clocks: Clocks, tmp_path: Path
) -> None:
    ledger, baths = opened
    baths.start(clocks.plan)
    clocks.go(10)
    ledger.close()
    clocks.wall += timedelta(seconds=200)
    clocks.ticks = 5.0  # another boot: the count begins anew
    _, again = open_all(tmp_path, clocks)
    (now,) = again.running()
    assert (now.state, now.elapsed, now.overdue, now.doubtful) == ("danger", 210, 180, False)
    clocks.go(5)
    assert again.running()[0].overdue == 185


def test_a_laptop_that_slept(opened: Opened, clocks: Clocks) -> None:
    _, baths = opened
    baths.start(clocks.plan)
    clocks.go(300, asleep=True)  # the monotonic clock stood still
    assert baths.running()[0].overdue == 270


def test_a_clock_set_back_while_running_shortens_nothing(opened: Opened, clocks: Clocks) -> None:
    _, baths = opened
    baths.start(clocks.plan)
    clocks.go(25)
    assert baths.running()[0].elapsed == 25
    clocks.wall -= timedelta(hours=3)
    assert baths.running()[0].elapsed == 25
    clocks.go(10)
    assert baths.running()[0].overdue == 5


def test_a_clock_set_back_across_a_restart(opened: Opened, clocks: Clocks, tmp_path: Path) -> None:
    ledger, baths = opened
    baths.start(clocks.plan)
    clocks.go(20)
    baths.keep_time()
    ledger.close()
    clocks.wall -= timedelta(days=1)
    clocks.ticks = 0.0
    _, again = open_all(tmp_path, clocks)
    (now,) = again.running()
    # the least it can be; in doubt a liquid that works counts as up
    assert (now.elapsed, now.doubtful, now.state) == (20, True, "danger")
    assert "longer than that" in now.words


def test_time_is_kept_now_and_then_and_not_at_every_look(opened: Opened, clocks: Clocks) -> None:
    ledger, baths = opened
    baths.start(clocks.plan)
    for _ in range(60):
        clocks.go(1)
        baths.keep_time()
    counted = [entry for entry in ledger.entries() if entry.verb == "bath counted"]
    assert len(counted) == 6


def test_several_at_once_the_most_pressing_first(opened: Opened, clocks: Clocks) -> None:
    _, baths = opened
    soak = BathPlan(
        "soak_float", "Float", (BathStage("Float", 300, works=True), BathStage("Dry", 60, last=True))
    )
    first = baths.start(soak)
    second = baths.start(clocks.plan)
    third = baths.start(replace(clocks.plan, of="another"))
    assert len({first.id, second.id, third.id}) == 3
    clocks.go(40)
    assert [each.bath.id for each in baths.running()] == [second.id, third.id, first.id]


def stock(ledger: Ledger, number: str = "WK-1") -> None:
    ledger.note(
        "item noted", [Change("items", number, write_row(Item(number, issue="penny_black_1840")))]
    )


def item(ledger: Ledger, number: str = "WK-1") -> Item:
    row = ledger.row("items", number)
    assert row is not None
    return read_record(Item, row)


def test_what_was_done_stays_with_the_item(opened: Opened, clocks: Clocks) -> None:
    ledger, baths = opened
    stock(ledger)
    plan = replace(
        clocks.plan, item="WK-1", product="pharmacy peroxide", before="cross gone brown", by="me"
    )
    bath = baths.start(plan)
    assert item(ledger).treatments == ()
    clocks.go(31)
    baths.next_stage(bath.id)
    (done,) = item(ledger).treatments  # at once: no crash can hide it from a buyer
    assert (done.treatment, done.strength, done.seconds, done.date) == (
        "peroxide_immersion",
        "3 % w/v",
        31,
        "2025-03-01",
    )
    clocks.go(120)
    baths.next_stage(bath.id)
    baths.done(bath.id, "red again")
    (done,) = item(ledger).treatments
    assert (done.before, done.after, done.by) == ("cross gone brown", "red again", "me")


def test_no_second_wet_treatment_the_same_day(opened: Opened, clocks: Clocks) -> None:
    ledger, baths = opened
    stock(ledger)
    stock(ledger, "WK-2")
    plan = replace(clocks.plan, item="WK-1")
    bath = baths.start(plan)
    with pytest.raises(UserError, match="wet today"):
        baths.start(plan)
    assert baths.start(replace(plan, item="WK-2")).item == "WK-2"
    clocks.go(30)
    baths.next_stage(bath.id)
    clocks.go(120)
    baths.next_stage(bath.id)
    baths.done(bath.id)
    with pytest.raises(UserError, match="wet today"):
        baths.start(plan)
    clocks.go(86400)
    assert baths.start(plan).status == "running"


def test_a_slip_of_the_hand_is_not_a_treatment(opened: Opened, clocks: Clocks) -> None:
    ledger, baths = opened
    stock(ledger)
    plan = replace(clocks.plan, item="WK-1")
    slip = baths.start(plan)
    with pytest.raises(UserError, match="still in the liquid"):
        baths.abandon(slip.id)
    baths.abandon(slip.id, "wrong stamp", never_in=True)
    assert item(ledger).treatments == ()
    again = baths.start(plan)
    clocks.go(10)
    baths.next_stage(again.id)
    with pytest.raises(UserError, match="on record"):
        baths.abandon(again.id, never_in=True)
    baths.abandon(again.id, "no change at 10 s: not sulphide")
    (done,) = item(ledger).treatments
    assert (done.seconds, done.after) == (10, "no change at 10 s: not sulphide")


def test_what_cannot_be_done(opened: Opened, clocks: Clocks) -> None:
    _, baths = opened
    with pytest.raises(UserError, match="not ticked"):
        baths.start(replace(clocks.plan, checks=("eyes", "waters"), ticked=frozenset({"eyes"})))
    with pytest.raises(UserError, match="no stock number"):
        baths.start(replace(clocks.plan, item="WK-99"))
    bath = baths.start(clocks.plan)
    with pytest.raises(UserError, match="Still to do"):
        baths.done(bath.id)
    with pytest.raises(UserError, match="no bath"):
        baths.next_stage("B-none")
    baths.next_stage(bath.id)
    baths.next_stage(bath.id)
    with pytest.raises(UserError, match="last stage"):
        baths.next_stage(bath.id)
    baths.done(bath.id)
    with pytest.raises(UserError, match="done already"):
        baths.done(bath.id)


def test_a_guided_run_from_verdict_to_bath(opened: Opened, clocks: Clocks) -> None:
    ledger, _ = opened
    library = Library()
    facts = library.treatments
    answers = {
        "gum": "used",
        "attachment": "loose",
        "paper": "white",
        "cancel": "black",
        "writing": "none",
    }
    answers |= {"repair": "none", "certificate": "no", "sulphided_lead_ink": "yes"}
    subject = Subject(("penny_black_1840",), answers={key: (value,) for key, value in answers.items()})
    plan = Plan("peroxide_brush", read_label("3 % w/v").readings(facts.scale), 30)
    verdict = may_i_treat(subject, plan, library.stamps, facts, today=NOON.date())
    guided = guide(verdict, 30, facts)
    # cool_2002: three changes of clean water, 120 s each
    assert [stage.seconds for stage in guided.stages] == [30, 120, 120, 120, 86400]
    wanted = {"eyes", "window", "waters", "trial", "photographed"}
    assert wanted <= {check.id for check in guided.checks}
    baths = open_baths(ledger, facts, lambda: clocks.ticks)
    treatable = Treatable("1d black KC", subject)
    with pytest.raises(UserError, match="not ticked"):
        baths.start(bath_plan(guided, treatable, facts, ticked=()))
    ticked = [check.id for check in guided.checks]
    bath = baths.start(bath_plan(guided, treatable, facts, ticked=ticked, strength="3 % w/v"))
    assert (bath.of, bath.now.works, len(bath.stages)) == ("1d black KC", True, 5)


def test_what_may_not_be_done_is_not_guided() -> None:
    library = Library()
    plan = Plan("soak_float")
    never = may_i_treat(
        Subject(("qv_9d_1883",)), plan, library.stamps, library.treatments, today=NOON.date()
    )
    with pytest.raises(UserError, match="never"):
        guide(never, 30, library.treatments)


@given(
    st.floats(0, 1e5),
    st.lists(st.tuples(st.floats(-1e5, 1e5), st.floats(0, 1e4)), max_size=8),
)
def test_no_pair_of_clocks_ever_takes_time_back(
    counted: float, moves: list[tuple[float, float]]
) -> None:
    anchor = Anchor(counted, NOON, 50.0)
    wall, ticks = NOON, 50.0
    for by_wall, by_ticks in moves:
        wall, ticks = wall + timedelta(seconds=by_wall), ticks + by_ticks
        run = seconds_run(anchor, wall, ticks)
        assert run >= counted + (ticks - 50.0) - 1e-6
        assert run >= counted


@given(st.integers(0, 10_000), st.integers(-100_000, 100_000))
def test_a_bath_taken_up_again_is_never_shorter(counted: int, gap: int) -> None:
    noted = NOON.isoformat()
    bath = Bath("B-1", "", "soak_float", noted, stages=STAGES, counted=counted, noted=noted)
    anchor, back = taken_up(bath, NOON + timedelta(seconds=gap), 0.0)
    assert anchor.counted == counted + max(0, gap)
    assert back is (gap < -2)
    shown = countdown(bath, anchor.counted, doubtful=back)
    assert shown.elapsed >= counted
    assert shown.remaining == 0 or shown.remaining + shown.elapsed == 30


_CHILD = """
    import sys, time
    from datetime import datetime
    from pathlib import Path
    from counter.trade.treatment_log import BathPlan, Baths
    from counter.store.ledger import Ledger
    from counter.store.records.bath import BathStage

    ledger = Ledger.open(Path(sys.argv[1]), clock=lambda: datetime.now().astimezone())
    baths = Baths(ledger, monotonic=time.monotonic, wet=set())
    stages = (BathStage("Dip", 30, works=True), BathStage("Dry", 60, last=True))
    bath = baths.start(BathPlan("peroxide_immersion", "Dip", stages))
    print(bath.started, flush=True)
    time.sleep(60)
"""


def test_killed_in_the_middle_of_a_bath(tmp_path: Path) -> None:
    child = subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(_CHILD), str(tmp_path)],
        stdout=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).resolve().parents[2],
    )
    try:
        assert child.stdout is not None
        started = datetime.fromisoformat(child.stdout.readline().strip())
    finally:
        child.kill()  # SIGKILL: no chance to say goodbye
        child.wait()
    later: Callable[[], datetime] = lambda: started + timedelta(seconds=75)  # noqa: E731
    ledger = Ledger.open(tmp_path, clock=later)
    (now,) = Baths(ledger, monotonic=time.monotonic, wet=set()).running()
    assert (now.state, now.overdue) == ("danger", 45)
    assert now.words == "Out and rinse now: 0:45 over"
