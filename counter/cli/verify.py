"""`counter verify`: read everything again, say in plain words whether it is sound, change nothing."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict

from counter.cli.call import Call, Reply
from counter.cli.place import data_folder
from counter.desk.data.messages import read_words, sound_words
from counter.store.verify import Report, verify

_MARK = {"fault": "!!", "to do": " >", "remark": "  "}


def arguments(parser: ArgumentParser) -> None:
    """No words of its own."""


def run(chosen: Namespace, call: Call) -> Reply:
    """{folder, entries, laptops, rows, sound, findings: [{weight, words}]}; code 1 on a fault."""
    folder = data_folder(call)
    report = verify(folder)
    data = {"folder": str(folder), **asdict(report), "sound": report.sound}
    return Reply(data, f"{folder}\n{report_words(report)}", 0 if report.sound else 1)


def report_words(report: Report) -> str:
    """The report as lines for a person."""
    lines = [read_words(report)]
    lines += [f"{_MARK[each.weight]} {each.words}" for each in report.findings]
    return "\n".join([*lines, sound_words(report)])
