"""What fuzz.py plays: each target takes bytes, reads them as the counter does, checks what is promised.

UserError (and InputError with it) is the only error that may leave a reader.
"""

from __future__ import annotations

import contextlib
import io
import json
import math
import os
import shutil
import tempfile
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import counter.reference.library as reference
from counter.cli.commands import COMMANDS
from counter.cli.main import main
from counter.csv_files.importing import headings_of, import_stock
from counter.csv_files.reading import read_sheet
from counter.desk.covers.case import open_case
from counter.desk.identify.gauge_input import read_count
from counter.desk.opening import open_desk
from counter.desk.stock.edit_item import mended
from counter.desk.stock.item_fields import EDITABLE
from counter.desk.trade.purchase_line import read_deal_line
from counter.judge.letters import judge_letters
from counter.store.entry import Change, checksum, line_to_entry
from counter.store.files import Disk
from counter.store.ledger import Ledger
from counter.store.records.check import check_change
from counter.store.verify import verify
from counter.values.currency import read_money, read_rate
from counter.values.dates import read_date
from counter.values.days import read_day
from counter.values.dilution import dilute, read_portion
from counter.values.errors import UserError
from counter.values.gauge import read_length
from counter.values.item import CoverFacts, Item
from counter.values.letters import read_format, read_letters
from counter.values.money import read_pence
from counter.values.postage import read_number, read_postage
from counter.values.record import read_record, write_row
from counter.values.seconds import read_seconds
from counter.values.strength_words import read_label
from tests.reading.test_reader_properties import accounted

LIBRARY = reference.Library()
LIBRARY.read_all()
reference.Library = lambda: LIBRARY  # type: ignore[misc,assignment]  # read once, not at every command
PLACE = Path(tempfile.mkdtemp(prefix="fuzz-"))  # within the folder that fuzz.py makes and clears away
NOW = datetime.fromisoformat("2026-05-02T10:00:00+01:00")
DESK = open_desk(PLACE / "desk", library=LIBRARY, clock=lambda: NOW)


def text_of(data: bytes) -> str:
    """Bytes that are no text stand as halves of characters, as on a command line."""
    return data.decode("utf-8", "surrogateescape")


class Quick(Disk):
    """Waits for no disk: what is looked for here is not a power cut."""

    def sync(self, handle: int) -> None:
        """Nothing."""


def ask(data: bytes) -> None:
    """Every character is accounted for; the shares add up to 1; every part of the answer is made."""
    asked = DESK.ask(text_of(data))
    accounted(asked.reading)
    found = asked.identification
    shares = [each.share for each in found.candidates]
    assert all(0 <= each <= 1 for each in shares)
    if shares:
        assert math.isclose(sum(shares) + found.others + found.none_of_these, 1, abs_tol=1e-6)
        asked.strip(found.candidates[0].issue_id)
    asked.cautions(), asked.commemorative_lines(), asked.stock()


def looks(data: bytes) -> None:
    """At most three looks, each worth something and in words; none wets unless it may.

    Apart from `ask`: weighing every answer of every look takes many times as long as the rest.
    """
    text = text_of(data)
    wet = len(text) % 2 == 0
    found = DESK.ask(text).next_looks(wet=wet)
    assert len(found) <= 3
    for each in found:
        assert math.isfinite(each.bits) and each.bits >= 0 and each.seconds > 0
        assert each.words and each.answers and (wet or not each.wets)


def cover(data: bytes) -> None:
    """A cover is judged and charted, and what is kept of it makes a row that comes back as it was."""
    case = open_case(LIBRARY, text_of(data))
    assert case.belonging and case.found.results
    if chart := case.chart:
        assert chart.start <= chart.end and all(bar.first <= bar.last for bar in chart.bars)
    with contextlib.suppress(UserError):
        now = Item("WK-1", attachment="cover", cover=case.facts())
        assert read_record(Item, write_row(now)) == now
        check_change(Change("items", "WK-1", write_row(now)))


def line(data: bytes) -> None:
    """A purchase line is refused, or kept word for word with its sum and pieces in whole pence."""
    text = text_of(data)
    with contextlib.suppress(UserError):
        read = read_deal_line(text, LIBRARY.money.currencies)
        assert read.words == " ".join(text.split())
        assert type(read.amount) is int and read.amount >= 0 and read.pieces
        assert all(words in read.words for words, _ in read.pieces) and read.seller in read.words
    with contextlib.suppress(UserError):
        DESK.trading.read_deal(text)


def mend(data: bytes) -> None:
    """A mended field makes a row that comes back from its row as it was."""
    field = EDITABLE[(data or b"\0")[0] % len(EDITABLE)]
    start = Item("WK-1", multiple="strip_4", attachment="cover", cover=CoverFacts())
    with contextlib.suppress(UserError):
        now = mended(start, field.key, text_of(data[1:]), LIBRARY)
        field.said(now)
        assert read_record(Item, write_row(now)) == now
        check_change(Change("items", "WK-1", write_row(now)))


