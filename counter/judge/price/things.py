"""Which thing a piece is for price: what parts it from others, how worn it is, what cannot be priced.

A wall is data with its source (reference/data/market). Two pieces price one another only where no
wall stands between them. What is denied or doubted prices nothing, and is named; a doubt that would
be a wall is said, because the price hangs on it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from counter.judge.cover.finding import WORDS
from counter.judge.observation import Observation, Reading
from counter.judge.price.schedule import Flaw, Schedule, Wear
from counter.reference.market import Apart, CancelFamily, Feature, MarketFacts
from counter.reference.postal_numerals import is_code_abroad
from counter.values.item import Fault, Item, stamps_in

_FLAWS = ("fault", "repair", "condition")
_SOUND = {("repair", "none")}
_BACKED = ("cover", "entire", "front", "piece")


@dataclass(frozen=True, slots=True)
class Thing:
    """A piece as price sees it.

    `walls` go by what they are of ("plate", "cancel") in words; `doubts` are walls it may have;
    `stops` say why a certificate comes before a price; `not_priced` are the words of the line that
    no sum takes; `odd` the words of it that were not understood; `margins` one a stamp, in
    the order of the letters ("": not said).
    """

    item: Item
    walls: Mapping[str, str]
    wear: Wear
    family: CancelFamily | None = None
    doubts: tuple[str, ...] = ()
    stops: tuple[tuple[str, str], ...] = ()
    not_priced: tuple[str, ...] = ()
    odd: tuple[str, ...] = ()
    margins: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class Market:
    """What prices are judged by: facts, the house schedule, the reader of a piece's own words."""

    facts: MarketFacts
    schedule: Schedule
    read: Callable[[str], Reading]
    half_life: int = 36
    issued: Mapping[str, str] = field(default_factory=dict)  # issue id: its first day, ISO
    region: Callable[[str], str] = lambda _: ""  # of a place by name: "abroad", another, "" unlisted

    def thing(self, item: Item, reading: Reading | None = None) -> Thing:
        """The piece of a line in hand (with its reading), or of the stock by its kept words."""
        seen = reading or (self.read(item.words) if item.words else Reading("", ()))
        walls, stops = dict(_walls(item, seen, self)), []
        for each in _aparts(item, self.facts):
            if each.certificate:
                stops.append((f"{_named(item, each)}: {each.text}", each.source))
        stops += [
            (each.said, each.source) for each in _features(item, seen, self.facts) if each.certificate
        ]
        odd = tuple(run for each in seen.unread if (run := each.text.strip(" ,.;:?-")))
        return Thing(
            item=item,
            walls=walls,
            wear=_wear(item, seen, whole_line=reading is not None),
            family=self.facts.cancel_family(item.issue, item.cancel),
            doubts=tuple(_doubts(item, seen, self.facts)),
            stops=tuple(stops),
            not_priced=tuple(dict.fromkeys(_not_priced(item, seen, self))),
            odd=odd,
            margins=tuple(_margins(item, seen)),
        )


def apart(subject: Thing, other: Thing) -> tuple[str, ...]:
    """The walls between two pieces, in words about the other; empty: they are the same thing."""
    found = []
    for what in sorted({*subject.walls, *other.walls}):
        ours, theirs = subject.walls.get(what, ""), other.walls.get(what, "")
        if ours != theirs:
            found.append(theirs or f"not {ours}")
    families = (subject.family, other.family)
    if families[0] and families[1] and families[0].said != families[1].said:
        found.append(f"{families[1].said}, not {families[0].said}")
    return tuple(found)


def _aparts(item: Item, facts: MarketFacts) -> Iterator[Apart]:
    if (item.issue, item.plate) in facts.plates:
        yield facts.plates[item.issue, item.plate]
    for letters in item.letters:
        if found := facts.letterings.get((item.issue, letters)):
            yield found


def _named(item: Item, each: Apart) -> str:
    return f"plate {item.plate}" if item.plate in each.plates else "-".join(item.letters)


