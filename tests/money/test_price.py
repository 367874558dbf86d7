"""Pricing from comparables: what counts, how much, when nothing is said, and the house schedule."""

from dataclasses import replace as changed
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from counter.desk.trade.pricing import market_of
from counter.judge.price.comparables import Evidence
from counter.judge.price.offer import offer
from counter.judge.price.price_points import easy_price
from counter.judge.price.schedule import Schedule
from counter.judge.price.suggest import suggest
from counter.judge.price.suggestion import Suggestion
from counter.judge.price.things import wear_of
from counter.reference.money import read_money_facts
from counter.reference.postal import read_postal
from counter.values.item import CoverFacts, Fault, Item, TreatmentDone
from tests.money.stocks import LIBRARY

FACTS = read_money_facts()
SCHEDULE = Schedule(FACTS.schedule)
TODAY = "2026-11-25"
PLAIN = Item(
    "A1",
    issue="two_pence_1841_white_lines",
    denomination="2d",
    plate="3",
    margins=("4",),
    cancel="maltese_cross",
)


def sold(pence: int, day: str = TODAY, **how: object) -> Evidence:
    item = replace(PLAIN, number=f"S{pence}{day}", **how)  # type: ignore[arg-type]
    return Evidence(item.number, item, pence, day)


def priced(
    evidence: list[Evidence], subject: Item = PLAIN, schedule: Schedule = SCHEDULE
) -> Suggestion:
    market = market_of(LIBRARY, schedule, 36)
    return suggest(market.thing(subject), evidence, market, TODAY)


def test_three_sales_of_the_same_thing_give_their_median() -> None:
    made = priced([sold(4000), sold(4500), sold(6000)])
    assert (made.price, made.low, made.high) == (4500, 4000, 6000)
    assert (made.count, made.effective, made.flagged) == (3, 3, 0)
    assert (made.holds, made.of, made.claim) == (3, 3, None)
    assert any("is not known" in caution for caution in made.judgement.cautions)


@pytest.mark.parametrize("count", [0, 1, 2])
def test_fewer_than_three_are_listed_and_nothing_is_suggested(count: int) -> None:
    # Method "report-rule" (common practice).
    made = priced([sold(4000 + each) for each in range(count)])
    assert (made.price, made.marked, made.low, made.high) == (None, None, None, None)
    assert len(made.comparables) == count and "three alike decide" in made.judgement.verdict


def test_a_piece_not_identified_is_not_priced() -> None:
    made = priced([sold(4000)] * 4, replace(PLAIN, issue=""))
    assert made.price is None and made.judgement.asks == ("Which issue?",)


@pytest.mark.parametrize(
    "change",
    [
        {"issue": "penny_black_1840"},
        {"denomination": "1d"},
        {"attachment": "cover"},
        {"cancel": "", "gum": "unused_og"},
        {"multiple": "pair"},
    ],
)
def test_another_thing_is_no_comparable(change: dict[str, object]) -> None:
    assert priced([sold(4000, **change), sold(4100, **change), sold(4200, **change)]).count == 0 or (
        change == {"multiple": "pair"}
    )


def test_an_older_sale_and_another_plate_count_less() -> None:
    made = priced([sold(4000), sold(5000, "2023-11-25"), sold(6000, plate="4"), sold(7000, plate="")])
    assert made.days == ("2023-11-25", TODAY)
    weight = {each.evidence.price: float(each.weight) for each in made.comparables}
    assert weight[4000] == 1
    assert abs(weight[5000] - 0.5) < 0.001  # 36 months is one half-life
    assert weight[6000] == 0.25 and weight[7000] == 0.6
    # The lesser of (1 + 0.5 + 0.25 + 0.6)^2 / (1 + 0.25 + 0.0625 + 0.36) = 3.30 and the sum, 2.35.
    assert abs(float(made.effective) - 2.35) < 0.001


def test_a_treated_piece_is_less_like_an_untouched_one() -> None:
    treated = (TreatmentDone("2025-01-01", "peroxide_bath"),)
    made = priced([sold(4000), sold(5000), sold(6000, treatments=treated)])
    least = made.comparables[-1]
    assert least.evidence.price == 6000 and "treated" in least.differences


