"""A piece of stock in true trade words: a short line for the list, a long form for a listing.

Only what was noted is said. Every fault and every treatment noted is said, in both forms; a
watermark, a plate or a margin that nobody looked at is not mentioned, and nothing is praised.
"""

from __future__ import annotations

from counter.describe.names import IssueName, Names, name_of
from counter.describe.wording import (
    GUMS,
    attached_words,
    cancel_words,
    fault_words,
    margin_words,
    multiple_words,
    plain_term,
    stamp_margins,
    tied_words,
)
from counter.values.dates import day_words
from counter.values.item import Certificate, Item, TreatmentDone


def short_line(item: Item, names: Names) -> str:
    """One compact line: issue, plate, letters, multiple, cover, margins, cancel, faults, treatments.

    What lowers the price stands before what only tells a story, so that a narrow list shows it.
    """
    heading = _heading(item, name_of(item.issue, names))
    return _joined(
        ", ",
        heading or item.words or "not identified",
        stamp_margins(item) or _short_margins(item.margins),
        cancel_words(item),
        GUMS.get(item.gum, plain_term(item.gum)),
        lowering(item),
        "cert" if item.certificate else "",
        _short_journey(item),
        item.words if heading else "",
    )


def lowering(item: Item) -> str:
    """What lowers the price, as it stands in the short line: faults, then treatments."""
    return _joined(", ", *map(fault_words, item.faults), _short_treatments(item.treatments))


def _heading(item: Item, name: IssueName) -> str:
    """1d black pl 6 KC; 2d blue 1841 white lines pl 3 strip of 3 KA-KC on cover; "" when nothing is."""
    return _joined(
        " ",
        item.denomination or name.denomination,
        item.colour or name.colour,
        name.tail,
        "" if _says_plate(name, item.plate) else f"pl {item.plate}",
        item.die and "Die" not in name.tail and f"die {item.die}",
        item.alphabet and f"alphabet {item.alphabet}",
        multiple_words(item.multiple),
        _short_letters(item.letters),
        "inverted watermark" if "inverted" in item.watermark else "",
        attached_words(item),
    )


def _says_plate(name: IssueName, plate: str) -> bool:
    """Whether there is no plate to say, or the issue's own name says it ("large crown plate 6")."""
    return not plate or f"plate {plate} " in f"{name.tail} "


def _short_letters(letters: tuple[str, ...]) -> str:
    """KC; two stamps KC-KD; a longer run by its ends; four letters upper over lower, CK/KC."""
    written = [f"{each[:2]}/{each[2:]}" if len(each) == 4 else each for each in letters]
    return f"{written[0]}-{written[-1]}" if len(written) > 1 else "".join(written)


def _short_margins(margins: tuple[str, ...]) -> str:
    words = margin_words(margins)
    if len(words) > 1:
        return "margins " + "/".join(each.removesuffix(" margins") for each in words)
    return "".join(words)


def _margins(item: Item) -> list[str]:
    return [] if stamp_margins(item) else margin_words(item.margins)


def _short_treatments(treatments: tuple[TreatmentDone, ...]) -> str:
    kinds = dict.fromkeys(plain_term(each.treatment) for each in treatments)
    return f"treated: {', '.join(kinds)}" if kinds else ""


def _short_journey(item: Item) -> str:
    cover = item.cover
    if not cover:
        return ""
    return _joined(
        " ", day_words(cover.date), cover.town, cover.to and f"to {cover.to}", tied_words(cover.tied)
    )


def long_form(item: Item, names: Names) -> str:
    """The listing, a line for each side of the piece; the certificate's words stand as given."""
    lines = (
        _identity(item, name_of(item.issue, names)),
        _plating(item),
        _sentence(stamp_margins(item)),
        _sentence(*_margins(item), cancel_words(item, in_full=True), _gum(item)),
        _journey(item),
        _sentence(item.words),
        item.faults and f"Faults: {_joined('; ', *map(fault_words, item.faults))}.",
        *map(_treatment, item.treatments),
        _certificate(item.certificate),
    )
    return "\n".join(line for line in lines if line)


def _identity(item: Item, name: IssueName) -> str:
    what = _joined(" ", item.denomination or name.denomination, item.colour or name.colour)
    issued = name.issued and f"first issued {day_words(name.issued)}"
    return _sentence(what, name.title or name.tail, issued) or ("" if item.words else "Not identified.")


def _plating(item: Item) -> str:
    """Plate, die, letters, multiple, and the watermark only if somebody looked at it."""
    lettered = _joined(", ", *map(_spaced_letters, item.letters))
    return _sentence(
        multiple_words(item.multiple),
        item.plate and f"plate {item.plate}",
        item.die and f"die {item.die}",
        item.alphabet and f"alphabet {item.alphabet}",
        lettered and f"lettered {lettered}",
        item.watermark and f"watermark seen: {plain_term(item.watermark)}",
    )


def _spaced_letters(letters: str) -> str:
    """KC is "K C"; CKKC is "C K over K C"."""
    return " over ".join(" ".join(letters[at : at + 2]) for at in range(0, len(letters), 2))


def _gum(item: Item) -> str:
    return GUMS.get(item.gum, plain_term(item.gum))


def _journey(item: Item) -> str:
    cover = item.cover
    if not cover:
        return _sentence(attached_words(item))
    town, to = cover.town and f"from {cover.town}", cover.to and f"to {cover.to}"
    tied = tied_words(cover.tied)
    return _sentence(
        attached_words(item), _joined(" ", town, to), day_words(cover.date), tied, cover.marks
    )


def _treatment(done: TreatmentDone) -> str:
    said = _joined(
        ", ",
        plain_term(done.treatment),
        _joined(" ", done.product, done.strength),
        f"{done.seconds} seconds" if done.seconds is not None else "",
        done.before and f"before: {done.before}",
        done.after and f"after: {done.after}",
        done.by and f"by {done.by}",
    )
    return f"Treated {day_words(done.date)}: {said}."


def _certificate(paper: Certificate | None) -> str:
    if not paper:
        return ""
    number = paper.number and f"no. {paper.number}"
    return f"Certificate: {_joined(', ', paper.body, number, day_words(paper.date), paper.opinion)}."


def _joined(between: str, *parts: str | bool) -> str:
    return between.join(part for part in parts if part and isinstance(part, str))


def _sentence(*parts: str) -> str:
    said = _joined(", ", *parts)
    return f"{said[0].upper()}{said[1:]}." if said else ""
