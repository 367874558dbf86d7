"""The words of the trade: what may be typed, and which observation each word or phrase makes.

Read from data/vocabulary; the names of towns and countries come from the postal reference. What is
trade usage here has no printed source: "common practice".
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain, product
from typing import Any

from counter.reference.grammar import Grammar, read_grammar
from counter.reference.loader import DATA, DataFault, Tables, build, read_folder
from counter.values.typed import words_of


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words that say one thing: an observation's `kind` and `value`, `said` plainly.

    `also` are further observations made by the same words, as (kind, value, said).
    """

    kind: str
    value: str
    said: str
    spellings: tuple[str, ...] = ()
    also: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Colour:
    """A colour of the reference.

    `family` is what a hurried eye calls it, `neighbours` the colours it is mixed up with (the relation
    runs both ways), `cancel` the name it has as a cancel's colour, or "".
    """

    id: str
    family: str
    neighbours: tuple[str, ...]
    cancel: str = ""
    spellings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LetteringError:
    """Four letters printed wrongly: as struck, as meant, on which issues and plate.

    `source` is a source id of the stamps' reference.
    """

    letters: str
    meant: str
    issues: tuple[str, ...]
    plate: str
    text: str
    source: str
    confidence: str


@dataclass(slots=True)
class Node:
    """A step into the tree of phrases: what may follow, and what the words so far mean."""

    next: dict[str, Node] = field(default_factory=dict)
    means: list[Phrase] = field(default_factory=list)


@dataclass(frozen=True, eq=False)
class Vocabulary:
    """Every word the reader knows. `tree` starts the phrases; `slanting` are the values like 2/6,
    `short_shades` the two-letter shades that need a colour after them, `short_colours` the two-letter
    colours that need a value before them; `short` every word's short forms; `parted` the double colours
    that are two before a cancel."""

    colours: Mapping[str, Colour]
    tree: Node
    fillers: frozenset[str]
    never_letters: frozenset[str]
    lettering_errors: Mapping[str, LetteringError]
    numbered: frozenset[str]
    slanting: frozenset[str]
    where: frozenset[str]
    short_shades: Mapping[str, str]
    short_colours: Mapping[str, str]
    short: Mapping[str, tuple[str, ...]]
    parted: frozenset[str]
    grammar: Grammar

    def short_forms(self) -> dict[str, tuple[str, ...]]:
        """Every short form and the words it stands for; several where the trade leaves it open."""
        found: dict[str, list[str]] = {}
        for word, forms in self.short.items():
            for form in forms:
                found.setdefault(form, []).append(word)
        return {form: tuple(words) for form, words in found.items()}

    def stands_alone(self, word: str) -> bool:
        """Whether a word says something by itself."""
        node = self.tree.next.get(word)
        return node is not None and bool(node.means)

    def colours_named(self, text: str) -> tuple[str, ...]:
        """The colours in a description, in order: "dull purple and deep green" is purple, green."""
        words, found, at = words_of(text), [], 0
        while at < len(words):
            length, colour = self._colour_at(words, at)
            if colour:
                found.append(colour)
            at += length
        return tuple(dict.fromkeys(found))

    def _colour_at(self, words: tuple[str, ...], at: int) -> tuple[int, str]:
        node, best = self.tree, (1, "")
        for length, word in enumerate(words[at:], 1):
            if word not in node.next:
                break
            node = node.next[word]
            for phrase in node.means:
                if phrase.kind == "colour":
                    best = (length, phrase.value)
        return best


def read_vocabulary() -> Vocabulary:
    """Read the words; raises DataFault naming the file and the record at fault."""
    tables = read_folder("vocabulary", DATA)
    colours = _colours(tables)
    short: dict[str, list[str]] = tables["abbreviations"]["short"]
    tree = Node()
    spoken = _spoken_values(tables["denominations"]["spoken"])
    for phrase in (*_colour_phrases(tables, colours), *_phrases(tables), *spoken, *_places()):
        for spelling in dict.fromkeys(phrase.spellings):
            for words in _forms(words_of(spelling), short):
                _plant(tree, words, phrase)
    small = tables["small_words"]
    return Vocabulary(
        colours=colours,
        tree=tree,
        fillers=frozenset(small["fillers"]),
        never_letters=frozenset(small["never_letters"]),
        lettering_errors=_lettering_errors(small["lettering_error"]),
        numbered=frozenset(tables["cancels"]["numbered"]),
        slanting=frozenset(tables["denominations"]["slanting"]),
        where=frozenset(tables["condition"]["where"]),
        short={word: tuple(forms) for word, forms in short.items()},
        parted=frozenset(tables["colours"]["parted"]),
        grammar=read_grammar(tables),
        short_colours={
            form: name
            for name in colours
            for form in short.get(name, ())
            if len(form) == 2 and form not in small["never_letters"] + small["fillers"]
        },
        short_shades={
            form: row["id"]
            for row in tables["colours"]["shade"]
            for word in (row["id"], *row.get("spellings", ()))
            for form in short.get(word, ())
            if len(form) == 2
        },
    )


def _colours(tables: Tables) -> dict[str, Colour]:
    rows = tables["colours"]["colour"]
    read = {row["id"]: build(Colour, row, f"colours.toml {row['id']}") for row in rows}
    both: dict[str, set[str]] = {name: set(colour.neighbours) for name, colour in read.items()}
    for name, colour in read.items():
        for neighbour in colour.neighbours:
            if neighbour not in both:
                raise DataFault(f"colours.toml {name}.neighbours: there is no colour {neighbour!r}")
            both[neighbour].add(name)
    return {
        name: Colour(name, each.family, tuple(sorted(both[name])), each.cancel, each.spellings)
        for name, each in read.items()
    }


