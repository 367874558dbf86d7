"""The finder: every action by the words a dealer would use, without an F-key; and the way there."""

import asyncio

import pytest

from counter.tui.action_search import _OPENS, found_actions, way_to
from counter.tui.navigation import SCREENS, screen_class
from tests.tui.conftest import open_stall

#: What a dealer types (common practice), and what must stand first: label, screen ("" = here or everywhere).
WORDS = [
    ("sell", "sell", "quote"),
    ("receipt", "invoice", "sales"),
    ("undo", "take back", ""),
    ("redo", "put back", ""),
    ("discount", "discount", "quote"),
    ("what is it worth", "worth", ""),
    ("what's it worth?", "worth", ""),
    ("value", "worth", ""),
    ("refund", "open", "sales"),
    ("reserve", "sell", "quote"),
    ("empty", "empty", "quote"),
    ("cash", "day", ""),
    ("peroxide", "treat", ""),
    ("lot", "split", "complete_purchase"),
    ("backup", "your data", ""),
    ("invoce", "sales", ""),  # a slip of the key
    ("close the day", "day", ""),
    ("certificate", "correct", "item"),
    ("vat", "book", ""),
]


@pytest.mark.parametrize(("words", "label", "screen"), WORDS)
def test_a_dealers_word_finds_it_first(words: str, label: str, screen: str) -> None:
    found = found_actions(words, screen_class("counter").all_actions())
    assert found, words
    assert (found[0].action.label, found[0].screen) == (label, screen), [
        (each.action.label, each.screen) for each in found[:4]
    ]


def test_letters_shared_by_chance_find_nothing() -> None:
    assert found_actions("zebra crossing", screen_class("counter").all_actions()) == []


def test_every_way_is_of_actions_there_are() -> None:
    for (screen, action), over in _OPENS.items():
        assert action in {each.id for each in screen_class(screen).all_actions()} and over in SCREENS
        assert way_to("counter", over)


def test_every_action_is_found_by_its_own_label() -> None:
    here = screen_class("counter").all_actions()
    for name in set(SCREENS) - {"command_palette", "confirm", "help"}:
        for action in screen_class(name).ACTIONS:
            if action.id in ("up", "down", "left", "right", "page_up", "page_down", "back"):
                continue
            if not action.shown.isdigit():
                labels = [each.action.label for each in found_actions(action.label, here)]
                assert action.label in labels, f"{name}: {action.label}"


def test_one_hand_sells_without_an_f_key() -> None:
    """A sign in the empty line, a word, Enter: through the quote to the sale."""

    async def walked() -> None:
        async with open_stall() as stall:
            await stall.type("WK-884")
            await stall.press("enter")
            await stall.type("/sell")
            assert "Every action" in stall.text() and "the quote" in stall.text()
            await stall.press("enter")
            await stall.wait_for("paid by")
            await stall.press("escape", "escape")
            await stall.type(":")  # the other sign
            assert "Every action" in stall.text()
            await stall.press("escape", "escape")
            await stall.type("3/- rose")  # within a line it is what it says
            assert "3/- rose" in stall.rows()[0] + stall.rows()[1]

    asyncio.run(walked())


def test_what_stands_elsewhere_says_where() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            await stall.press("f3")
            await stall.type("/count it")
            await stall.press("enter")
            await stall.wait_for("from the counter F8")

    asyncio.run(walked())
