"""`counter rate` against postage as published, to the farthing."""

import shlex
from argparse import ArgumentParser
from fractions import Fraction
from typing import Any

import pytest

from counter.cli import rate
from counter.cli.call import Call
from counter.reference.postal import Postal

from .rate_examples import EXAMPLES, PRINTED_IN, SHORT, UNKNOWN

_CALL = Call()


def told(words: str) -> dict[str, Any]:
    parser = ArgumentParser()
    rate.arguments(parser)
    return rate.run(parser.parse_args(shlex.split(words)), _CALL).data  # type: ignore[no-any-return]


@pytest.mark.parametrize(("words", "pence", "source"), EXAMPLES, ids=[each[0] for each in EXAMPLES])
def test_postage_as_published(words: str, pence: str, source: str) -> None:
    answer = told(words)
    assert answer["pence"] is not None, answer["text"]
    assert Fraction(answer["pence"]) == Fraction(pence), answer["text"]
    assert answer["source"] and answer["text"]


@pytest.mark.parametrize(("words", "paid", "due", "source"), SHORT)
def test_what_was_collected_on_too_little(words: str, paid: str, due: str, source: str) -> None:
    assert Fraction(told(f"{words} --paid {paid}")["to_collect"]) == Fraction(due)


@pytest.mark.parametrize(("words", "reason"), UNKNOWN)
def test_what_no_source_gives_is_not_established(words: str, reason: str) -> None:
    answer = told(words)
    assert answer["pence"] is None and not answer["established"]
    assert reason in answer["text"], answer["text"]


def test_every_source_of_the_examples_is_named(postal: Postal) -> None:
    named = {each[-1] for each in (*EXAMPLES, *SHORT)}
    assert not named - postal.sources.keys() - PRINTED_IN.keys()


def test_a_wholly_paid_item_has_nothing_to_collect() -> None:
    assert "to_collect" not in told("--date 1868-06-01 --ounces 1 --paid 2d")
