"""Papers as PDF files: read back by pypdf and drawn by pdfium, two libraries that are not ours.

What each paper must hold: VAT Notice 718 (margin scheme invoices, stock book), Notice 718/2 (global
accounting); what must not be on it is a house rule (no cost, no margin, no finding).
"""

import io
import re
from dataclasses import replace
from functools import cache
from html import unescape
from pathlib import Path

import pypdfium2
import pytest
from pypdf import PdfReader

from counter.documents.book_pages import book_layout, gaps_layout
from counter.documents.customer_papers import approval_paper, deposit_paper, quotation, statement
from counter.documents.html_page import html_of
from counter.documents.invoices import purchase_invoice, sale_invoice
from counter.documents.layout import Layout, TextBlock
from counter.documents.paper import Paper
from counter.documents.pdf_file import not_printable, pdf_of
from counter.documents.write_layout import file_of
from counter.trade.people import complete_person
from counter.trade.quotes import end_quote, note_quote
from counter.trade.refunds import note_refund
from counter.trade.selling import Order, Wanted, note_sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book, BookLine
from counter.trade.stock_book_totals import totals
from counter.values.errors import InputError
from counter.values.quote import QuoteLine, RunningQuote

from .conftest import DAY, Buy

MM = 72 / 25.4


@cache
def printed(layout: Layout) -> bytes:
    return pdf_of(layout)


def pages_of(layout: Layout) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(printed(layout))).pages]


def line(place: int) -> BookLine:
    return BookLine(
        f"WK-{1000 + place}",
        description="1d red-brown imperf alph I pl 36 KC on cover, 3 margins, black numeral 654, crease",
        purchase_date="2024-03-09",
        purchase_invoice_number=f"WK-PI{100 + place}",
        purchase_price=1234,
        seller_name="Bertha Oakhanger",
        seller_address="38 Chapel Row\nStoke Ferrand",
        scheme="margin",
        sale_date="2026-02-07",
        sales_invoice_number=f"WK-I{100 + place}",
        selling_price=12_345,
        buyer_name="Bertha Brindlecombe",
        margin=11_111,
        vat_due=1852,
        gaps=("name of buyer",) if place % 2 else (),
    )


def test_a_book_of_271_lines_takes_nine_sheets_and_breaks_no_number(
    house: Settings, book: Book
) -> None:
    lines = [line(place) for place in range(271)]
    layout = book_layout(house.business, "2026-01-01", "2026-03-31", lines, totals(book, DAY, DAY))
    read = PdfReader(io.BytesIO(pdf_of(layout)))
    pages = [page.extract_text() for page in read.pages]
    assert len(pages) <= 9
    for number, (page, text) in enumerate(zip(read.pages, pages, strict=True), 1):
        assert (round(page.mediabox.width / MM), round(page.mediabox.height / MM)) == (297, 210)
        assert f"Page {number} of {len(pages)}" in text and "A. Dealer" in text
        assert "WK-" not in text or ("Description" in text and "Margin" in text)
    whole = "\n".join(pages)
    for each in lines:
        assert re.search(rf"\b{each.stock_number}\b", whole)
    assert whole.count("9 Mar 2024") == whole.count("7 Feb 2026") == 271
    assert "name of buyer" not in whole and "HMRC" not in whole  # the gaps are the dealer's own
    gaps = "\n".join(pages_of(gaps_layout("2026-01-01", "2026-03-31", lines)))
    assert gaps.count("name of buyer") == 135 and "no part of the book" in gaps


@pytest.mark.parametrize("name", ["Łukasz Ōnishi-Đorđević", "Θεοδώρα Ψ", "Жанна Ё", "O'Brien & <Sons>"])
def test_any_name_a_half_and_a_pound_are_on_the_file(name: str) -> None:
    words = f"½d and 1½d, £1,234.50 – {name}"
    (page,) = pages_of(Layout("Invoice", (TextBlock(words),)))
    assert words in page and not_printable(Layout("", (TextBlock(words),))) == ""


def test_letters_the_font_has_not_are_named_and_a_page_prints_them() -> None:
    paper = Layout("Invoice", (TextBlock("切手 and ½d"),))
    with pytest.raises(InputError, match="切手"):
        file_of(Path("a.pdf"), paper)
    assert "切手" in str(file_of(Path("a.html"), paper))
    with pytest.raises(InputError, match="pdf"):
        file_of(Path("a.doc"), paper)


def ink_at_the_edge(paper: Layout) -> int:
    """The darkest point within two millimetres of an edge, as pdfium draws it: 255 is white."""
    picture = pypdfium2.PdfDocument(printed(paper))[0].render(scale=1.0).to_pil().convert("L")
    edge, (wide, high) = round(2 * MM), picture.size
    strips = ((0, 0, edge, high), (wide - edge, 0, wide, high), (0, high - edge, wide, high))
    return min(picture.crop(each).getextrema()[0] for each in strips)


