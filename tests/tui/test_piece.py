"""A piece of stock in full: the view, costs behind a key, price, mending, history, photographs."""

from __future__ import annotations

import asyncio
import re
from pathlib import Path

import pytest
from msgspec.structs import replace

from counter.describe.description import long_form
from counter.store.entry import Change
from counter.tui.screens.item.pixels import read_points
from counter.values.errors import UserError
from counter.values.item import Certificate, CoverFacts, Fault, Item, TreatmentDone
from counter.values.money import pounds
from counter.values.record import write_row
from tests.tui.conftest import Stall, open_stall

HOSTILE = "[red]x[/] [@click=app.bell()] \x1b[31m\u202e切手 é́ a\\"


def walk(coroutine):
    return asyncio.run(coroutine)


async def open_piece(stall: Stall, typed: str) -> None:
    await stall.type(typed)
    await stall.press("f7")
    await stall.wait_for("Listing")
    await settled(stall)


async def settled(stall: Stall) -> None:
    for _ in range(1_000):
        await stall.pilot.pause(0.01)
        if not any(worker.is_running for worker in stall.app.workers):
            break
    await stall.pilot.pause()


async def whole(stall: Stall) -> str:
    """Everything on the page, scrolled through."""
    seen = [stall.text()]
    for _ in range(12):
        await stall.press("pagedown")
        seen.append(stall.text())
    return "\n".join(seen)


