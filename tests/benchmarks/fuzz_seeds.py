"""Where the fuzz of each target begins, and the words it tries."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from counter.cli.commands import COMMANDS
from counter.desk.stock.item_fields import EDITABLE
from counter.store.journal import HEAD
from tests.benchmarks.fuzz_targets import (
    ask,
    command,
    cover,
    journal,
    line,
    looks,
    mend,
    sheet,
    words,
)
from tests.reading.test_reader_properties import WORDS


@dataclass(frozen=True)
class Target:
    """What is played with bytes, where to begin, and the words worth trying."""

    name: str
    play: Callable[[bytes], None]
    seeds: tuple[bytes, ...]
    words: tuple[str, ...]


ENTRY = '~{"id":"a1","laptop":"WK","seq":1,"at":"2026-05-01T10:00:00","verb":"noted","changes":%s}\n'
ROW = '[["items","WK-1",{"number":"WK-1","asking":4500}]]'
SNAP = (
    '~{"snapshot":1,"covers":0,"mark":"","entries":0,"numbers":{},"seqs":{},"last_at":""}\n~{"end":0}\n'
)
HEADED = HEAD.decode()
HEADINGS = "number,words,price,cost,letters,faults,treatments,margins,certificate,cover date\n"
STAMPS = (b"1d blk imp KC sm crown mx red", b"2d bl pl 3 stampless leeds 12 may 1840")
COVERS = (
    b"1d red imp tied 1844 numeral leeds to london 12 may 1851",
    b"stampless paid 4d 20 dec 1839 leeds to paris",
    "2½d lilac duplex bristol to germany 1 jul 1884 ½ oz".encode(),
)
ASKED = (*WORDS, "stampless", "\u00a0", "²", "٣", "İ")
ALL = [
    Target("ask", ask, STAMPS, ASKED),
    Target("looks", looks, STAMPS, ASKED),
    Target(
        "cover", cover, (*STAMPS, *COVERS), (*ASKED, "paid", "ship letter", "france", "tied", "1839")
    ),
    Target(
        "line",
        line,
        (b"bt 2d blue pl 3 KC \xc2\xa345 cash harrow (private)", b"1d @80; 2d @45 EUR 60 cash"),
        (
            *WORDS,
            "£45",
            "@80",
            ";",
            "cash",
            "from",
            "px",
            "(private)",
            "EUR 20",
            "JPY",
            "25p",
            "£1,250.50",
        ),
    ),
    Target(
        "mend",
        mend,
        tuple(bytes([n]) + b"thin at top; KC; 2019" for n in range(len(EDITABLE))),
        (*WORDS, ";", "thin at top", "strip of 3", "block of 4", "KC-KF", "+", "inverted"),
    ),
    Target(
        "words",
        words,
        (
            b"3 % w/v",
            b"50 mL of 9 % w/v",
            b"20 over 25 mm",
            b"2s6d",
            b"KC KD",
            b"10 min",
            b"9" * 5000,
            b"9" * 5000 + b"d",
            b"9" * 5000 + b" x 1d",
        ),
        (
            "vol",
            "% w/w",
            "mol/L",
            "½",
            "1/2",
            "x",
            " of ",
            "mm",
            "inch",
            "/-",
            "£",
            "p",
            "1842-03-12",
            "9" * 30,
        ),
    ),
    Target(
        "csv",
        sheet,
        (
            (HEADINGS + "A1,1d black,45,20,KC KD,thin: top,[],4;4,Body,1840\n").encode(),
            b"number,words,purchase,remarks\nA1,1d black,P-7,tied\nA2,2d blue,P-7,\n",
        ),
        (
            *HEADINGS.strip().split(","),
            "purchase",
            "remarks",
            '"',
            ";",
            "\t",
            "\r\n",
            "'=",
            "1,250",
            "[[",
            "{",
            "\ufeff",
            "NaN",
        ),
    ),
    Target(
        "journal",
        journal,
        ((HEADED + ENTRY % ROW).encode(), (HEADED + ENTRY % ROW + "\n\n" + SNAP).encode()),
        (
            "~",
            '"held":[0]',
            '"erases":[["items","WK-1",["words"]]]',
            '"knows":{"B":1}',
            "null",
            "{}",
            "[]",
            '"seq":9',
            '"covers":',
            '"end":1',
            '"rows":',
            '"table":',
            "\n\n\n",
            "1e999",
            "-1",
        ),
    ),
    Target(
        "command",
        command,
        tuple(
            bytes([n]) + b"\n" + word
            for n in range(len(COMMANDS))
            for word in (
                b"1d black",
                b"WK-1",
                "\u061c\u2028".encode(),
                b"9" * 5000,
                b"--json",
                b"--date\n1842",
                b"stock\nout.csv",
            )
        ),
        (
            "--json",
            "--date",
            "1842-03-12",
            "--ounces",
            "½",
            "--to",
            "france",
            "--redirected",
            "9" * 20,
            "--sheets",
            "--have",
            "--want",
            "50 mL of 9 % w/v",
            "--map",
            "--sheet",
            "20x12",
            "KC",
            "WK-1=72.50",
            "£45",
            "cash",
            "\u061c",
            "\u2028",
            "\u202e",
            "-h",
            "--paid",
            "2d",
            "1s",
            "--",
            "--issue",
            "--late-fee",
            "19:10",
        ),
    ),
]
TARGETS = {each.name: each for each in ALL}
