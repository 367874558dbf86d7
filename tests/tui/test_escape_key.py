"""Esc and a key a moment after it, as a terminal sends them."""

from __future__ import annotations

import pytest
from textual import constants

from counter.tui.textual_private import PromptParser


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """The framework's watch, set by hand."""
    now = [100.0]
    monkeypatch.setattr("textual._parser.get_time", lambda: now[0])
    return now


def keys(parser: PromptParser, text: str) -> list[str]:
    return [event.key for event in parser.feed(text)]  # type: ignore[attr-defined]


@pytest.mark.parametrize(("typed", "key"), [("2", "2"), ("d", "d"), ("£", "pound_sign"), ("O", "O")])
def test_a_key_after_the_wait_is_a_key_of_its_own(clock: list[float], typed: str, key: str) -> None:
    parser = PromptParser()
    assert keys(parser, "\x1b") == []
    clock[0] += constants.ESCAPE_DELAY + 0.001
    assert keys(parser, typed) == ["escape", key]


@pytest.mark.parametrize("at_once", [True, False])
@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ("\x1b2d", ["escape", "2", "d"]),
        ("\x1b\r", ["escape", "enter"]),
        ("\x1b\x1b\x1b4", ["escape", "escape", "escape", "4"]),
        ("a\x1b£", ["a", "escape", "pound_sign"]),
        ("\x1b\x1bOR", ["escape", "f3"]),
        ("\x1b\x1b[17~x", ["escape", "f6", "x"]),
    ],
)
def test_a_key_that_comes_with_esc_is_a_key_of_its_own(
    clock: list[float], typed: str, named: list[str], at_once: bool
) -> None:
    parser = PromptParser()
    found = keys(parser, typed) if at_once else [key for each in typed for key in keys(parser, each)]
    clock[0] += constants.ESCAPE_DELAY + 0.001
    assert found + [event.key for event in parser.tick()] == named  # type: ignore[attr-defined]


def test_a_paste_is_left_as_it_is() -> None:
    parser = PromptParser()
    (event,) = parser.feed("\x1b[200~1d red\x1b[201~")
    assert event.text == "1d red"  # type: ignore[attr-defined]
    assert keys(parser, "k") == ["k"]


@pytest.mark.parametrize("cut", [1, 2, 3])
def test_a_sequence_sent_in_pieces_is_still_one_key(clock: list[float], cut: int) -> None:
    parser, sequence = PromptParser(), "\x1b[15~"
    assert keys(parser, sequence[:cut]) == []
    clock[0] += constants.ESCAPE_DELAY / 2
    assert keys(parser, sequence[cut:]) == ["f5"]
