"""Invoices: what the law wants is there, what it forbids is not (data/money/invoices.toml)."""

import re

import pytest

from counter.documents.html_page import html_of
from counter.documents.invoices import purchase_invoice, sale_invoice
from counter.reference.money import MoneyFacts
from counter.trade.buying import complete_purchase
from counter.trade.people import complete_person
from counter.trade.refunds import note_refund
from counter.trade.selling import Order, Sold, Wanted, note_sale
from counter.trade.settings import Settings
from counter.values.errors import UserError

from .conftest import DAY, Buy


def sold(house: Settings, number: str, pence: int, **how: object) -> Sold:
    order = Order(DAY, (Wanted(number, pence),), payments=(("cash", pence),), buyer="Green", **how)  # type: ignore[arg-type]
    return note_sale(house, order)


def test_a_margin_invoice_has_its_fields_and_its_wording(house: Settings, buy: Buy) -> None:
    sale = sold(house, buy(4500).items[0].number, 7250).sale
    paper = sale_invoice(house, sale, {})
    assert paper.missing == ("buyer's name and address",)
    complete_person(house.ledger, sale.buyer, address="3 Mill Row")
    text = sale_invoice(house, sale, {}).text()
    wanted = (
        "1 May 2026",
        "A. Dealer",
        "1 High Street",
        "GB 1",
        "Green",
        "3 Mill Row",
        "WK-1",
        sale.id,
    )
    for words in (*wanted, "£72.50", "margin scheme - collectors' items and antiques"):
        assert words in text
    assert sale_invoice(house, sale, {}).missing == ()


def test_every_required_field_of_a_margin_invoice_is_covered(facts: MoneyFacts) -> None:
    required = {
        each.field
        for each in facts.invoice_fields.values()
        if each.document == "sale-margin" and each.required
    }
    assert required == {
        "date",
        "dealer_name_address_vat_number",
        "buyer_name_and_address",
        "stock_number",
        "invoice_number",
        "item_description",
        "total_price",
        "margin_scheme_declaration",
    }


@pytest.mark.parametrize("scheme", ["margin", "global"])
def test_no_vat_no_margin_and_no_cost_on_a_scheme_invoice(
    house: Settings, buy: Buy, scheme: str
) -> None:
    # Fields "must-not": vat_amount_shown, margin_or_cost_shown, tax_invoice_words.
    sale = sold(house, buy(4500, scheme=scheme).items[0].number, 7250).sale
    paper = sale_invoice(house, sale, {})
    for shown in (paper.text(), html_of(paper.layout())):
        words = shown.replace("VAT number GB 1", "")
        assert "VAT" not in words and "20 %" not in words
        for forbidden in ("45.00", "27.50", "4.58", "22.92", "67.92", "60.42"):
            assert forbidden not in words
        assert set(re.findall(r"£[0-9.,]+[0-9]", words)) == {"£72.50"}


def test_a_global_invoice_carries_its_own_words(house: Settings, buy: Buy) -> None:
    sale = sold(house, buy(4500, scheme="global").items[0].number, 7250).sale
    assert "global accounting invoice" in sale_invoice(house, sale, {}).text()


def test_an_ordinary_invoice_shows_its_vat(house: Settings, buy: Buy) -> None:
    sale = sold(house, buy(4500, seller_kind="VAT shown").items[0].number, 7200).sale
    text = sale_invoice(house, sale, {}).text()
    assert "VAT at 20 % £12.00" in text and "margin scheme" not in text


def test_an_unregistered_dealers_invoice_knows_no_vat(house: Settings, buy: Buy) -> None:
    house.change_business(registered_from="")
    sale = sold(house, buy(4500).items[0].number, 7200).sale
    text = sale_invoice(house, sale, {}).text()
    assert "VAT" not in text and "margin scheme" not in text


def test_schemes_do_not_share_an_invoice(house: Settings, buy: Buy) -> None:
    # Rule "mixed-invoice" (notice-718-2).
    first, second = buy(100).items[0].number, buy(100, scheme="ordinary").items[0].number
    sale = note_sale(house, Order(DAY, (Wanted(first, 200), Wanted(second, 200)))).sale
    with pytest.raises(UserError, match="mixes margin and ordinary"):
        sale_invoice(house, sale, {})
    held = sold(house, buy(100).items[0].number, 200, status="deposit").sale
    with pytest.raises(UserError, match="no invoice"):
        sale_invoice(house, held, {})


def test_a_refund_has_a_credit_note(house: Settings, buy: Buy) -> None:
    sale = sold(house, buy(4500).items[0].number, 7250).sale
    refund = note_refund(house, sale.id, [], DAY, "sent back", "cash").sale
    text = sale_invoice(house, refund, {}).text()
    assert text.startswith("Credit note") and sale.id in text and "Paid back: cash £72.50" in text


def test_a_private_sellers_invoice_has_one_total_with_nothing_added(house: Settings, buy: Buy) -> None:
    bought = buy(4500, seller_kind="private")
    paper = purchase_invoice(house, bought.purchase, {})
    assert paper.missing == ("seller's name and address",)
    complete_person(house.ledger, bought.purchase.seller, address="2 Low Lane")
    done = complete_purchase(house, bought.purchase.id, place="Fair")
    text = purchase_invoice(house, done, {}).text()
    for words in ("Harrow", "2 Low Lane", "A. Dealer", "1 May 2026", "£45.00", "Plain."):
        assert words in text
    assert set(re.findall(r"£[0-9.,]+[0-9]", text)) == {"£45.00"}


def test_hostile_words_stay_words_on_the_page(house: Settings, buy: Buy) -> None:
    number = buy(4500).items[0].number
    order = Order(DAY, (Wanted(number, 7250, '<img src=x onerror="x()">[/red]'),))
    html = html_of(sale_invoice(house, note_sale(house, order).sale, {}).layout())
    assert "<img" not in html and "&lt;img" in html and "[/red]" in html
    assert "http" not in html
