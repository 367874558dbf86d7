"""CSV in and out: any order of columns, every bad line told, no formula ever leaves."""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.csv_files.cells import guard, join, split, unguard
from counter.csv_files.columns import BY_HEADING, STOCK
from counter.csv_files.exporting import export
from counter.csv_files.importing import Imported, import_stock, same_item
from counter.csv_files.reading import read_sheet
from counter.desk.data.messages import imported_words
from counter.store.ledger import Ledger
from counter.store.verify import verify
from counter.values.errors import InputError, UserError
from counter.values.item import Certificate, CoverFacts, Fault, Item, TreatmentDone
from counter.values.record import read_record, write_row
from tests.ledger.conftest import Clock
from tests.ledger.stock import BadDisk, item, purchase, sale, tries

Opens = Callable[..., Ledger]


@pytest.fixture
def brings(ledger: Ledger, tmp_path: Path) -> Callable[..., Imported]:
    def bring(text: str | bytes, **more: object) -> Imported:
        path = tmp_path / "in.csv"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return import_stock(ledger, read_sheet(path), **more)  # type: ignore[arg-type]

    return bring


def rows(ledger: Ledger) -> list[dict[str, object]]:
    return [dict(row) for row in ledger.rows("items")]


def test_columns_in_any_order_and_under_other_names(ledger: Ledger, brings) -> None:
    done = brings("Price,Check letters,No.,Plate Number\n£45,KC,A1,11\n1250.50,kd ke,A2,\n")
    assert done.taken == 2
    assert rows(ledger) == [
        {"asking": 4500, "letters": ["KC"], "number": "A1", "plate": "11"},
        {"asking": 125050, "letters": ["KD", "KE"], "number": "A2"},
    ]


def test_one_bad_line_never_stops_the_rest(ledger: Ledger, brings) -> None:
    done = brings(
        "number,price,status,noted\n"
        "A1,45,,\n"
        "A2,12.345,,\n"
        "A3,-5,,\n"
        "A4,1,gone,\n"
        '"A5,never closed\n'
        "A6,1,,1 May\n"
        "A1,45,,\n"
        "A7,1,,,more\n"
        ",,,\n"
        "A8,2,,\n"
    )
    assert [row["number"] for row in rows(ledger)] == ["A1", "A2", "A3", "A6", "A8"]
    assert [each.line for each in done.odd] == [3, 4, 7]
    assert [(each.line, each.why) for each in done.refused] == [
        (5, "The stock item A4 was not noted: status must be one of: in stock, on approval, reserved, "
            "sold, returned, withdrawn."),
        (6, "A quotation mark is opened and never closed."),
        (8, "Stock number A1 is in the file twice."),
        (9, "The line has one cell more than there are columns."),
    ]  # fmt: skip


def test_odd_prices_keep_their_line_and_days_are_read_as_written(ledger: Ledger, brings) -> None:
    done = brings("Ref,No,Description,Price,Cost,Bought\nx1,A1,1d red,POA,abc,14/03/2026\n")
    assert (done.taken, done.refused) == (1, ())
    (row,) = rows(ledger)
    assert row["noted"] == "2026-03-14" and "asking" not in row and "cost" not in row
    assert row["remarks"] == "asking price POA; cost abc"
    assert done.odd[0].line == 2 and "POA" in done.odd[0].why
    assert "kept in their remarks" in imported_words(done)


def test_a_trial_run_says_the_same_and_notes_nothing(ledger: Ledger, brings) -> None:
    text = "number,price,status\nA1,45,\nA2,x,gone\n,3,\n"
    trial = brings(text, dry_run=True)
    assert list(ledger.entries()) == []
    real = brings(text)
    assert (trial.taken, trial.refused) == (real.taken, real.refused)
    assert real.taken == 2


def test_what_a_column_is_can_be_said_and_is_remembered(ledger: Ledger, brings) -> None:
    brings(
        "Nr,Preis,Fach\nA1,45,rot\n",
        said={"Nr": "stock number", "Preis": "asking price", "Fach": "kept"},
    )
    brings("Preis,Fach,Nr\n46,blau,A2\n")
    assert rows(ledger)[1] == {"asking": 4600, "kept": "blau", "number": "A2"}


