"""The index kept in a file, so that a large stock can be searched at once when the counter opens.

The file is never the truth: it carries the place in the journal that it covers and is brought up to
date from there. One that is damaged, of another journal, of another reference or made by another
version of the search is passed over, and the index is built from the rows, slice by slice. It is read
in parts of some milliseconds each, so that a screen beside the reading thread stays awake.
"""

from __future__ import annotations

import marshal
from collections.abc import Iterator
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any

from counter.search.index import StockIndex
from counter.store.entry import in_force
from counter.store.files import Disk, bulk, write_beside
from counter.store.ledger import Ledger

NAME = "stock-index"
_WORTH_KEEPING = 3_000  # lines: fewer are indexed while the first frame is looked at
_WORTH_RENEWING = 300  # changes: fewer are taken in again from the journal in no time
_TAIL = 64  # bytes of the journal kept to recognise it by
_SUM = 16  # bytes of a BLAKE2b digest (RFC 7693)


def fill(index: StockIndex, ledger: Ledger, chunk: int = 400) -> Iterator[int]:
    """Fill an empty index from its file or from the rows, a slice at each step; gives lines so far.

    A worker may iterate it and stop at any step; notes taken meanwhile are not lost.
    """
    content, covers = _fitting(index, ledger)
    if content is None:
        yield from index.put_many(ledger.items.each(), chunk)
        index.whole, index.changes = True, _WORTH_RENEWING
        return
    with bulk():
        yield from index.restore(_parts(content))
        for line in ledger.journal.lines(covers):
            for change in in_force(line.entry) if line.entry else ():
                if change.table == "items":
                    index.follow(change.key, ledger.items.find(change.key))
            yield len(index)
    index.whole = True


def keep(index: StockIndex, ledger: Ledger) -> bool:
    """Write the index beside the journal if that is worth it; False when not, or when it failed."""
    if ledger.read_only or not index.whole or index.changes < _WORTH_RENEWING:
        return False
    if len(index) < _WORTH_KEEPING:
        return False
    covers = ledger.state.covers  # taken first: what is noted from here on is only taken in twice
    with bulk():
        head = (_made_of(index, ledger, covers), covers)
        blobs = [marshal.dumps(part) for part in (head, *index.parts())]
    body = b"".join(len(blob).to_bytes(4, "big") + blob for blob in blobs)
    content = blake2b(body, digest_size=_SUM).digest() + body
    try:
        write_beside(ledger.folder / NAME, [content], disk=Disk())
    except OSError:
        return False  # only quickness is lost
    index.changes = 0
    return True


def _fitting(index: StockIndex, ledger: Ledger) -> tuple[memoryview | None, int]:
    """The parts of the kept index and the place in the journal they cover; None when it is unfit."""
    try:
        content = memoryview((ledger.folder / NAME).read_bytes())
    except OSError:
        return None, 0
    if content[:_SUM] != blake2b(content[_SUM:], digest_size=_SUM).digest():
        return None, 0
    made_of, covers = next(_parts(content[_SUM:]))
    if covers > ledger.journal.size or made_of != _made_of(index, ledger, covers):
        return None, 0
    size = int.from_bytes(content[_SUM : _SUM + 4], "big")
    return content[_SUM + 4 + size :], int(covers)


def _parts(content: memoryview) -> Iterator[Any]:
    at = 0
    while at < len(content):
        size = int.from_bytes(content[at : at + 4], "big")
        yield marshal.loads(content[at + 4 : at + 4 + size])
        at += 4 + size


def _made_of(index: StockIndex, ledger: Ledger, covers: int) -> bytes:
    """What an index must be made of to be of use: this journal, these names, this code."""
    digest = blake2b(_code(), digest_size=_SUM)
    digest.update(repr(sorted(index.names.items())).encode())
    digest.update(ledger.journal.bytes_at(max(0, covers - _TAIL), covers))
    return digest.digest()


@cache
def _code() -> bytes:
    """A digest of the code that makes lines and tokens: a new version never meets an old index."""
    here = Path(__file__).parent
    digest = blake2b(digest_size=_SUM)
    for room in (here, here.parent / "describe"):
        for file in sorted(room.glob("*.py")):
            digest.update(file.read_bytes())
    return digest.digest()