def papers(house: Settings, buy: Buy) -> dict[str, Paper]:
    """One of each paper that leaves the table, for one customer."""
    house.change_business(terms="May be returned within 14 days.")
    pieces = [each.number for each in buy(41_11, 6, seller="Harrow", seller_kind="private").items]
    made = {}

    def sale(number: str, **how: object):  # type: ignore[no-untyped-def]
        order = {"payments": (("card", 7250),), "buyer": "Green"} | how
        return note_sale(house, Order(DAY, (Wanted(number, 7250),), **order)).sale  # type: ignore[arg-type]

    sold = sale(pieces[0])
    complete_person(house.ledger, sold.buyer, address="3 Mill Row")
    made["credit note"] = sale_invoice(
        house, note_refund(house, sold.id, [], DAY, "sent back").sale, {}
    )
    made["refunded invoice"] = sale_invoice(house, sold, {})
    made["invoice"] = sale_invoice(house, sale(pieces[1]), {})
    kept = sale(pieces[2], status="deposit", payments=(("cash", 2000),))
    made["deposit"] = deposit_paper(house, kept, {})
    made["cancelled deposit"] = deposit_paper(
        house, replace_record(kept, status="cancelled", ended=DAY), {}
    )
    away = sale(pieces[3], status="on approval", payments=(), due_back="2026-05-15")
    made["approval"] = approval_paper(house, away, {})
    running = RunningQuote((QuoteLine(pieces[4], "", 7250),))
    quote = note_quote(house, running, DAY, "Green")
    made["quotation"] = quotation(house, quote, {})
    made["withdrawn quotation"] = quotation(house, end_quote(house.ledger, quote.id), {})
    who = house.ledger.people.of(sold.buyer)
    made["statement"] = statement(house, who, DAY)
    return made


def replace_record(record, **how):  # type: ignore[no-untyped-def]
    from msgspec.structs import replace as changed

    return changed(record, **how)


WANTED = {
    "invoice": ("Invoice", "margin scheme - collectors' items and antiques", "Paid: card £72.50"),
    "refunded invoice": ("REFUNDED", "Refunded 1 May 2026: £72.50, credit note"),
    "credit note": ("Credit note", "Credit for invoice", "Paid back: card £72.50"),
    "deposit": ("Deposit receipt", "£20.00 by cash", "Still to pay: £52.50", "This is no invoice"),
    "cancelled deposit": ("CANCELLED", "Ended on 1 May 2026"),
    "approval": ("Goods on approval", "To be returned or paid for by 15 May 2026", "nothing is sold"),
    "quotation": ("Quotation", "These prices hold until 15 May 2026", "This is no invoice"),
    "withdrawn quotation": ("WITHDRAWN",),
    "statement": ("Statement of account", "To pay", "£52.50", "On approval with you", "15 May 2026"),
}


def test_every_customer_paper_says_what_it_must_and_nothing_of_cost(house: Settings, buy: Buy) -> None:
    made = papers(house, buy)
    assert made.keys() == WANTED.keys()
    for name, paper in made.items():
        a4, roll = paper.layout(), paper.layout(roll=True)
        page, strip = " ".join(pages_of(a4)), " ".join(pages_of(roll))
        for shown in (page, strip, html_of(a4), paper.text()):
            flat = " ".join(unescape(shown).split())
            for words in ("1 May 2026", "A. Dealer", "Green", "14 days", *WANTED[name]):
                assert words in flat, f"{name}: {words}"
            assert "6.85" not in flat and "41.11" not in flat, f"{name}: the cost is on it"
            assert not re.search(r"\bmemory\b|None|\w_\w", re.sub(r"<style>.*?</style>", "", shown)), (
                name
            )
            assert not re.search(r"\b\d{4}-\d\d-\d\d\b", flat), name
        assert ink_at_the_edge(a4) == ink_at_the_edge(roll) == 255, name
        assert round(float(PdfReader(io.BytesIO(printed(roll))).pages[0].mediabox.width) / MM) == 80
        assert paper.missing == (), name


def test_a_purchase_paper_says_who_sells_and_how_it_was_paid(house: Settings, buy: Buy) -> None:
    bought = buy(4500, seller_kind="private").purchase
    text = " ".join(" ".join(pages_of(purchase_invoice(house, bought, {}).layout())).split())
    for words in (
        "Harrow",
        "a private person",
        "Paid: cash £45.00",
        "Signed",
        "goods are mine to sell",
    ):
        assert words in text
    gone = replace_record(bought, cancelled="sent back")
    assert "CANCELLED" in purchase_invoice(house, gone, {}).text()


def test_a_row_taller_than_a_sheet_goes_on_over_the_next(house: Settings, buy: Buy) -> None:
    sale = note_sale(house, Order(DAY, (Wanted(buy(100).items[0].number, 200),))).sale
    paper = sale_invoice(house, sale, {})
    long = "\n".join(f"line {place} of its history" for place in range(150))
    pages = pages_of(replace(paper, rows=(("WK-1", long, "£2.00"),)).layout())
    assert len(pages) > 2 and all(f"line {place} of" in "\n".join(pages) for place in range(150))