def test_a_wrong_mapping_is_told(brings) -> None:
    with pytest.raises(InputError, match="no column 'Price'"):
        brings("number\nA1\n", said={"Price": "asking price"})
    with pytest.raises(InputError, match="no stock column 'beauty'"):
        brings("number,x\nA1,1\n", said={"x": "beauty"})
    with pytest.raises(InputError, match="'price' and 'retail' both seem to be the asking price"):
        brings("number,price,retail\nA1,1,2\n")
    with pytest.raises(UserError, match="No column was recognised"):
        brings("foo,bar\n1,2\n")
    with pytest.raises(UserError, match="The file is empty"):
        brings("")


def test_importing_twice_changes_nothing(ledger: Ledger, brings) -> None:
    text = "number,price\nA1,45\n,46\n"
    brings(text)
    before = len(list(ledger.entries()))
    done = brings(text)
    assert (done.taken, done.known) == (0, 1)
    assert done.refused[0].why == (
        "It has no stock number and came in with this file on 2026-05-01; "
        "it comes in once more only if you say so."
    )
    assert len(list(ledger.entries())) == before
    assert brings(text, again=True).taken == 1


def test_a_number_that_says_something_else_is_refused(ledger: Ledger, brings) -> None:
    brings("number,price\nA1,45\n")
    done = brings("number,price\nA1,46\n")
    assert done.refused[0].why == "Stock number A1 is in the stock already and says something else."
    assert rows(ledger)[0]["asking"] == 4500


def test_cancelling_keeps_what_came_in(ledger: Ledger, brings) -> None:
    text = "number\n" + "".join(f"A{n}\n" for n in range(2000))
    heard: list[tuple[int, int]] = []

    def stop_after_two(done: int, total: int) -> bool:
        heard.append((done, total))
        return len(heard) < 2

    done = brings(text, progress=stop_after_two)
    assert done.stopped
    assert done.taken == len(rows(ledger)) == 1000
    assert heard == [(501, 2002), (1001, 2002)]
    assert brings(text).known == 1000
    assert len(rows(ledger)) == 2000


def test_a_stopped_import_goes_on_where_it_stopped(ledger: Ledger, brings) -> None:
    """Without stock numbers nothing but the place in the file keeps lines from coming in twice."""
    text = "words\n" + "".join(f"piece {n}\n" for n in range(1200))
    assert brings(text, progress=lambda done, total: False).taken == 500
    done = brings(text)
    assert (done.taken, len(done.refused)) == (700, 500)
    assert sorted(row["words"] for row in rows(ledger)) == sorted(f"piece {n}" for n in range(1200))
    assert brings(text).taken == 0


def test_an_import_that_the_disk_stopped_goes_on_there(
    opened: Opens, folder: Path, tmp_path: Path
) -> None:
    disk = BadDisk()
    ledger = opened(folder, laptop="WK", disk=disk)
    path = tmp_path / "s.csv"
    path.write_text("words\n" + "".join(f"piece {n}\n" for n in range(1200)))

    def fill_up(done: int, total: int) -> bool:
        disk.left = 100
        return True

    with pytest.raises(UserError, match=r"^500 lines came in; then it stopped\. The disk is full"):
        import_stock(ledger, read_sheet(path), progress=fill_up)
    disk.left = 10**9
    assert import_stock(ledger, read_sheet(path)).taken == 700
    assert sorted(row["words"] for row in rows(ledger)) == sorted(f"piece {n}" for n in range(1200))
    assert verify(folder).sound


def test_two_columns_of_one_name_are_not_guessed(brings) -> None:
    with pytest.raises(InputError, match="two columns called 'price'"):
        brings("number,price,price\nA1,1,2\n")
    assert brings("number,x,x\nA1,1,2\n").taken == 1


@pytest.mark.parametrize(
    ("raw", "encoding"),
    [
        ("number;remarks\nA1;é £\n".encode("cp1252"), "Windows-1252"),
        ("number;remarks\r\nA1;é £\r\n".encode("utf-8-sig"), "UTF-8"),
        ("number\tremarks\nA1\té £\n".encode("utf-16"), "UTF-16"),
        ("number,remarks\rA1,é £\r".encode(), "UTF-8"),
    ],
)
def test_encodings_and_separators_as_found_in_the_wild(
    ledger: Ledger, brings, raw: bytes, encoding: str
) -> None:
    assert brings(raw).taken == 1
    assert rows(ledger) == [{"number": "A1", "remarks": "é £"}]


