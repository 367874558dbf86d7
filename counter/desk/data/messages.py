"""What was done with the data files, in the words that a person is told."""

from __future__ import annotations

from counter.csv_files.importing import Imported
from counter.store.backup import BackedUp, Restored
from counter.store.merge import Merged
from counter.store.recover import Recovered
from counter.store.verify import Report


def read_words(report: Report) -> str:
    """What a look-over read: entries, by whom, and how many rows."""
    rows = ", ".join(f"{count:,} {table}" for table, count in report.rows.items()) or "no rows"
    return f"Entries read: {report.entries:,}, by {', '.join(report.laptops) or 'nobody'}; {rows}."


def sound_words(report: Report) -> str:
    """Whether all is sound, in one sentence."""
    if report.sound:
        return "Every checksum, number and cross-reference is right."
    faults = sum(each.weight == "fault" for each in report.findings)
    return f"{'One fault' if faults == 1 else f'{faults} faults'} (marked !!); nothing was changed."


def imported_words(done: Imported) -> str:
    """How many lines came in, were here and were refused."""
    would = "Lines that would come in" if done.dry_run else "Lines that came in"
    refused = f"; refused: {len(done.refused):,}" if done.refused else ""
    words = f"{would}: {done.taken:,}; there already: {done.known:,}{refused}."
    if done.remarked:
        lines = "1 line names" if done.remarked == 1 else f"{done.remarked:,} lines name"
        words += f" {lines} a purchase that is not in these books: its number is kept as a remark."
    if done.odd:
        lines = "1 line has" if len(done.odd) == 1 else f"{len(done.odd):,} lines have"
        words += f" {lines} a price or a date that could not be read: it is kept in their remarks."
    if done.stopped:
        words += " It was stopped; bring the same file in again to go on from there."
    return words


def backed_up_words(done: BackedUp) -> str:
    """Where the backup is, and the caution."""
    return (
        f"{done.file} is written and read back; entries: {done.entries:,}, bytes: {done.size:,}. "
        f"It holds people's names and addresses: keep it where only you can read it."
    )


def restored_words(done: Restored) -> str:
    """Where the backup is now, and where what was there went."""
    aside = f" What was there is kept in {done.aside}." if done.aside else ""
    return f"The backup is in {done.folder}.{aside}"


def recovered_words(done: Recovered) -> str:
    """What was carried over, and what to do about the rest."""
    return (
        f"{done.rows:,} rows were carried over from the snapshot; the short journal is kept in "
        f"{done.aside}. Merge the other laptop's folder or restore a backup for the entries themselves."
    )


def merged_words(done: Merged) -> str:
    """What a merge brought."""
    return f"Entries brought in: {done.brought:,}; known already: {done.known:,}."
