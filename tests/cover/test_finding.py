"""How checks make a finding: what more evidence may and may not do to it; the chart."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from counter.judge.cover.check import check_cover
from counter.judge.cover.cover_chart import draw
from counter.judge.cover.cover_facts import CoverSeen, StampDates
from counter.judge.cover.dated_facts import DatedFact
from counter.judge.cover.finding import FINDINGS, find
from counter.judge.cover.result import STRENGTHS, CheckResult
from counter.judge.cover.timeline import timeline
from counter.reference.postal import read_postal
from counter.values.dates import on_day, read_date
from counter.values.postage import read_postage

POSTAL = read_postal()
CHECKS = POSTAL.checks
OTHER = sorted(name for name in CHECKS if name != "certificate")


def result(name: str, speaks: str, strength: str) -> CheckResult:
    return CheckResult(name, speaks, strength, "said", "memory", "low")  # type: ignore[arg-type]


SPEAKING = st.builds(
    result,
    st.sampled_from(OTHER),
    st.sampled_from(["for", "against"]),
    st.sampled_from(["weak", "moderate", "strong"]),
)
ANY = st.lists(
    SPEAKING | st.builds(lambda name: result(name, "neutral", "none"), st.sampled_from(OTHER))
)
BELONGING = [name for name in OTHER if CHECKS[name].bears_on == "belonging"]


@given(ANY, st.sampled_from(BELONGING), st.booleans())
def test_a_strong_contradiction_never_improves_the_finding(
    results: list[CheckResult], name: str, certified: bool
) -> None:
    if certified:
        results = [*results, result("certificate", "for", "strong")]
    before = FINDINGS.index(find(results, CHECKS))
    after = FINDINGS.index(find([*results, result(name, "against", "strong")], CHECKS))
    assert after >= before
    assert after >= FINDINGS.index("caution" if certified else "contradicts")


@given(
    ANY,
    st.lists(st.builds(result, st.sampled_from(OTHER), st.just("for"), st.just("weak")), max_size=40),
)
def test_weak_support_never_cancels_what_speaks_against(
    results: list[CheckResult], support: list[CheckResult]
) -> None:
    before = find(results, CHECKS)
    after = find([*results, *support], CHECKS)
    if before in ("caution", "contradicts"):
        assert after == before


@given(ANY)
def test_order_does_not_matter(results: list[CheckResult]) -> None:
    assert find(results, CHECKS) == find(results[::-1], CHECKS)


def test_several_weak_ones_never_make_a_strong_one() -> None:
    weak = [result(name, "against", "weak") for name in OTHER]
    assert find(weak, CHECKS) == "undecided"
    assert find([*weak, result("tie", "for", "strong")], CHECKS) == "consistent"


STAMP = StampDates(
    "a_stamp",
    "a stamp",
    DatedFact(read_date("1841-02-10"), "gbimperf", "high"),
    None,
    DatedFact(read_date("1854-01-28"), "hendy1909", "medium"),
)
ANSWERS = {
    name: [each.value for each in check.answers] for name, check in CHECKS.items() if check.answers
}
SEEN = st.builds(
    CoverSeen,
    stamps=st.sampled_from([(), (STAMP,)]),
    value=st.sampled_from([None, read_postage("1d"), read_postage("2s6d"), read_postage("3p")]),
    when=st.none() | st.dates(date(1835, 1, 1), date(1980, 12, 31)).map(on_day),
    arrivals=st.lists(st.dates(date(1840, 1, 1), date(1980, 1, 1)).map(on_day), max_size=2).map(tuple),
    backstamp=st.sampled_from(["", "none", "present"]),
    cancel=st.sampled_from(["", "none", *sorted({each.family for each in POSTAL.cancels.values()})]),
    cancel_type=st.sampled_from(["", *POSTAL.cancels]),
    cancel_colour=st.sampled_from(["", "red", "black", "brown", "violet"]),
    cancel_number=st.sampled_from(["", "3", "46", "A25"]),
    town=st.sampled_from(["", "Leeds", "Perth", "London"]),
    region=st.sampled_from(["", "london", "england_wales", "scotland", "ireland", "abroad"]),
    to_abroad=st.sampled_from(["", "France", "Atlantis"]),
    tied=st.sampled_from(["", "tied", "not_tied"]),
    franking=st.sampled_from([None, read_postage("1d"), read_postage("3d"), read_postage("4p")]),
    marks=st.lists(
        st.sampled_from(["paid", "paid_1", "unpaid_2", "registered", "late_fee", "free", "addl_half"]),
        max_size=3,
    ).map(tuple),
    multiple=st.sampled_from(["single", "pair", "strip_3", "block_4", "irregular_5"]),
    letters=st.lists(st.sampled_from(["AA", "AB", "BA", "BB", "TL"]), max_size=4).map(tuple),
    faults=st.lists(st.sampled_from(list(POSTAL.faults)), max_size=2).map(tuple),
    attachment=st.sampled_from(["", "cover", "front", "piece", "entire", "loose"]),
    answers=st.dictionaries(st.sampled_from(sorted(ANSWERS)), st.just("?"), max_size=3).flatmap(
        lambda picked: st.fixed_dictionaries({name: st.sampled_from(ANSWERS[name]) for name in picked})
    ),
)


@given(SEEN)
def test_any_cover_is_answered_within_what_its_checks_allow(seen: CoverSeen) -> None:
    found = check_cover(POSTAL, seen)
    assert {each.id for each in found.results} == CHECKS.keys()
    for each in found.results:
        check = CHECKS[each.id]
        limit = {"for": check.w_for, "against": check.w_against}.get(each.speaks, "none")
        assert STRENGTHS.index(each.strength) <= STRENGTHS.index(limit)
        assert each.speaks == "neutral" or each.strength != "none", each
        if each.source == "memory" and each.speaks == "against":
            assert each.strength != "strong"
    assert all(
        each.strength == "weak"
        for each in found.results
        if each.id == "tie" and each.speaks == "against"
    )
    strong = [each for each in found.results if each.speaks == "against" and each.strength == "strong"]
    if strong and seen.answers.get("certificate") != "genuine":
        assert found.finding == "contradicts"


@given(SEEN, st.integers(20, 200))
def test_the_chart_fits_its_width(seen: CoverSeen, width: int) -> None:
    chart = timeline(POSTAL, seen)
    if chart is None:
        return
    rows = draw(chart, width)
    assert all(len(row) <= max(width, 26) for row in rows)
    clash = [bar for bar in chart.bars if not bar.holds(chart.when)]
    assert bool(clash) == any("╳" in row for row in rows)


def test_a_clash_is_seen_at_a_glance() -> None:
    seen = CoverSeen(
        stamps=(STAMP,), when=read_date("1842-03-12"), cancel="numeral", region="england_wales"
    )
    chart = timeline(POSTAL, seen)
    assert chart is not None
    rows = draw(chart, 78)
    assert [row[:14].strip() for row in rows] == [
        "",
        "a stamp",
        "barred numeral",
        "rate",
        "this cover",
        "╳ the date lie",
    ]
    column = rows[1].index("│")
    assert rows[2][column] == "╳" and rows[3][column] == "│"
    assert "12 March 1842" in rows[4]
    assert rows[5].endswith("barred numeral")


def test_nothing_dated_draws_no_chart() -> None:
    assert timeline(POSTAL, CoverSeen()) is None