def words(data: bytes) -> None:
    """Every small reader answers with a finite figure or a sentence."""
    text, scale = text_of(data), LIBRARY.treatments.scale
    figures: list[float] = []
    readers: list[Callable[[], object]] = [
        lambda: figures.extend(each.strength.percent_wv for each in read_label(text).readings(scale)),
        lambda: dilute(read_portion(text), read_portion("3 % w/v"), scale),
        lambda: figures.append(read_length(text)),
        lambda: read_count(text, LIBRARY.stamps).gauge,
        lambda: judge_letters(
            [read_letters(each) for each in text.split()],
            read_format("20x12"),
            LIBRARY.stamps,
            LIBRARY.vocabulary.lettering_errors,
        ),
        lambda: read_format(text),
        lambda: read_number(text),
        lambda: read_postage(text).words(),
        lambda: read_date(text).words(),
        lambda: read_day(text),
        lambda: figures.append(read_seconds(text)),
        lambda: read_pence(text),
        lambda: read_money(text, LIBRARY.money.currencies, LIBRARY.money.currencies["GBP"]),
        lambda: read_rate(text),
    ]
    for read in readers:
        with contextlib.suppress(UserError):
            read()
    assert all(math.isfinite(each) and each >= 0 for each in figures)


def fresh(name: str) -> Path:
    """An empty folder."""
    folder = PLACE / name
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    return folder


def sheet(data: bytes) -> None:
    """Every record comes in, is known, or is refused by its line; a second time none comes in."""
    folder = fresh("csv")
    file = folder / "list.csv"
    file.write_bytes(data)
    ledger = Ledger.open(folder / "own", clock=lambda: NOW, laptop="WK", disk=Quick())
    try:
        with contextlib.suppress(UserError):
            read = read_sheet(file)
            headings_of(read)
            done = import_stock(ledger, read)
            records = sum(1 for _ in read.records()) - 1
            assert done.taken + done.known + len(done.refused) == records
            assert len(ledger.rows("items")) == done.taken
            assert import_stock(ledger, read).taken == 0
    finally:
        ledger.close()
    faults = [each.words for each in verify(folder / "own").findings if each.weight == "fault"]
    assert not faults


def journal(data: bytes) -> None:
    """Any bytes open; every sound line counts, what is noted then stays, no line is thrown away.

    A line that begins with ~ gets the checksum of what follows: damage behind a right checksum.
    """
    folder = fresh("journal")
    split = data.split(b"\n\n\n", 1)
    raw = b"\n".join(map(_sealed, split[0].split(b"\n")))
    (folder / "journal").write_bytes(raw)
    if len(split) > 1:
        (folder / "snapshot").write_bytes(b"\n".join(map(_sealed, split[1].split(b"\n"))))
    with contextlib.suppress(UserError):
        ledger = Ledger.open(folder, clock=lambda: NOW, laptop="WK", disk=Quick())
        try:
            ledger.note("still works", [Change("items", "ZZ-100", {"number": "ZZ-100"})])
        finally:
            ledger.close()
        aside = b"".join(path.read_bytes() for path in (folder / "aside").glob("*"))
        everything = (folder / "journal").read_bytes() + aside
        assert all(each in everything for each in raw.split(b"\n"))
        assert line_to_entry(everything.split(b"\n")[-2] if not aside else b"") or aside
        again = Ledger.open(folder, clock=lambda: NOW, disk=Quick())
        assert again.row("items", "ZZ-100")
        again.close()
    with contextlib.suppress(UserError):
        verify(folder)


def _sealed(raw: bytes) -> bytes:
    return checksum(raw[1:]) + b" " + raw[1:] if raw[:1] == b"~" else raw


#: Unicode's Bidi_Control (UAX #9), the line and paragraph separators, C0 (line feed apart) and C1.
STEERING = {
    *"\u061c\u200e\u200f\u2028\u2029",
    *map(chr, (*range(0x202A, 0x202F), *range(0x2066, 0x206A))),
}
STEERING |= {chr(code) for code in (*range(0x20), *range(0x7F, 0xA0)) if code != 0x0A}
SHOWS = {"rate", "strength", "dilute", "gauge", "letters", "cover", "ask", "card", "treat", "price"}


def command(data: bytes) -> None:
    """Exit code 0, 1 or 2; one line on stderr; no steering of the terminal; a refusal notes nothing."""
    typed = [text_of(each) for each in data.replace(b"\0", b"").split(b"\n")]
    name = COMMANDS[(data or b"\0")[0] % len(COMMANDS)].name
    typed = typed[1:]
    if any(("/" in each and each.split("=")[-1][:1] in "/~-") or ".." in each for each in typed):
        return  # no file outside the folder
    if any(each[:1] == "~" or each.startswith("--d") for each in typed):
        return
    own = PLACE / "command" / "own"
    if not own.exists() or (own / "journal").stat().st_size > 60_000:
        fresh("command")
        _run(["--data", str(own), "buy", "1d black KC £80 cash"])
    os.chdir(PLACE / "command")
    before = (own / "journal").read_bytes()
    code, out, err = _run(["--data", str(own), name, *typed])
    assert code in (0, 1, 2), code
    assert not set(out + err) & STEERING, sorted(set(out + err) & STEERING)
    assert "Traceback" not in err
    if code:
        assert err.count("\n") == 1 or (code == 1 and not err and out), err
    if "--json" in typed and code == 0 and "--" not in typed and not {"-h", "--help"} & {*typed}:
        json.loads(out)
    after = (own / "journal").read_bytes() if (own / "journal").exists() else b""
    if name not in ("people", "restore"):
        assert after.startswith(before)
    if code and name not in ("import", "restore", "people"):
        assert after == before


def _run(typed: list[str]) -> tuple[int, str, str]:
    kept_bytes = io.BytesIO(), io.BytesIO()
    out, err = (io.TextIOWrapper(kept, "utf-8", newline="\n") for kept in kept_bytes)
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            code = main(typed)
        except SystemExit as end:  # --help and --version
            code = int(end.code or 0)
    said = []
    for stream, kept in zip((out, err), kept_bytes, strict=True):
        stream.flush()
        said.append(kept.getvalue().decode())
    return code, said[0], said[1]
