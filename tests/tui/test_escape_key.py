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


@pytest.mark.parametrize("cut", [1, 2, 3])
def test_a_sequence_sent_in_pieces_is_still_one_key(clock: list[float], cut: int) -> None:
    parser, sequence = PromptParser(), "\x1b[15~"
    assert keys(parser, sequence[:cut]) == []
    clock[0] += constants.ESCAPE_DELAY / 2
    assert keys(parser, sequence[cut:]) == ["f5"]