def plate_wall(issue: str, plate: str, facts: MarketFacts) -> bool:
    """Whether a plate stands apart: by the facts, or because it is none of those known."""
    known = facts.plate_numbers.get(issue, frozenset())
    return bool(plate) and ((issue, plate) in facts.plates or (bool(known) and plate not in known))


def _walls(item: Item, seen: Reading, market: Market) -> Iterator[tuple[str, str]]:
    facts = market.facts
    if plate_wall(item.issue, item.plate, facts):
        yield "plate", f"plate {item.plate}"
    letters = [each for each in item.letters if (item.issue, each) in facts.letterings]
    if letters:
        yield "letters", f"lettering {' '.join(letters)}"
    yield from _cancel_walls(item, facts)
    for each in _features(item, seen, facts):
        yield each.id, each.said
    if named := sorted({each.words for each in seen.all("variety")}):
        yield "named variety", thing_words(named)
    if item.certificate or seen.first("certificate") == "yes":
        yield "certificate", "with certificate"
    if item.attachment == "front":
        yield "attachment", "front only"
    yield from _journey_walls(item, seen, market)


def _cancel_walls(item: Item, facts: MarketFacts) -> Iterator[tuple[str, str]]:
    family = facts.cancel_family(item.issue, item.cancel)
    said = family.said if family else "cancel"
    if family and family.alone:
        yield "cancel", said
    ordinary = family.colours if family else ("black", "red")
    if item.cancel_colour and item.cancel_colour not in ordinary and "*" not in ordinary:
        yield "cancel colour", f"{item.cancel_colour} {said}"
    number = item.cancel_number
    if number and item.cancel == "maltese_cross":
        yield "cancel number", f"number {number} in the {said}"
    elif number and is_code_abroad(number):
        yield "cancel number", f"numeral {number} of an office abroad"


def made_up(item: Item) -> bool:
    """Whether the cover check, as kept with the piece, speaks against the stamp belonging to it."""
    return bool(item.cover and item.cover.finding.startswith(WORDS["contradicts"]))


def _journey_walls(item: Item, seen: Reading, market: Market) -> Iterator[tuple[str, str]]:
    if made_up(item):
        return
    to = (item.cover.to if item.cover else "") or seen.first("destination")
    if to and market.region(to) == "abroad":
        yield "destination", f"to {to.title()}"
    day = (item.cover.date if item.cover else "") or seen.first("date")
    first = market.issued.get(item.issue, "")
    if item.attachment in _BACKED and len(day) == 10 and first:
        if day <= first:
            yield "date", "first day or before"
        elif day[:7] == first[:7]:
            yield "date", "first month"


def _features(item: Item, seen: Reading, facts: MarketFacts) -> Iterator[Feature]:
    """The features that what was read, or the words kept with the piece, say it has."""
    told = {(each.kind, each.value) for each in seen.observations if each.said == "is"}
    told |= {("fault", fault.term) for fault in item.faults}
    told |= {("mark", mark) for mark in (item.cover.marks.split(", ") if item.cover else ())}
    words = f" {_plain_words(seen)} "
    for each in facts.features:
        if any(_is(each, kind, value) for kind, value in told) or any(
            f" {phrase} " in words for phrase in each.phrases
        ):
            yield each


def _is(each: Feature, kind: str, value: str) -> bool:
    if kind != each.kind:
        return False
    return value in each.values or ("*" in each.values and value.startswith(each.prefix))


def _plain_words(seen: Reading) -> str:
    """The line in small letters and single blanks, without what it denies or doubts."""
    text = seen.text
    for each in seen.observations:
        if each.said != "is":
            text = text[: each.start] + " " * (each.end - each.start) + text[each.end :]
    return " ".join(re.sub(r"[^0-9a-z½]+", " ", text.casefold()).split())


def _doubts(item: Item, seen: Reading, facts: MarketFacts) -> Iterator[str]:
    """Doubted or alternative values of which one would be a wall."""
    for each in seen.observations:
        values = each.value.split("|")
        open_ = each.said == "perhaps" or len(values) > 1
        if each.said == "is not" or not open_:
            continue
        if each.kind == "plate" and any(plate_wall(item.issue, value, facts) for value in values):
            yield f"plate {' or '.join(values)}"
        elif each.kind == "variety" or any(
            _is(feature, each.kind, value) for feature in facts.features for value in values
        ):
            yield each.words
    for value in seen.differing("plate"):
        if value != item.plate and plate_wall(item.issue, value, facts):
            yield f"plate {value}"


