"""`counter split`: share what was paid for a lot between its pieces, exact to the penny."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply, wrapped
from counter.values.money import pounds, read_pence, share


def arguments(parser: ArgumentParser) -> None:
    """--total paid, then the expected selling price of each piece."""
    parser.add_argument("--total", required=True, metavar="SUM", help="what the whole lot cost")
    parser.add_argument("expected", nargs="+", metavar="SUM", help="expected price of each piece")


def run(chosen: Namespace, call: Call) -> Reply:
    """Pence as integers: {total, shares, expected, basis, source}."""
    total = read_pence(chosen.total, "the total")
    expected = [read_pence(each, "an expected price") for each in chosen.expected]
    shares = share(total, expected)
    facts = call.library.money
    frozen = facts.rules["lot-freeze"]
    rule, rounding = facts.rules["lot-method-selling-price"], facts.conventions["largest-remainder"]
    basis = "in proportion to expected prices, left-over pence by largest remainder"
    lines = [
        f"{number:>3}  expected {pounds(price):>12}  share {pounds(part):>12}"
        for number, (price, part) in enumerate(zip(expected, shares, strict=True), 1)
    ]
    lines += [
        f"Total {pounds(sum(shares))}, shared {basis}.",
        *(wrapped(f"{each.text} [{each.source}]") for each in (rule, rounding, frozen)),
    ]
    data = {
        "total": total,
        "shares": list(shares),
        "expected": expected,
        "basis": basis,
        "source": rule.source,
    }
    return Reply(data, "\n".join(lines))
