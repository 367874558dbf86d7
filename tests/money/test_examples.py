"""Every published worked example of the money facts, worked again by the program's own sums.

Each example names its source in data/money/examples.toml (tax authorities, accountants); the figures
printed there are the outside reference. Examples marked `do_not_imitate` are traps: what they print
must not come out.
"""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from counter.reference.money import read_money_facts
from counter.reference.money_records import Example
from counter.values.days import filing_deadline, years_later
from counter.values.money import half_up, percent_of, share
from counter.values.vat import (
    global_period,
    least_price,
    on_full_price,
    on_margin,
    vat_within,
)

FACTS = read_money_facts()
Worked = dict[str, Any]


def minor(text: str) -> int:
    return int(Decimal(text) * 100)


def figures(example: Example) -> dict[str, int]:
    return {name: minor(value) for name, value in example.inputs.items() if isinstance(value, str)}


def margin_sums(example: Example) -> Worked:
    given, part = figures(example), Fraction(example.fraction)
    if "margin" in given:
        vat = vat_within(given["margin"], part)
        return {"vat": vat, "base": given["margin"] - vat}
    made = on_margin(given["purchase"], given["sale"], part)
    out: Worked = {"margin": made.margin, "vat": made.vat, "left_for_dealer": made.net}
    out |= {"margin_excl_vat": made.net, "sale_less_vat": given["sale"] - made.vat}
    if "commission_excl" in given:
        commission = percent_of(given["commission_excl"], 20)
        out |= {"commission_vat": commission, "commission_incl": given["commission_excl"] + commission}
        out["total_vat"] = made.vat + commission
    return out


def auction_sums(example: Example) -> Worked:
    hammer = minor(example.inputs["hammer"])
    commission = percent_of(hammer, Decimal(example.inputs["commission_percent_incl"]))
    premium = percent_of(hammer, Decimal(example.inputs["premium_percent_incl"]))
    made = on_margin(hammer - commission, hammer + premium, Fraction(example.fraction))
    out = {"commission": commission, "premium": premium, "purchase": hammer - commission}
    return out | {"sale": hammer + premium, "margin": made.margin, "vat": made.vat}


def global_sums(example: Example) -> Worked:
    given = figures(example)
    if "margin" in given:
        period = global_period(0, given["margin"], given["brought_forward"], Fraction(0))
    else:
        part = Fraction(example.fraction)
        period = global_period(given["purchases"], given["sales"], given["brought_forward"], part)
    out = {"period_margin": period.margin, "balance": period.balance, "vat": period.vat}
    return out | {
        "carried_forward": period.carried_forward,
        "margin_excl_vat": period.balance - period.vat,
    }


def ordinary_sums(example: Example) -> Worked:
    given, part = figures(example), Fraction(example.fraction)
    full = on_full_price(given["purchase"], given["sale"], part)
    left = full.net + given["input_vat"]
    scheme = on_margin(given["purchase"], given["sale"], part)
    out = {"output_vat": full.vat, "vat_to_pay": full.vat - given["input_vat"]}
    return out | {"left_for_dealer": left, "difference_to_margin_scheme": scheme.net - left}


def exchange_sums(example: Example) -> Worked:
    given, part = figures(example), Fraction(example.fraction)
    if "goods_value" in given:
        value = given["cash"] + given["goods_value"]
        return {"selling_value": value, "vat_on_full": vat_within(value, part)}
    new = vat_within(given["new_price"], part)
    taken_in = on_margin(given["allowance"], given["resale_of_trade_in"], part)
    out = {"vat_on_new": new, "trade_in_margin": taken_in.margin, "vat_on_trade_in": taken_in.vat}
    return out | {"total_vat": new + taken_in.vat, "cash_due": given["new_price"] - given["allowance"]}


def exchange_value(example: Example) -> Worked:
    given = figures(example)
    off = percent_of(given["price"], Decimal(example.inputs["customer_discount_percent"]))
    return {"selling_value": given["price"] - off}


