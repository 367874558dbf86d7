"""Where a command finds the data folder, and the ledger opened and closed around it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from counter.cli.call import Call
from counter.desk.place import local_time, own_folder
from counter.ledger.ledger import Ledger


def data_folder(call: Call) -> Path:
    """The chosen data folder, the demo's, or the platform's own place."""
    if call.demo:
        return call.desk.ledger.folder
    if call.folder is not None:
        return call.folder
    return own_folder()


@contextmanager
def open_ledger(call: Call) -> Iterator[Ledger]:
    """The ledger of the data folder, closed again whatever happens. Raises Trouble."""
    if call.demo:
        try:
            yield call.desk.ledger
        finally:
            call.desk.close()
        return
    ledger = Ledger.open(data_folder(call), clock=local_time)
    try:
        yield ledger
    finally:
        ledger.close()