def test_prices_are_carried_over_to_the_subjects_condition() -> None:
    # As method "condition-normalise": price / factor of the comparable x factor of the subject.
    thin = replace(PLAIN, faults=(Fault("thin"),))
    made = priced([sold(4000), sold(5000), sold(6000)], thin)
    assert made.price == 2000  # thin starts at 0.4
    assert [step.id for step in made.condition.steps] == ["margin-four", "fault-thin"]
    back = priced([sold(2000, faults=(Fault("thin"),))] * 3)
    assert back.price == 5000


def test_tear_and_crease_together_are_one_accident() -> None:
    both = replace(PLAIN, faults=(Fault("crease"), Fault("tear", "at foot")))
    condition = SCHEDULE.condition(wear_of(both))
    assert condition.factor == Fraction("0.35")  # not 0.4 x 0.6 = 0.24
    more = replace(both, faults=(*both.faults, Fault("thin")))
    assert SCHEDULE.condition(wear_of(more)).factor == Fraction("0.35") * Fraction(4, 10)


def test_the_dealers_own_factor_replaces_the_starting_one() -> None:
    own = Schedule(FACTS.schedule, {"fault-thin": Decimal("0.25")})
    condition = own.condition(wear_of(replace(PLAIN, faults=(Fault("thin"),))))
    assert condition.factor == Fraction(1, 4)
    assert condition.steps[-1].source == "own schedule"


def test_many_faults_stop_at_the_space_filler_but_a_forgery_does_not() -> None:
    worst = tuple(Fault(term) for term in ("thin", "pinhole", "repaired", "cleaned", "trimmed"))
    assert SCHEDULE.condition(wear_of(replace(PLAIN, faults=worst))).factor == Fraction(3, 100)
    forged = replace(PLAIN, faults=(Fault("forgery"),))
    assert SCHEDULE.condition(wear_of(forged)).factor == Fraction(1, 100)


def test_a_fault_without_a_factor_is_said_and_not_guessed() -> None:
    odd = replace(PLAIN, faults=(Fault("gnawed_by_mice"),))
    made = priced([sold(4000), sold(5000), sold(6000)], odd)
    assert made.price == 5000
    assert any("gnawed by mice" in caution for caution in made.judgement.cautions)


def test_the_worst_margin_of_a_strip_drags_the_whole() -> None:
    strip = replace(PLAIN, multiple="strip_3", margins=("4", "three", "4"))
    assert SCHEDULE.condition(wear_of(strip)).factor == Fraction("0.45")


def test_every_schedule_fault_and_margin_is_a_term_of_the_reference() -> None:
    postal = read_postal()
    lines = FACTS.schedule.values()
    faults = {term for line in lines if line.what == "fault" for term in line.terms}
    margins = {term for line in lines if line.what == "margin" for term in line.terms}
    assert faults == postal.faults.keys()
    assert margins <= postal.margins.keys() | set("43210")
    for line in lines:
        assert line.low <= line.factor <= line.high, line.id


def test_a_strip_is_priced_from_singles_only_with_the_basis_said() -> None:
    strip = replace(PLAIN, multiple="strip_3")
    made = priced([sold(4000), sold(5000), sold(6000)], strip)
    assert made.price == 22500  # 4.5 singles, house schedule
    assert "strip of 3 at 4.5 singles" in made.basis and made.basis in made.judgement.reasons[0].text
    back = priced([sold(22500, multiple="strip_3")] * 3)
    assert back.price == 5000 and "multiples" in back.basis
    odd = priced([sold(4000)] * 3, replace(PLAIN, multiple="irregular_5"))
    assert odd.price is None  # no factor, nothing said


def test_a_freak_price_is_flagged_and_never_dropped() -> None:
    made = priced([sold(each) for each in (4000, 4200, 4400, 4600, 4800, 90000)])
    assert [each.evidence.price for each in made.comparables if each.flagged] == [90000]
    assert made.count == 6 and made.flagged == 1
    assert made.price is not None and 4200 <= made.price <= 4600
    same = priced([sold(5000, f"2026-0{month}-01") for month in range(1, 7)] + [sold(90000)])
    assert [each.evidence.price for each in same.comparables if each.flagged] == [90000]


def test_asking_prices_count_below_sold_ones() -> None:
    def asked(pence: int) -> Evidence:
        return changed(sold(pence), kind="asking")

    alone = priced([asked(pence) for pence in (4000, 5000, 6000, 5500)])
    assert alone.price is None and "Only asking prices" in alone.judgement.verdict
    beside = priced([sold(4000), sold(4100), asked(4600), asked(4700)])  # 2 + 2/2: three
    assert beside.price is not None and beside.claim is None
    assert sorted(each.weight for each in beside.comparables) == [Fraction(1, 2)] * 2 + [1, 1]
    enough = priced([sold(4000), sold(4100), sold(4200), *(asked(9000 + each) for each in range(9))])
    assert enough.price == 4100 and enough.count == 3  # the middle one of the three sold