def put(stall: Stall, item: Item) -> None:
    assert stall.app.desk
    stall.app.desk.ledger.note("put", [Change("items", item.number, write_row(item))])


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
def test_the_listing_is_whole_and_no_cost_is_seen(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with open_stall(size) as stall:
            await open_piece(stall, "wk1102")
            item = stall.item("WK-1102")
            first = stall.text()
            assert pounds(item.asking or 0) in first and "in stock" in first and item.kept in first
            assert item.certificate and item.certificate.number in first
            for sentence in long_form(item, stall.app.desk.names).split("\n"):  # type: ignore[union-attr]
                assert sentence.split(",")[0] in first
            seen = await whole(stall)
            for secret in (pounds(item.cost or 0), item.purchase, "margin £", "Offer at most"):
                assert secret not in seen, secret

    walk(walked())


def test_costs_are_shown_by_a_key_and_hidden_on_leaving() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await open_piece(stall, "wk1102")
            item = stall.item("WK-1102")
            cost = pounds(item.cost or 0)
            await stall.press("f8")
            assert cost in stall.text() and "HMRC" in stall.text()
            assert pounds((item.asking or 0) - (item.cost or 0)) in stall.text()
            await stall.press("f8")
            assert cost not in stall.text()
            await stall.press("f8")
            await stall.press("f1")  # help on top, and back: a customer may be looking
            await stall.press("escape")
            assert cost not in stall.text()
            await stall.press("f8", "escape", "f7")
            await settled(stall)
            assert "WK-1102" in stall.text() and cost not in stall.text()

    walk(walked())


def test_the_price_has_its_range_its_picture_and_its_reasons() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            await open_piece(stall, "wk1104")
            await stall.press("f8")
            seen = await whole(stall)
            made = stall.app.desk.trading.price(stall.item("WK-1104"))  # type: ignore[union-attr]
            assert made.price is not None and made.low is not None and made.high is not None
            for words in (pounds(made.price), pounds(made.low), pounds(made.high)):
                assert words in seen
            assert f"from {made.count} comparables" in seen and "suggested" in seen
            row = next(line for line in stall.rows() if " asking " in line)
            assert re.search(r"▲ £\d|£[\d,.]+ ▲", row)
            assert "■ sold" in seen and "Sources" in seen
            for each in made.comparables:
                assert each.evidence.number in seen

    walk(walked())


def test_no_price_and_no_own_sale_stands_there_unasked() -> None:
    async def walked() -> None:
        async with open_stall((160, 50)) as stall:
            await open_piece(stall, "wk1104")
            made = stall.app.desk.trading.price(stall.item("WK-1104"))  # type: ignore[union-attr]
            seen = await whole(stall)
            assert "F8 shows it" in seen and "suggested" not in seen and made.price is not None
            assert pounds(made.price) not in seen
            own = {each.evidence.number for each in made.comparables}
            assert not own & set(re.findall(r"WK-\d+", seen))

    walk(walked())


def test_on_fewer_than_three_nothing_is_suggested() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await open_piece(stall, "wk846")
            await stall.press("f8")
            seen = await whole(stall)
            assert "three alike decide" in seen
            assert "suggested" not in " ".join(seen.split()).replace("nothing is suggested", "")

    walk(walked())


def test_without_a_piece_in_hand_one_sentence_says_so() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("zzqqyy")
            await stall.press("f7")
            assert "Choose a line of stock" in stall.text()

    walk(walked())


def test_a_mend_is_noted_at_once_and_taken_back() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await open_piece(stall, "wk1102")
            before = stall.item("WK-1102")
            await stall.press("enter")
            await stall.type("2300")
            await stall.press("enter")
            assert "Noted for WK-1102: asking price £2,300.00." in stall.text()
            await stall.press("down", "down")  # kept, status: faults
            await stall.type("bruise")
            await stall.press("enter")
            assert "not a fault by its term" in stall.text()
            assert stall.app.screen.query_one("#form-answer").value == "bruise"  # type: ignore[attr-defined]
            assert stall.item("WK-1102").faults == ()
            await stall.press(*["backspace"] * 6)
            await stall.type("thin at top")
            await stall.press("enter")
            assert stall.item("WK-1102").faults == (Fault("thin", "at top"),)
            await stall.press("ctrl+t")
            assert stall.item("WK-1102") == replace(before, asking=230000)
            await stall.press("escape")
            await settled(stall)
            assert "£2,300.00" in stall.text()
            await stall.press("f4")
            await stall.wait_for("asking price corrected")
            assert "£2,400.00 → £2,300.00" in stall.text()
            assert "taken back: faults corrected" in stall.text()
            await stall.press("escape")
            await stall.wait_for("Listing")

    walk(walked())


def test_what_stands_can_be_fetched_and_changed() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await open_piece(stall, "wk868")
            await stall.press("enter", "down", "down", "down", "tab")
            entry = stall.app.screen.query_one("#form-answer")
            assert entry.value == "repaired (thin filled at right)"  # type: ignore[attr-defined]
            await stall.type("; stain")
            await stall.press("enter")
            assert stall.item("WK-868").faults == (
                Fault("repaired", "thin filled at right"),
                Fault("stain"),
            )

    walk(walked())


def test_the_chosen_stamp_becomes_the_issue() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await open_piece(stall, "wk894 1d blk kc")
            assert "F7 takes the stamp" in stall.text()
            await stall.press("f7")
            await settled(stall)
            assert stall.item("WK-894").issue == "penny_black_1840"
            assert "1d black" in stall.rows()[1]
            await stall.press("ctrl+t")
            assert stall.item("WK-894").issue == ""

    walk(walked())


def test_identifying_without_a_stamp_says_what_to_do() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await open_piece(stall, "wk894")
            await stall.press("f7")
            assert "No stamp is chosen at the counter" in stall.text()
            assert stall.item("WK-894").issue == ""

    walk(walked())


@pytest.mark.parametrize("keys", [["ctrl+t"], ["enter", "ctrl+t"]])
def test_a_piece_whose_purchase_is_taken_back_is_gone(keys: list[str]) -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("bt 2d blue £45 cash harrow")
            await stall.press("enter", "f7")  # the latest stands first on an empty line
            await settled(stall)
            assert "2d blue" in stall.text() and "Listing" in stall.text()
            await stall.press(*keys)
            await settled(stall)
            assert "ask ▸ bt 2d blue £45 cash harrow" in stall.text()  # at the counter, to be mended
            assert "Listing" not in stall.text()

    walk(walked())


def test_what_is_copied_is_the_listing_without_a_cost(monkeypatch) -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            copied: list[str] = []
            monkeypatch.setattr(stall.app, "copy_to_clipboard", copied.append)
            await open_piece(stall, "wk1102")
            await stall.press("f5", "f6")
            listing, line = copied
            assert "Plate 11" in listing and "Ormsby" in listing
            assert line.startswith("WK-1102  1d black") and line.endswith("£2,400.00")
            assert all(pounds(125000) not in each for each in copied)

    walk(walked())


def hostile(number: str) -> Item:
    text = HOSTILE
    return Item(
        number,
        issue=text,
        denomination=text,
        colour=text,
        plate=text,
        letters=(text, text),
        watermark=text,
        words=text * 3,
        margins=(text,),
        gum=text,
        cancel=text,
        cancel_number=text,
        faults=(Fault("thin", text),),
        attachment="cover",
        cover=CoverFacts(text, text, text, text, text, text),
        treatments=(TreatmentDone("2026-01-01", "water", text, text, 5, text, text, text),),
        certificate=Certificate("[red]x[/]", text, text, text),
        kept=text,
        asking=100,
        cost=77,
        photographs=(text, "\x00", "/dev/zero"),
        reference=text,
        remarks=text,
    )


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
def test_hostile_text_in_every_field_is_only_text(size: tuple[int, int]) -> None:
    async def walked() -> None:
        async with open_stall(size) as stall:
            await stall.type("wk868")
            put(stall, hostile("WK-868"))
            await stall.press("f7")
            await settled(stall)
            shown = [await whole(stall)]
            await stall.press("f8")
            shown.append(stall.text())
            await stall.press("f4")
            await settled(stall)
            shown.append(stall.text())
            for _ in range(3):
                await stall.press("f9" if len(shown) == 3 else "right")
                await settled(stall)
                shown.append(stall.text())
            await stall.press("escape", "enter", *["down"] * 12, "tab", "enter")
            shown.append(stall.text())
            for text in shown:
                assert not set("\x1b\u202e\x00") & set(text)
            assert "[red]x[/]" in shown[0] and "[@click=app.bell()]" in shown[0]

    walk(walked())


# Photographs


def stamp(path: Path, size: tuple[int, int] = (60, 80)) -> Path:
    image = pytest.importorskip("PIL.Image")
    picture = image.new("RGB", size, (250, 250, 240))
    picture.paste((20, 20, 20), (0, 0, size[0], size[1] // 2))
    picture.save(path)
    return path


def test_a_photograph_is_drawn_in_coloured_halves(tmp_path: Path) -> None:
    path = stamp(tmp_path / "front.png")

    async def walked() -> None:
        async with open_stall() as stall:
            put(stall, replace(stall.item("WK-868"), photographs=(str(path), "gone.jpg")))
            await open_piece(stall, "wk868")
            await stall.press("f9")
            await settled(stall)
            assert "1 of 2" in stall.text() and "▀▀▀" in stall.text()
            await stall.press("right")
            await settled(stall)
            assert "gone.jpg" in stall.text() and "There is no such file." in stall.text()
            await stall.pilot.resize_terminal(120, 40)
            await settled(stall)
            await stall.press("escape")
            await stall.wait_for("Listing")

    walk(walked())


@pytest.mark.parametrize("colours", ["sixteen", "none"])
def test_few_colours_show_the_path_and_why(colours: str, tmp_path: Path, monkeypatch) -> None:
    path = stamp(tmp_path / "front.png")
    if colours == "none":
        monkeypatch.setenv("NO_COLOR", "1")

    async def walked() -> None:
        async with open_stall(theme="sixteen" if colours == "sixteen" else "night") as stall:
            put(stall, replace(stall.item("WK-868"), photographs=(str(path),)))
            await open_piece(stall, "wk868")
            await stall.press("f9")
            await settled(stall)
            whole_path = "".join(
                row.strip().removeprefix("1 of 1").strip() for row in stall.rows()[1:6]
            )
            assert str(path) in whole_path
            assert "too few colours" in stall.text() and "▀" not in stall.text()

    walk(walked())


def test_a_picture_is_fitted_and_keeps_its_shape(tmp_path: Path) -> None:
    points = read_points(stamp(tmp_path / "a.png", (600, 800)), 40, 20)
    assert points.columns <= 40 and points.rows <= 40 and points.rows % 2 == 0
    assert abs(points.columns / points.rows - 600 / 800) < 0.05
    assert points.at(5, 2) == (20, 20, 20) and points.at(5, points.rows - 4) == (250, 250, 240)


@pytest.mark.parametrize("kind", ["missing", "folder", "cut short", "not a picture", "huge"])
def test_what_cannot_be_read_is_one_sentence(kind: str, tmp_path: Path) -> None:
    path = tmp_path / "front.png"
    if kind == "folder":
        path = tmp_path
    elif kind == "cut short":
        whole = stamp(path, (300, 300)).read_bytes()
        path.write_bytes(whole[: len(whole) // 2])
    elif kind == "not a picture":
        path.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(range(256)))
    elif kind == "huge":
        pytest.importorskip("PIL.Image").new("1", (9_000, 9_000)).save(path)
    with pytest.raises(UserError) as told:
        read_points(path, 40, 20)
    assert str(told.value).endswith(".") and "\n" not in str(told.value)


def test_without_pillow_the_reason_is_told(tmp_path: Path, monkeypatch) -> None:
    path = stamp(tmp_path / "front.png")
    monkeypatch.setitem(__import__("sys").modules, "PIL", None)
    with pytest.raises(UserError, match="pip install pillow"):
        read_points(path, 40, 20)
