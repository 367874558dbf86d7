"""The four errands stay within their keys and their keystroke-level time (see errands.py)."""

import asyncio

from tests.tui.errands import table, walk_all


def test_the_four_errands_are_few_keys() -> None:
    walked = asyncio.run(walk_all())
    print(table(walked))
    for errand, keys, seconds in walked:
        assert keys <= errand.most_keys, errand.name
        if errand.most_seconds is not None:
            assert seconds <= errand.most_seconds + 1e-9, errand.name