def test_a_file_that_is_not_there_or_a_folder(tmp_path: Path) -> None:
    with pytest.raises(UserError, match="is not there"):
        read_sheet(tmp_path / "none.csv")
    with pytest.raises(UserError, match="is a folder"):
        read_sheet(tmp_path)


@pytest.mark.skipif(os.name != "posix", reason="needs a pipe with a name")
def test_what_may_never_end_is_not_read(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(UserError, match="a device"):
        read_sheet(tmp_path / "pipe")


@tries(100)
@given(st.binary(max_size=400) | st.text('",;\n\r\x00=A1', max_size=60).map(str.encode))
def test_any_bytes_read_as_a_sheet(raw: bytes) -> None:
    with TemporaryDirectory() as place:
        path = Path(place) / "in.csv"
        path.write_bytes(raw)
        sheet = read_sheet(path)
        lines = [record.line for record in sheet.records()]
        assert lines == sorted(set(lines))


@tries(100)
@given(st.lists(st.lists(st.text(max_size=12), min_size=2, max_size=4), min_size=1, max_size=6))
def test_what_pythons_csv_writes_is_read_as_pythons_csv_reads_it(table: list[list[str]]) -> None:
    """Oracle: the csv module of the standard library, reading the whole file at once."""
    out = io.StringIO()
    csv.writer(out).writerows(table)
    raw = out.getvalue().encode("utf-8", errors="replace")
    with TemporaryDirectory() as place:
        path = Path(place) / "in.csv"
        path.write_bytes(raw)
        sheet = read_sheet(path)
        if sheet.separator != ",":
            return
        wanted = list(csv.reader(io.StringIO(raw.decode("utf-8-sig"), newline="")))
        read = [list(record.cells) for record in sheet.records() if not record.wrong]
    assert read == [line for line in wanted if any(cell.strip() for cell in line)]


# Cells


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+1+1", "-2+3", "@SUM(A1)", "\t=1", "\r=1", " =1", "|calc", "%x", "＝1", "'=1", "\n=1"],
)
def test_what_a_spreadsheet_may_run_is_guarded(text: str) -> None:
    """The list of starts is that of OWASP, "CSV Injection"; full-width signs and pipe are added."""
    assert guard(text) == f"'{text}"
    assert unguard(guard(text)) == text


@pytest.mark.parametrize("text", ["-45.00", "+3", "1d red", "O'Hara", "'quoted'", "", "£45"])
def test_what_is_harmless_stays_as_it_is(text: str) -> None:
    assert guard(text) == text
    assert unguard(text) == text


@tries(100)
@given(st.text() | st.text("'=+-@|\t\r\n 1.", max_size=6))
def test_guarding_comes_undone_for_any_text(text: str) -> None:
    assert unguard(guard(text)) == text
    assert guard(text)[:1] not in set("=@|\t\r")


@tries(100)
@given(st.lists(st.text(max_size=5) | st.text("; \\a\t", max_size=4), max_size=5))
def test_lists_come_back_from_their_cell(parts: list[str]) -> None:
    assert split(join(parts)) == parts


def test_a_list_typed_by_hand() -> None:
    assert split("thin;  crease at top ;") == ["thin", "crease at top"]


# Out and in again

words = st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=12).filter(
    lambda text: not text or text.strip()
)
some = words.filter(lambda text: bool(text) and text.isprintable() and text.strip() == text)
terms = some.filter(lambda text: ": " not in text and not text.endswith(":"))
items = st.builds(
    Item,
    number=st.just("A1"),
    issue=words,
    plate=words,
    words=words,
    remarks=words,
    letters=st.lists(st.from_regex(r"[A-T][A-L]", fullmatch=True), max_size=3).map(tuple),
    margins=st.lists(words, max_size=4).map(tuple),
    multiple=st.sampled_from(["single", "pair", "block_4"]),
    faults=st.lists(st.builds(Fault, terms, some | st.just("")), max_size=3).map(tuple),
    attachment=st.sampled_from(["", "cover"]),
    cover=st.none() | st.builds(CoverFacts, date=words, town=words, finding=words),
    treatments=st.lists(
        st.builds(TreatmentDone, st.just("2026-01-02"), some, seconds=st.none() | st.integers(0, 999)),
        max_size=2,
    ).map(tuple),
    certificate=st.none() | st.builds(Certificate, some, words, words, words),
    asking=st.none() | st.integers(0, 10**9),
    cost=st.none() | st.integers(0, 10**9),
    status=st.sampled_from(["in stock", "sold"]),
    photographs=st.lists(some, max_size=2).map(tuple),
    noted=st.just("") | st.dates().map(str),
)