def test_a_drift_moves_each_sale_to_today() -> None:
    years = [sold(3000 + 1000 * year, f"{2020 + year}-11-25") for year in range(7)]
    made = priced(years)
    assert any("Prices rose by about" in caution for caution in made.judgement.cautions)
    # By hand: £30 to £90 in six years is 20 % a year; moved to today they lie about £90.
    assert made.price is not None and 8000 <= made.price <= 10000


@given(st.lists(st.integers(1000, 1900), min_size=3, max_size=12), st.integers(2, 9))
def test_the_suggestion_lies_within_the_prices_and_scales_with_them(prices: list[int], by: int) -> None:
    made = priced([sold(pence) for pence in prices])
    scaled = priced([sold(pence * by) for pence in prices])
    assert (made.price is None) == (scaled.price is None)
    if made.price is not None and made.low is not None and made.high is not None:
        assert made.low <= made.price <= made.high
        assert min(prices) <= made.price <= max(prices)
        assert scaled.price is not None and abs(scaled.price - made.price * by) <= by


def test_the_order_of_the_evidence_does_not_matter() -> None:
    evidence = [sold(4000), sold(5000, "2024-01-01"), sold(6000, plate="4"), sold(5500, plate="")]
    assert priced(evidence).price == priced(evidence[::-1]).price


@pytest.mark.parametrize(
    ("exact", "easy"),
    [
        (0, 0),
        (12, 50),
        (774, 750),
        (775, 800),
        (4549, 4500),
        (4550, 4600),
        (12249, 12000),
        (61400, 61000),
    ],
)
def test_marked_prices_are_easy_figures(exact: int, easy: int) -> None:
    # Pricing habit "round-prices" (common practice).
    assert easy_price(exact) == easy


def test_an_offer_says_its_share_and_where_it_lies_in_the_trades_band() -> None:
    made = offer(10000, 3000, Fraction(1, 6), FACTS)
    assert (made.price, made.vat) == (6400, 600)  # margin 36.00, VAT 6.00, 30.00 left
    assert made.share == Fraction(64, 100)
    assert "within" in next(r.text for r in made.judgement.reasons if r.code == "buy-choice-single")
    assert "above" in next(r.text for r in made.judgement.reasons if r.code == "buy-general")
    assert offer(1000, 3000, Fraction(1, 6), FACTS).price is None


def test_of_very_many_the_likest_are_weighed_and_the_rest_is_left() -> None:
    near = [sold(5000 + each, "2026-10-01") for each in range(60)]
    far = [sold(90000 + each, "2016-01-01", plate="9") for each in range(500)]
    made = priced([*far, *near])
    assert made.count == 40 and "of many" in made.basis
    assert made.price is not None and 5000 <= made.price < 5060


def test_a_stamp_that_does_not_belong_is_priced_as_off_its_cover() -> None:
    """A made-up cover is a loose stamp on an old letter (common practice)."""
    made_up = CoverFacts(tied="not_tied", finding="speaks against belonging (rate)")
    good = CoverFacts(tied="tied", finding="speaks for belonging, as far as it was looked at")
    loose = [sold(1000), sold(1100), sold(1200)]
    covers = [sold(price, attachment="cover", cover=good) for price in (5000, 5100, 5200)]
    on_cover = replace(PLAIN, attachment="cover", cover=good)
    assert priced([*loose, *covers], on_cover).price == 5100
    doubtful = priced([*loose, *covers], replace(on_cover, cover=made_up))
    assert doubtful.price == 1100
    assert any("as off its cover" in caution for caution in doubtful.judgement.cautions)


def test_a_doubted_cover_says_less_about_a_good_one() -> None:
    doubt = CoverFacts(finding="something speaks against belonging; take care (date)")
    subject = replace(PLAIN, attachment="cover")
    evidence = [sold(5000, attachment="cover"), sold(4000, attachment="cover", cover=doubt)]
    first, second = priced(evidence, subject).comparables
    assert (first.evidence.price, second.evidence.price) == (5000, 4000)
    assert "its cover doubted" in second.differences
