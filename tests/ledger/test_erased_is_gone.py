"""What a person had erased is in no file: not of earlier values, drafts, conflicts or merges."""

from __future__ import annotations

import errno
from collections.abc import Callable
from pathlib import Path

import pytest

from counter.reference.money import read_money_facts
from counter.store.backup import backup, restore
from counter.store.entry import Change, entry_to_data, seal
from counter.store.erase import erase
from counter.store.ledger import Ledger
from counter.store.merge import merge
from counter.store.verify import verify
from counter.trade.personal_data import erase_person
from counter.trade.settings import Settings
from counter.values.errors import UserError
from tests.ledger.conftest import Clock
from tests.ledger.stock import BadDisk, person, purchase

Opens = Callable[..., Ledger]
DAY = "2026-05-01"


@pytest.fixture
def other(opened: Opens, tmp_path: Path) -> Ledger:
    return opened(tmp_path / "other", laptop="VB")


def written(ledger: Ledger) -> bytes:
    return b"".join(path.read_bytes() for path in ledger.folder.rglob("*") if path.is_file())


def erased(ledger: Ledger, key: str = "WK-N1") -> bytes:
    erase_person(Settings(ledger, read_money_facts()), key, DAY)
    return written(ledger)


def test_details_blanked_before_the_request_go_too(ledger: Ledger) -> None:
    ledger.note("met", [person("WK-N1", phone="0207PHONE", remarks="OWESMONEY")])
    ledger.note("blanked", [person("WK-N1")])
    after = erased(ledger)
    assert b"0207PHONE" not in after
    assert b"OWESMONEY" not in after
    assert b"Pennington" not in after


def test_free_text_changed_since_loses_what_it_said(ledger: Ledger) -> None:
    ledger.note("met", [person("WK-N1")])
    ledger.note("cash", [purchase("WK-P1", remarks="for Ada Pennington")])
    ledger.note("cash", [purchase("WK-P1", remarks="for the album")])
    assert b"Pennington" not in erased(ledger)
    assert ledger.row("purchases", "WK-P1")["remarks"] == "for the album"  # type: ignore[index]


def test_an_older_erasure_holds_at_a_merge_after_a_newer(ledger: Ledger, other: Ledger) -> None:
    ledger.note("met", [person("WK-N1", phone="0999PHONE")])
    merge(other, ledger.folder)
    other.note("seen", [person("WK-N1", phone="0999PHONE", email="ada@mail.example")])
    erase(ledger, [("people", "WK-N1", ("phone", "email"))])
    erase(ledger, [("people", "WK-N1", ("name",))])
    merge(ledger, other.folder)
    for words in (b"0999PHONE", b"ada@mail", b"Pennington"):
        assert words not in written(ledger)


def test_a_merged_erasure_that_fails_brings_nothing_in(
    ledger: Ledger,
    opened: Opens,
    tmp_path: Path,
) -> None:
    disk = BadDisk()
    other = opened(tmp_path / "other", laptop="VB", disk=disk)
    ledger.note("met", [person("WK-N1")])
    merge(other, ledger.folder)
    erase(ledger, [("people", "WK-N1", ("name",))])
    disk.sync_fault = errno.EIO
    with pytest.raises(UserError):
        merge(other, ledger.folder)
    disk.sync_fault = 0
    assert merge(other, ledger.folder).brought == 1
    assert b"Pennington" not in written(other)


def test_verify_finds_what_an_older_program_left_and_erasing_again_mends(ledger: Ledger) -> None:
    ledger.note("met", [person("WK-N1", phone="0207PHONE")])
    row = {"id": "WK-N1", "erased": DAY}
    entry = ledger.next_entry(
        "erased", [Change("people", "WK-N1", row)], erases=(("people", "WK-N1", ("name", "phone")),)
    )
    ledger.journal.append(seal(entry_to_data(entry)))  # as a merge that was stopped left it
    ledger.refresh()
    assert any("still holds what was erased" in each.words for each in verify(ledger.folder).findings)
    assert b"0207PHONE" not in erased(ledger)
    assert verify(ledger.folder).sound


def test_drafts_go_with_an_erasure(ledger: Ledger) -> None:
    ledger.note("met", [person("WK-N1")])
    ledger.note("left", [Change("drafts", "line", {"text": "bt 1d red £5 pennington"})])
    ledger.note("cleared", [Change("drafts", "line", None)])
    ledger.note("left", [Change("drafts", "quote", {"text": "ada pennington"})])
    ledger.note("left", [Change("drafts", "cover", {"text": "ludlow"})])
    assert b"ennington" not in erased(ledger)
    assert ledger.row("drafts", "cover") == {"text": "ludlow"}


def test_another_laptops_drafts_bring_nothing_back(ledger: Ledger, other: Ledger) -> None:
    ledger.note("met", [person("WK-N1")])
    erased(ledger)
    other.note("left", [Change("drafts", "line", {"text": "pennington"})])
    merge(ledger, other.folder)
    assert b"pennington" not in written(ledger)


def test_versions_in_a_conflict_written_out_go_too(ledger: Ledger) -> None:
    ledger.note("met", [person("WK-N1")])
    theirs = {"entry": "VB.1.x", "laptop": "VB", "at": DAY, "verb": "met"}
    theirs["row"] = {"id": "WK-N1", "name": "Adela Pennington"}  # type: ignore[assignment]
    row = {"id": "people WK-N1", "table": "people", "key": "WK-N1", "versions": [theirs]}
    ledger.note("carried over", [Change("conflicts", "people WK-N1", row)])
    assert b"Pennington" not in erased(ledger)


def test_restoring_an_older_backup_says_who_comes_back(
    ledger: Ledger,
    clock: Clock,
    tmp_path: Path,
) -> None:
    ledger.note("met", [person("WK-N1"), person("WK-N2")])
    backup(ledger.folder, tmp_path / "b.zip", now=clock())
    erase(ledger, [("people", "WK-N1", ("name",))])
    ledger.close()
    done = restore(tmp_path / "b.zip", ledger.folder, now=clock(), set_aside=True)
    said = [each.words for each in done.report.findings if "comes back" in each.words]
    assert len(said) == 1
    assert "WK-N1 in people" in said[0]


def test_an_erasure_elsewhere_takes_its_fields_and_nothing_newer(ledger: Ledger, other: Ledger) -> None:
    ledger.note("met", [person("WK-N1", phone="0207", address="1 Old Street")])
    merge(other, ledger.folder)
    ledger.note("moved", [person("WK-N1", phone="0207", address="99 New Road")])
    erase(other, [("people", "WK-N1", ("phone",))])
    assert merge(ledger, other.folder).conflicts == ()
    assert merge(other, ledger.folder).conflicts == ()
    wanted = {"id": "WK-N1", "name": "Ada Pennington", "address": "99 New Road", "erased": DAY}
    assert ledger.row("people", "WK-N1") == other.row("people", "WK-N1") == wanted


def test_who_was_forgotten_may_be_noted_anew(ledger: Ledger, other: Ledger) -> None:
    ledger.note("met", [person("WK-N1", phone="0207")])
    erase(ledger, [("people", "WK-N1", ("phone",))])
    ledger.note("back", [person("WK-N1", phone="0208")])
    merge(other, ledger.folder)
    assert other.row("people", "WK-N1")["phone"] == "0208"  # type: ignore[index]
    assert verify(other.folder).sound
