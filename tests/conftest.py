"""What all tests share: the same examples on every run, and a demo planted once.

Property tests draw the same examples on every run, so that a red run is a real change.
HYPOTHESIS_PROFILE=search draws fresh and many more; what it finds becomes an exact test.
"""

import gc
import os
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

import seed_demo.plant as demo
from counter.describe.names import issue_names
from counter.reference.library import Library
from counter.search import index_file
from counter.search.index import StockIndex
from counter.store.ledger import Ledger

settings.register_profile(
    "steady",
    derandomize=True,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
settings.register_profile("search", deadline=None, max_examples=2_000, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))
# What is loaded stays: the collector need not walk the whole reference again and again.
gc.set_threshold(50_000, 50, 1_000)


def keep_index(folder: Path) -> None:
    """Keep the demo's index in its file, as a larger stock's is: no copy is indexed anew."""
    ledger = Ledger.open(folder, clock=lambda: datetime(2026, 5, 2, tzinfo=UTC))
    index = StockIndex(issue_names(Library().stamps))
    for _ in index_file.fill(index, ledger):
        pass
    worth, index_file._WORTH_KEEPING = index_file._WORTH_KEEPING, 0
    try:
        assert index_file.keep(index, ledger)
    finally:
        index_file._WORTH_KEEPING = worth
        ledger.close()


@pytest.fixture(scope="session", autouse=True)
def planted_once(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Every demo is a copy of one that was planted through the real ledger."""
    planted, plant = tmp_path_factory.mktemp("demo") / "planted", demo.plant

    def copy(folder: Path) -> None:
        if not planted.exists():
            plant(planted)
            keep_index(planted)
        shutil.copytree(planted, folder, dirs_exist_ok=True)

    demo.plant = copy
    yield
    demo.plant = plant
