"""The accounts in lines for the terminal and as CSV files (RFC 4180, sums in pounds)."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from counter.csv_files.cells import guard
from counter.reference.money import DEFER
from counter.trade.accounts_day import Claim, DayStanding
from counter.trade.filing import FiledRead, change_words
from counter.trade.stock_book_totals import Totals
from counter.trade.year import Year
from counter.values.dates import day_words
from counter.values.money import plain, pounds
from counter.values.visible import how_many

_NO_BOX = "not whole VAT periods"


def csv_text(heads: Sequence[str], rows: Iterable[Sequence[str | int | None]]) -> str:
    """A CSV file: whole numbers are pence and written as pounds; None is an empty cell."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(heads)
    for row in rows:
        writer.writerow([_cell(each) for each in row])
    return out.getvalue()


def _cell(value: str | int | None) -> str:
    if value is None:
        return ""
    return plain(value) if isinstance(value, int) else guard(value)


def nine_boxes(sums: Totals) -> list[tuple[str, str, str]]:
    """The boxes of a return as number, what it is and the sum as declared (6 to 9 in whole pounds).

    Boxes 2, 8 and 9 are for goods moved between Northern Ireland and the EU, which are not kept here
    (rule "return-boxes").
    """
    if sums.box_1 is None or sums.box_6 is None:
        return []
    due, back = sums.box_1, sums.input_vat
    whole = [str(whole_pounds(each)) for each in (sums.box_6, sums.box_7)]
    return [
        ("1", "VAT due on sales", plain(due)),
        ("2", "VAT due on acquisitions", plain(0)),
        ("3", "total VAT due", plain(due)),
        ("4", "VAT reclaimed on purchases", plain(back)),
        ("5", "to pay" if due >= back else "to reclaim", plain(abs(due - back))),
        ("6", "sales without VAT, whole pounds", whole[0]),
        ("7", "purchases without VAT, whole pounds", whole[1]),
        ("8", "supplies to the EU", "0"),
        ("9", "acquisitions from the EU", "0"),
    ]


def whole_pounds(pence: int) -> int:
    """The pence dropped, of a negative sum too."""
    return abs(pence) // 100 * (-1 if pence < 0 else 1)


def boxes_csv(since: str, until: str, sums: Totals) -> str:
    """The nine boxes of a VAT period; empty of boxes where the days are no whole VAT periods."""
    rows = [(since, until, *each) for each in nine_boxes(sums)]
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows([("from", "to", "box", "what", "sum"), *rows])
    return out.getvalue()


def year_files(year: Year) -> dict[str, str]:
    """The year as CSV files, by name."""
    schemes = [
        (each.scheme or "no scheme", each.sales, each.cost, each.vat, each.profit)
        for each in year.schemes
    ]
    profit = [
        *schemes,
        ("deposits kept", year.deposits_kept, 0, 0, year.deposits_kept),
        *((f"costs: {name}", None, pence, None, -pence) for name, pence in year.costs.items()),
        *((f"{each.how}: {each.item}", None, each.cost, None, -(each.cost or 0)) for each in year.lost),
        ("all", None, None, None, year.net),
    ]
    quarters = [
        (
            each.since,
            each.until,
            each.sums.box_1,
            each.sums.input_vat,
            each.sums.box_6,
            each.sums.box_7,
            each.filed.date if each.filed else "",
            "yes" if each.moved else "",
        )
        for each in year.periods
    ]
    heads = ("from", "to", "box 1", "box 4", "box 6", "box 7", "filed", "changed since")
    gone = [(each.date, each.deal, each.item, each.how, each.cost) for each in year.own_use]
    return {
        "profit.csv": csv_text(("what", "sales", "cost", "VAT", "profit"), profit),
        "quarters.csv": csv_text(heads, quarters),
        "own-use.csv": csv_text(("date", "number", "piece", "how", "cost"), gone),
        "numbers.csv": csv_text(("number", "why it is no invoice or no piece"), year.numbers),
    }


