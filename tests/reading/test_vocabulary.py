"""The words make only what the reference knows, and every character of it can be said."""

from collections.abc import Iterator

import pytest

from counter.judge.observation import KINDS
from counter.reference.library import Library
from counter.reference.vocabulary import Node, Vocabulary

CHARACTERS = {
    "separation": "separations",
    "watermark": "watermarks",
    "corners": "corners",
    "paper": "papers",
    "lines": "lines",
    "die": "dies",
    "alphabet": "alphabets",
    "reign": "reigns",
    "process": "processes",
    "dots": "dots",
    "phosphor": "phosphor",
    "printer": "printers",
    "series": "series",
}
READER_ONLY = {"a_cancel", "abroad", "backstamp_cue", "noted"}
READER_ONLY |= {"denial", "doubt", "hedge", "choice", "thing"}


def meanings(node: Node) -> Iterator[tuple[str, str]]:
    for phrase in node.means:
        yield phrase.kind, phrase.value
        yield from ((kind, value) for kind, value, _ in phrase.also)
    for after in node.next.values():
        yield from meanings(after)


@pytest.fixture(scope="module")
def said(vocabulary: Vocabulary) -> dict[str, set[str]]:
    values: dict[str, set[str]] = {}
    for kind, value in meanings(vocabulary.tree):
        values.setdefault(kind, set()).update(value.split("|"))
    return values


def test_every_kind_is_known(said: dict[str, set[str]]) -> None:
    assert set(said) - READER_ONLY <= set(KINDS)


@pytest.mark.parametrize("kind", CHARACTERS)
def test_every_state_of_a_character_can_be_typed(
    kind: str, said: dict[str, set[str]], library: Library
) -> None:
    issues = library.stamps.issues.values()
    known = {value for each in issues for value in getattr(each.characters, CHARACTERS[kind])}
    assert known <= said[kind]


def test_words_for_cancels_faults_and_margins_are_those_of_the_postal_reference(
    said: dict[str, set[str]], library: Library
) -> None:
    postal = library.postal
    assert said["cancel"] - {"none"} <= {each.family for each in postal.cancels.values()}
    assert said["cancel_type"] <= set(postal.cancels)
    assert said["fault"] <= set(postal.faults)
    assert said["margins"] - set("01234") <= set(postal.margins)


def test_every_colour_of_the_reference_is_a_colour_of_the_vocabulary(
    vocabulary: Vocabulary, library: Library
) -> None:
    for issue in library.stamps.issues.values():
        for stamp in issue.characters.stamps:
            for colour in stamp.colours:
                assert vocabulary.colours_named(colour), (issue.id, colour)


def test_neighbours_run_both_ways(vocabulary: Vocabulary) -> None:
    for colour in vocabulary.colours.values():
        for neighbour in colour.neighbours:
            assert colour.id in vocabulary.colours[neighbour].neighbours
        assert colour.id not in colour.neighbours


@pytest.mark.parametrize(
    ("words", "colours"),
    [
        ("dull purple and deep green", ("purple", "green")),
        ("violet-blue (late, on lavender-tinted paper)", ("violet-blue", "lavender")),
        ("reddish brown", ("red-brown",)),
        ("as before", ()),
    ],
)
def test_colours_in_a_description(words: str, colours: tuple[str, ...], vocabulary: Vocabulary) -> None:
    assert vocabulary.colours_named(words) == colours