def _lettering_errors(rows: Iterable[Mapping[str, Any]]) -> dict[str, LetteringError]:
    return {
        row["letters"]: build(LetteringError, row, f"small_words.toml {row['letters']}") for row in rows
    }


def _colour_phrases(tables: Tables, colours: Mapping[str, Colour]) -> Iterator[Phrase]:
    """Every colour by its names, in the plural ("penny reds") and as one leaning to another."""
    leaning: Mapping[str, Sequence[str]] = tables["colours"]["ish"]
    for name, colour in colours.items():
        yield Phrase("colour", name, name, (name, *colour.spellings))
        first, _, second = name.partition("-")
        if second:
            leans = (f"{ish}-{second}" for ish in leaning.get(first, ()))
            yield Phrase("colour", name, name, tuple(each for each in leans if each not in colours))
        else:
            yield Phrase("colour", name, name, (f"{name}s",))
    for name, lean in leaning.items():
        single = tuple(each for each in lean if name not in ("blue", "rose"))
        yield Phrase("colour", name, name, single)
        for second in _ISH_OF:
            if f"{name}-{second}" not in colours and name != second:
                leant = tuple(f"{each} {second}" for each in lean)
                yield Phrase("colour", second, f"{lean[0]} {second}", leant)
    for row in tables["colours"]["shade"]:
        yield Phrase("shade", row["id"], row["id"], (row["id"], *row.get("spellings", ())))


_ISH_OF = (
    "red",
    "brown",
    "blue",
    "green",
    "grey",
    "yellow",
    "orange",
    "purple",
    "black",
    "violet",
    "rose",
)


def _spoken_values(spoken: Mapping[str, Any]) -> Iterator[Phrase]:
    """Twopence halfpenny, two and a half pence, ten bob, five pounds: numbers and what they count."""
    numbers = {word: place for place, word in enumerate(spoken["numbers"], 2)}
    yield Phrase("denomination", "1½d", "1½d", tuple(f"penny {half}" for half in spoken["half"]))
    yield Phrase("denomination", "1½d", "1½d", ("one and a half pence", "1 and a half pence"))
    yield Phrase("denomination", "1½d", "1½d", tuple(f"three {half}" for half in spoken["half"]))
    for word, number in numbers.items():
        whole = [f"{word}{pence}" for pence in ("pence", "penny", "peny")]
        whole += [f"{word} {pence}" for pence in ("pence", "penny")]
        whole += [f"{number} pence", *spoken["short"].get(word, ())]
        yield Phrase("denomination", f"{number}d", f"{number}d", tuple(whole))
        halves = [f"{each} {half}" for each in whole for half in spoken["half"]]
        halves += [f"{word} and a half pence", f"{word} and a half penny", f"{number} and a half pence"]
        yield Phrase("denomination", f"{number}½d", f"{number}½d", tuple(halves))
        if number in (2, 5, 10):
            said = [f"{each} {bob}" for each in (word, str(number)) for bob in spoken["shillings"]]
            yield Phrase("denomination", f"{number}s", f"{number}s", tuple(said))
    for bob in spoken["shillings"]:
        yield Phrase("denomination", "1s", "1s", (bob, f"one {bob}", f"a {bob}", f"1 {bob}"))
    for pound in spoken["pounds"]:
        yield Phrase("denomination", "£1", "£1", (pound, f"one {pound}", f"a {pound}", f"1 {pound}"))
        yield Phrase("denomination", "£5", "£5", (f"five {pound}", f"5 {pound}"))
    for said, value in spoken["and_pence"]:
        yield Phrase("denomination", value, value, (said,))


def _phrases(tables: Tables) -> Iterator[Phrase]:
    for file, content in tables.items():
        for number, row in enumerate(content.get("phrase", ()), 1):
            yield build(Phrase, row, f"{file}.toml [[phrase]] no. {number} ({row.get('value')})")


def _places() -> Iterator[Phrase]:
    """Towns of the kingdom and places abroad, by all their names."""
    tables = read_folder("postal", DATA)
    for file, kind in (("places_british", "town"), ("places_abroad", "abroad")):
        for row in tables[file]["place"]:
            for name in (row["name"], *row.get("also", ())):
                yield Phrase(kind, name, name, (name,))


def _forms(words: tuple[str, ...], short: Mapping[str, Iterable[str]]) -> Iterator[tuple[str, ...]]:
    """The words with each shortened as the trade shortens them; two-word forms also run together."""
    alone = len(words) == 1
    choices: list[list[tuple[str, ...]]] = []
    for word in words:
        forms = [form for form in short.get(word, ()) if not alone or len(form) > 2]
        choices.append([(word,), *map(words_of, forms)])  # "w/o" is two words, as the line is cut
    for chosen in product(*choices):
        form = tuple(chain.from_iterable(chosen))
        yield form
        if len(form) == 2 and min(map(len, form)) > 1 and sum(map(len, form)) > 5:
            yield ("".join(form),)


def _plant(tree: Node, words: tuple[str, ...], phrase: Phrase) -> None:
    node: Any = tree
    for word in words:
        node = node.next.setdefault(word, Node())
    if phrase not in node.means:
        node.means.append(phrase)