def year_text(year: Year) -> str:
    """The year in lines; all of it is the dealer's own."""
    rows = [f"{year.since} to {year.until}"]
    for each in year.schemes:
        rows.append(
            f"{each.scheme or 'no scheme':<12} sales {pounds(each.sales)}, cost {pounds(each.cost)}, "
            f"VAT {pounds(each.vat)}, profit {pounds(each.profit)}"
        )
        if each.open:
            rows.append(f"  {how_many(each.open, 'line')} of it without a cost: a lot is not split.")
    rows += [f"Deposits kept, less VAT {pounds(year.deposits_kept)}"] if year.deposits_kept else []
    rows += [f"Lost: {each.item}, {each.how}, {pounds(each.cost or 0)}" for each in year.lost]
    rows += [f"Costs, {name} {pounds(pence)}" for name, pence in year.costs.items()]
    rows.append(
        f"Profit {pounds(year.net)}, before costs that are not noted here and the stock's fall."
    )
    rows += [
        f"Own use: {each.item} on {each.date}, cost {pounds(each.cost or 0)}" for each in year.own_use
    ]
    for period in year.periods:
        box_1, filed = period.sums.box_1, period.filed
        boxes = _NO_BOX if box_1 is None else f"box 1 {pounds(box_1)}"
        state = f", filed {filed.date}" if filed else ", not filed"
        state += ", CHANGED SINCE: see `counter filed`" if period.moved else ""
        rows.append(
            f"{period.since} to {period.until}: {boxes}, box 4 {pounds(period.sums.input_vat)}{state}"
        )
    rows += [f"{number}: {why}" for number, why in year.numbers]
    return "\n".join([*rows, DEFER])


def standing_files(there: DayStanding) -> dict[str, str]:
    """What there was on a day as CSV files, by name; the net realisable value is the dealer's to fill in."""
    heads = (
        "number",
        "description",
        "bought",
        "scheme",
        "cost",
        "net realisable value",
        "lower of the two",
    )
    stock = [
        (
            each.number,
            each.words,
            each.bought,
            each.scheme,
            each.cost,
            None,
            None,
            each.asking,
            each.remark,
        )
        for each in there.stock
    ]
    claims = {
        "debtors.csv": there.debtors,
        "deposits.csv": there.deposits,
        "approval.csv": there.approval,
        "creditors.csv": there.creditors,
    }
    files = {"stock.csv": csv_text((*heads, "asked now", "remark"), stock)}
    return files | {name: _claims_csv(found) for name, found in claims.items()}


def _claims_csv(found: Sequence[Claim]) -> str:
    rows = [(each.deal, each.since, each.person, each.pence, each.words) for each in found]
    return csv_text(("number", "since", "name", "sum", "what"), rows)


def standing_text(there: DayStanding) -> str:
    """What there was on a day in lines; all of it is the dealer's own."""
    open_ = sum(1 for each in there.stock if each.remark)
    rows = [
        f"At the end of {day_words(there.day)}",
        f"Stock: {how_many(len(there.stock), 'piece')} at cost {pounds(there.stock_cost)}",
    ]
    rows += [f"  {how_many(open_, 'piece')} with a remark: see stock.csv."] if open_ else []
    for name, found in (
        ("Owed to you", there.debtors),
        ("Deposits held", there.deposits),
        ("Out on approval", there.approval),
        ("You owe", there.creditors),
    ):
        rows.append(f"{name}: {pounds(sum(each.pence for each in found))}")
        rows += [
            f"  {each.deal:<8} {pounds(each.pence):>12}  {each.person} {each.words}".rstrip()
            for each in found
        ]
    told = "Stock counts at cost, or at what it would fetch if that is less: fill that column in."
    return "\n".join([*rows, told, DEFER])


def filed_text(read: FiledRead) -> str:
    """A filed return and what has changed in it since."""
    filed = read.filed
    rows = [
        f"{filed.id}: {filed.since} to {filed.until}, filed {filed.date}: box 1 "
        f"{pounds(filed.box_1_pence)}, box 4 {pounds(filed.box_4_pence)}, box 6 "
        f"{whole_pounds(filed.box_6_pence)}, box 7 {whole_pounds(filed.box_7_pence)}"
    ]
    rows += [f"  {name} is {pounds(now)} now, filed {pounds(was)}" for name, was, now in read.boxes]
    rows += [f"  {change_words(each)}" for each in read.changes]
    return "\n".join(rows)
