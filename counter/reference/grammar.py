"""How words are taken: what each way costs, what a denial makes, what runs on, what decides.

Read from data/vocabulary/costs.toml, grammar.toml and common_words.toml; each cost carries its reason.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from counter.reference.loader import DataFault, Tables, build


@dataclass(frozen=True, slots=True)
class Cost:
    """What a way of taking words (`of`) costs in a circumstance (`when`, "" for always), and why."""

    of: str
    when: str
    cost: float
    why: str


@dataclass(frozen=True, eq=False)
class Grammar:
    """The costs and the rules of denial, choice and doubt.

    `becomes`: what a denied (kind, value) is instead, as (kind, value, words). `lists`: kinds that may
    be there several times. `alternatives`: kinds of which two values make one observation. `deciding`:
    kinds that are only perhaps so beside an unread word; `mended`: those that are when mended.
    `english`: plain words by how common they are, 0 the commonest.
    """

    costs: Mapping[tuple[str, str], float]
    near: float
    becomes: Mapping[tuple[str, str], tuple[str, str, str]]
    lists: frozenset[str]
    alternatives: frozenset[str]
    deciding: frozenset[str]
    mended: frozenset[str]
    lettered: frozenset[str]
    unlettered: frozenset[str]
    english: Mapping[str, int]
    _sums: dict[tuple[str, ...], float] = field(default_factory=dict, repr=False)

    def cost(self, of: str, *when: str) -> float:
        """What a way costs in these circumstances; raises KeyError for one that is not listed."""
        known = self._sums.get((of, *when))
        if known is None:
            known = self.costs[of, ""] + sum(self.costs[of, each] for each in when)
            self._sums[(of, *when)] = known
        return known


def read_grammar(tables: Tables) -> Grammar:
    """The grammar among the tables of the vocabulary; raises DataFault."""
    rows = [build(Cost, row, f"costs.toml {row.get('of')}") for row in tables["costs"]["cost"]]
    costs = {(row.of, row.when): row.cost for row in rows}
    if len(costs) < len(rows):
        raise DataFault("costs.toml: the same way and circumstance twice")
    grammar = tables["grammar"]
    words = tables["common_words"]["words"].split()
    return Grammar(
        costs=costs,
        near=tables["costs"]["near"],
        becomes={(row["kind"], row["value"]): tuple(row["is"]) for row in grammar["becomes"]},
        lists=frozenset(grammar["lists"]["kinds"]),
        alternatives=frozenset(grammar["alternatives"]["kinds"]),
        deciding=frozenset(grammar["deciding"]["kinds"]),
        mended=frozenset(grammar["deciding"]["mended"]),
        lettered=frozenset(grammar["lettered"]["values"]),
        unlettered=frozenset(grammar["lettered"]["never"]),
        english={word: place for place, word in enumerate(words)},
    )
