"""What the price judge claims against what comes true: drift, mixing, small samples.

Each row makes stocks of invented sales whose true level is known, asks the judge for a suggestion and
a range, and draws one more sale of today. Printed: how often a figure was given, how far its middle
lay from the truth, how often a range claimed something, what it claimed and how often the next sale
lay in it. Run from the project's root:

    .venv/bin/python -m tests.benchmarks.price_coverage [trials]
"""

from __future__ import annotations

import math
import random
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from statistics import median

from msgspec.structs import replace

from counter.judge.price.comparables import Evidence
from counter.judge.price.suggest import suggest
from counter.judge.price.suggestion import Suggestion
from counter.values.item import Item
from tests.money.stocks import TODAY, market

SPREAD = 0.25  # of the logarithm: a quarter up or down is an ordinary haggle
LEVEL = 10_000
STAMP = Item(
    "A1", issue="penny_red_four_letters", denomination="1d", plate="120", gum="used", cancel="cds"
)


@dataclass(frozen=True)
class Row:
    """One kind of stock: so many sales over so many years, drifting so much a year."""

    name: str
    count: int
    years: float
    drift: float = 0.0
    others: float = 0.0  # the part of the sales that are of another plate
    other_level: float = 1.0
    freaks: float = 0.0  # the part that is three times as widely spread


def rows() -> Iterator[Row]:
    """Every row of the table."""
    for count in (3, 8, 10, 20, 40):
        yield Row("alike, one year", count, 1)
    for yearly in (-0.05, 0.05, 0.10):
        for count, years in ((8, 2), (10, 10), (20, 5)):
            yield Row(f"drift {yearly:+.0%} a year", count, years, yearly)
    for count in (6, 20, 40):
        yield Row("80 % other plates, half the level", count, 3, others=0.8, other_level=0.5)
    yield Row("half other plates, same level", 20, 3, others=0.5)
    yield Row("half other plates, ten times the level", 20, 3, others=0.5, other_level=10)
    yield Row("one in ten widely spread", 20, 3, freaks=0.1)


def made(row: Row, rng: random.Random) -> tuple[Suggestion, float]:
    """The suggestion from one stock of a row, and one more sale of today."""
    sales = []
    for number in range(row.count):
        age = rng.uniform(0, row.years)
        other = rng.random() < row.others
        level = LEVEL * (row.other_level if other else 1) * math.exp(-row.drift * age)
        price = max(round(level * math.exp(_noise(row, rng))), 1)
        plate = rng.choice(("101", "134", "150", "171")) if other else STAMP.plate
        item = replace(STAMP, number=f"S{number}", plate=plate)
        day = (TODAY - timedelta(days=round(age * 365.25))).isoformat()
        sales.append(Evidence(item.number, item, price, day))
    found = suggest(market().thing(STAMP), sales, market(), TODAY.isoformat())
    return found, LEVEL * math.exp(_noise(row, rng))


def _noise(row: Row, rng: random.Random) -> float:
    return rng.gauss(0, SPREAD * (3 if rng.random() < row.freaks else 1))


def measured(row: Row, trials: int) -> str:
    """One line of the table."""
    rng = random.Random(f"{row}")
    given = claims = hits = 0
    claimed = 0.0
    off = []
    for _ in range(trials):
        found, following = made(row, rng)
        if found.price is None or found.low is None or found.high is None:
            continue
        given += 1
        off.append(found.price / LEVEL - 1)
        if found.claim is not None:
            claims += 1
            claimed += float(found.claim)
            hits += found.low <= following <= found.high
    middle = f"{median(off):+.0%}" if off else "–"
    share = f"{claimed / claims:.0%} | {hits / claims:.1%}" if claims > trials / 20 else "no claim | –"
    return (
        f"| {row.name} | {row.count} | {row.years:g} | {given / trials:.0%} | {middle} | "
        f"{claims / trials:.0%} | {share} |"
    )


def parted_wrongly(trials: int, count: int, groups: int) -> float:
    """Of like groups, the part that is parted by own sales all the same (per group, in per cent)."""
    rng = random.Random(f"{count} {groups}")
    plates = ("120", *("101", "134", "150", "171", "98", "88")[: groups - 1])
    parted = looked = 0
    for _ in range(trials):
        sales = []
        for number in range(count * groups):
            plate = plates[number % groups]
            item = replace(STAMP, number=f"S{number}", plate=plate)
            price = round(LEVEL * math.exp(rng.gauss(0, SPREAD)))
            sales.append(Evidence(item.number, item, price, TODAY.isoformat()))
        subject = replace(STAMP, plate="174")
        found = suggest(market().thing(subject), sales, market(), TODAY.isoformat())
        gone = {e.evidence.item.plate for e in found.others if "another market" in e.differences[0]}
        parted += len(gone)
        looked += groups
    return 100 * parted / looked


def main(words: list[str], out: Callable[[str], None] = print) -> None:
    """Print the tables."""
    trials = int(words[0]) if words else 1000
    out(f"{trials} stocks a row, one sale's spread {SPREAD:.0%}, seeds fixed by the row.")
    out("| stock | sales | years | figure given | middle off | claims | claimed | came true |")
    out("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |")
    for row in rows():
        out(measured(row, trials))
    out("")
    for count, groups in ((2, 5), (3, 2), (3, 5), (6, 4)):
        wrong = parted_wrongly(trials, count, groups)
        out(f"{groups} like plates of {count} sales each: {wrong:.1f} % of them parted wrongly.")


if __name__ == "__main__":
    main(sys.argv[1:])
