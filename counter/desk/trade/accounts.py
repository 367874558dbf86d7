"""The accounts as the desk gives them: a year, a day, returns filed; each as text and as files."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from counter.desk.trade.trading import Trading
from counter.documents.accounts_pages import standing_files, year_files
from counter.documents.write_file import write_whole
from counter.store.records.accounts import Filed
from counter.trade.accounts_day import DayStanding, standing_on
from counter.trade.filing import FiledRead, file_return, read_filed
from counter.trade.year import Year, read_year
from counter.values.errors import UserError
from counter.values.periods import read_period_words


def period(trading: Trading, words: str) -> tuple[str, str]:
    """A period as typed; "" is the VAT period of today. Raises InputError."""
    return read_period_words(words, trading.today, trading.settings.business.period_months)


def accounts_of(trading: Trading, words: str) -> Year:
    """The year, or another period as typed, for the accountant."""
    return read_year(trading.book, *period(trading, words))


def accounts_on(trading: Trading, day: str) -> DayStanding:
    """What there was at the end of a day."""
    return standing_on(trading.book, day)


def file_period(trading: Trading, words: str, day: str, remark: str = "") -> Filed:
    """Freeze a VAT period's return as filed on a day. Raises UserError."""
    return file_return(trading.book, *period(trading, words), day, remark)


def filed_returns(trading: Trading) -> list[FiledRead]:
    """Every filed return with what has changed in it since, the oldest first."""
    every = trading.ledger.accounts.returns.over("0001-01-01", "9999-12-31")
    return [read_filed(trading.book, each) for each in every]


def write_files(folder: Path, files: Mapping[str, str]) -> list[Path]:
    """Write files into a folder that is there, none over an older one; where they are. Raises UserError."""
    there = [name for name in files if (folder / name).exists()]
    if there:
        raise UserError(f"{folder} holds {', '.join(there)} already; name another folder.")
    for name, content in files.items():
        write_whole(folder / name, content)
    return [folder / name for name in files]


def year_and_end(trading: Trading, words: str) -> tuple[Year, DayStanding, dict[str, str]]:
    """A year with what there was at its end, and both as files by name."""
    year = accounts_of(trading, words)
    there = accounts_on(trading, year.until)
    return year, there, year_files(year) | standing_files(there)