def wear_of(item: Item) -> Wear:
    """How a piece is by its kept fields alone."""
    flaws = tuple(Flaw("fault", each.term, _stamp_of(each, item)) for each in item.faults)
    return Wear(item.margins, flaws, item.gum, stamps_in(item.multiple))


def _stamp_of(fault: Fault, item: Item) -> str:
    """The stamp of a multiple that a kept fault is in: "thin in QH"; "" when it does not say."""
    last = fault.where.split()[-1:]
    return last[0] if last and len(item.letters) > 1 and last[0] in item.letters else ""


def _wear(item: Item, seen: Reading, *, whole_line: bool) -> Wear:
    """With the flaws that the line in hand, or the words kept with the piece, say besides."""
    kept = wear_of(item)
    count = kept.stamps
    flaws = [
        Flaw(each.kind, each.value, each.stamp if count > 1 else "")
        for kind in _FLAWS
        for each in seen.all(kind)
        if (kind, each.value) not in _SOUND
    ]
    if not whole_line:
        flaws += kept.flaws
    return replace(kept, flaws=tuple(dict.fromkeys(flaws)))


def _margins(item: Item, seen: Reading) -> Iterator[str]:
    """The margins of each stamp: its own, else those said of all, else as kept one a stamp."""
    said = seen.all("margins")
    general = next((each.value for each in said if not each.stamp), "")
    kept = item.margins if len(item.margins) == len(item.letters) else ()
    if not said and len(set(item.margins)) == 1:
        general = item.margins[0]
    for place, letters in enumerate(item.letters):
        own = next((each.value for each in said if each.stamp == letters), "")
        yield own or (kept[place] if kept and not said else general)


def _not_priced(item: Item, seen: Reading, market: Market) -> Iterator[str]:
    """Every word of the line that no sum takes, in the order typed."""
    named: list[tuple[int, str]] = [
        (each.start, f"“{run}”") for each in seen.unread if (run := each.text.strip(" ,.;:-"))
    ]
    firsts: dict[str, str] = {}
    for each in seen.observations:
        does = market.facts.does.get(each.kind, "named")
        again = firsts.setdefault(each.kind, each.value) != each.value and each.said == "is"
        if does == "shop":
            continue
        if each.said != "is":
            how = "not" if each.said == "is not" else "perhaps"
            named.append((each.start, f"{how} {each.words}"))
        elif does == "named" or _left_out(each, again, item, market):
            named.append((each.start, each.words))
    to = item.cover.to if item.cover else ""
    if to and not market.region(to):
        named.append((len(seen.text), f"to {to.title()} (no place listed: taken as inland)"))
    yield from (words for _, words in sorted(named))


def _left_out(each: Observation, again: bool, item: Item, market: Market) -> bool:
    """Whether an asserted observation reaches neither factor, wall nor field."""
    schedule = market.schedule
    if each.kind in _FLAWS:
        return (each.kind, each.value) not in _SOUND and not schedule.step(each.kind, each.value)
    if each.kind == "margins":
        return False
    if each.kind in ("plate", "cancel", "cancel_colour", "cancel_number", "multiple", "attachment"):
        return again or "|" in each.value
    if each.kind in ("overprint", "mark", "cancel_type"):
        kept = each.kind == "overprint" and item.issue.startswith("official")
        return not kept and not any(_is(one, each.kind, each.value) for one in market.facts.features)
    return each.kind == "date" and len(each.value) == 10 and item.attachment not in _BACKED


def thing_words(things: Iterable[str]) -> str:
    """Several words as one list: "a, b and c"."""
    listed = list(things)
    return ", ".join(listed[:-1]) + f" and {listed[-1]}" if len(listed) > 1 else "".join(listed)