def apportion(example: Example) -> Worked:
    weights = [minor(each) for each in example.inputs["weights"]]
    return {"shares": list(share(minor(example.inputs["total"]), weights))}


def least(example: Example) -> Worked:
    given, part = figures(example), Fraction(example.fraction)
    price = least_price(given["cost"], given["target_net_profit"], part)
    return {"price": price, "vat": on_margin(given["cost"], price, part).vat}


def bulk(example: Example) -> Worked:
    limit = minor(example.inputs["limit"])
    shares = [minor(each) for each in example.inputs["shares"]]
    *pieces, rest = shares  # the last is many small pieces together
    excluded = sum(piece for piece in pieces if piece > limit)
    assert rest + excluded == minor(example.inputs["lot"])
    return {"excluded": excluded, "pooled": minor(example.inputs["lot"]) - excluded}


def retention(example: Example) -> Worked:
    deadline = filing_deadline(example.inputs["tax_year_end"])
    return {"filing_deadline": deadline, "keep_until": years_later(deadline, 5)}


def qualifying(example: Example) -> Worked:
    given = figures(example)
    total = given["trading"] + given["property"]
    limit = FACTS.thresholds[example.rule]
    assert limit.test == "over" and limit.amount == given["threshold"]
    return {"qualifying": total, "in_scope": total > limit.amount}


def import_vat(example: Example) -> Worked:
    # Rule "import-effective-5": 25 % of the value, taxed at 20 %.
    value = minor(example.inputs["import_value"])
    return {"import_vat": half_up(value * Fraction(25, 100) * Fraction(20, 100))}


BY_RULE: dict[str, Callable[[Example], Worked]] = {
    "margin-vat": margin_sums,
    "margin-zero-or-loss": margin_sums,
    "margin-not-exclusive": margin_sums,
    "auction-purchase": auction_sums,
    "auction-sale-consigned": auction_sums,
    "export-zero": auction_sums,
    "ga-formula": global_sums,
    "onus-on-dealer": ordinary_sums,
    "part-exchange-two-deals": exchange_sums,
    "part-exchange-same-customer-price": exchange_value,
    "lot-method-selling-price": apportion,
    "min-price": least,
    "ga-bulk": bulk,
    "self-assessment": retention,
    "mtd-income-tax-2026": qualifying,
    "import-effective-5": import_vat,
}


def as_printed(value: Any, example: Example) -> Any:
    """Our figure in the words of the source: whole euros where it prints whole euros."""
    if isinstance(value, list):
        return [as_printed(each, example) for each in value]
    if isinstance(value, bool) or not isinstance(value, int):
        return value
    if example.rounding == "nearest whole euro":
        return half_up(Fraction(value, 100)) * 100
    return value


def test_all_published_examples_are_here() -> None:
    assert len(FACTS.examples) == 39
    assert {example.rule for example in FACTS.examples.values()} == BY_RULE.keys()


@pytest.mark.parametrize("example", FACTS.examples.values(), ids=lambda each: each.id)
def test_example(example: Example) -> None:
    worked = BY_RULE[example.rule](example)
    for name, printed in example.outputs.items():
        if isinstance(printed, list):
            expected: Any = [minor(each) for each in printed]
        elif isinstance(printed, bool) or "-" in printed[1:]:
            expected = printed  # a yes or no, or a date
        else:
            expected = minor(printed)
        assert as_printed(worked[name], example) == expected, (name, example.source)


def test_the_published_slip_does_not_come_out() -> None:
    # cy-adviser prints 200 x 22 % = 44.00: the margin taken as VAT-exclusive.
    trap = FACTS.examples["cy-italy-slip"]
    assert trap.do_not_imitate and "44.00" in trap.note
    assert margin_sums(trap)["vat"] == 3607 != 4400


def test_the_saving_by_an_honest_allowance_is_as_printed() -> None:
    # uk-professional-px prints 166.67 between the two ways of writing the same deal.
    inflated, honest = FACTS.examples["px-inflated"], FACTS.examples["px-discounted"]
    assert exchange_sums(inflated)["total_vat"] - exchange_sums(honest)["total_vat"] == 16667
