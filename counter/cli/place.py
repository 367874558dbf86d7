"""Where a command finds the data folder, and the ledger opened and closed around it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from counter.cli.call import Call
from counter.desk.data_dir import local_time, own_folder
from counter.store.ledger import Ledger


def data_folder(call: Call) -> Path:
    """The chosen data folder, the platform's own place, or the demo's, which goes afterwards."""
    return call.desk.ledger.folder if call.demo else call.folder or own_folder()


@contextmanager
def open_ledger(call: Call) -> Iterator[Ledger]:
    """The ledger of the data folder, closed again whatever happens. Raises UserError."""
    folder = data_folder(call)
    if call.demo:
        yield call.desk.ledger
        return
    ledger = Ledger.open(folder, clock=local_time)
    try:
        yield ledger
    finally:
        ledger.close()
        call.told += ledger.told