@tries(25)
@given(items)
def test_stock_that_went_out_comes_in_again_as_it_was(piece: Item) -> None:
    with TemporaryDirectory() as place:
        folder = Path(place)
        one = Ledger.open(folder / "one", clock=Clock(), laptop="WK")
        one.note("noted", [item("A1", **{k: v for k, v in write_row(piece).items() if k != "number"})])
        export(one, "stock", folder / "out.csv")
        assert import_stock(one, read_sheet(folder / "out.csv")).known == 1
        one.close()
        two = Ledger.open(folder / "two", clock=Clock(), laptop="VB")
        done = import_stock(two, read_sheet(folder / "out.csv"))
        two.close()
        assert done.refused == ()
        back = read_record(Item, dict(two.rows("items")[0]))
    assert same_item(back, piece)


def test_a_purchase_of_other_books_is_kept_as_a_remark(ledger: Ledger, brings) -> None:
    ledger.note("purchase noted", [purchase("WK-P1")])
    text = "number,purchase,remarks\nA1,WK-P1,\nA2,VB-P7,nice\nA3,VB-P8,\n"
    assert brings(text, dry_run=True).remarked == 2
    done = brings(text)
    assert (done.taken, done.remarked, done.refused) == (3, 2, ())
    assert rows(ledger) == [
        {"number": "A1", "purchase": "WK-P1"},
        {"number": "A2", "remarks": "nice; purchase VB-P7 of other books"},
        {"number": "A3", "remarks": "purchase VB-P8 of other books"},
    ]
    assert brings(text).known == 3
    assert not [each for each in verify(ledger.folder).findings if each.weight == "fault"]
    assert "2 lines name a purchase that is not in these books" in imported_words(done)


def test_every_column_has_a_name_of_its_own() -> None:
    assert len(BY_HEADING) == len(STOCK)
    others = [name for column in STOCK for name in (column.heading, *column.also)]
    assert len(others) == len(set(others))


def test_purchases_and_sales_go_out_one_line_a_piece(ledger: Ledger, tmp_path: Path) -> None:
    shares = [{"item": "A1", "pence": 3000, "expected_pence": 4000}, {"item": "A2", "pence": 1500}]
    ledger.note(
        "bought",
        [
            purchase(
                "WK-P1",
                items=["A1", "A2"],
                words="=cmd|calc",
                split={"date": "2026-05-01", "basis": "expected prices", "shares": shares},
            ),
            sale("WK-S1", "A1", payments=[{"date": "2026-05-02", "method": "cash", "pence": 7250}]),
        ],
    )
    assert export(ledger, "purchases", tmp_path / "p.csv") == 2
    assert export(ledger, "sales", tmp_path / "s.csv") == 1
    bought = list(csv.DictReader((tmp_path / "p.csv").open(encoding="utf-8-sig", newline="")))
    assert [(each["item"], each["share"], each["total"]) for each in bought] == [
        ("A1", "30.00", "45.00"),
        ("A2", "15.00", "45.00"),
    ]
    assert bought[0]["words"] == "'=cmd|calc"
    (sold,) = csv.DictReader((tmp_path / "s.csv").open(encoding="utf-8-sig", newline=""))
    assert (sold["item"], sold["price"], sold["payments"]) == ("A1", "72.50", "2026-05-02 cash 72.50")


def test_an_export_never_replaces_a_file(ledger: Ledger, tmp_path: Path) -> None:
    (tmp_path / "p.csv").write_text("precious")
    with pytest.raises(UserError, match="is there already"):
        export(ledger, "stock", tmp_path / "p.csv")
    with pytest.raises(InputError, match="cannot be exported"):
        export(ledger, "people", tmp_path / "q.csv")
