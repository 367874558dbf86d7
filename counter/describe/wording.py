"""The trade's words for the parts of an item: multiple, margins, cancel, gum, cover, faults."""

from __future__ import annotations

from counter.values.item import Fault, Item

MARGINS = {
    "4": "4 margins",
    "3": "3 margins",
    "2": "2 margins",
    "1": "1 margin",
    "0": "no margins",
    "four_large": "4 large margins",
    "four": "4 margins",
    "three": "3 margins",
    "close": "close margins",
}
GUMS = {
    "unused_og": "unused original gum",
    "hinged": "mounted, original gum",
    "no_gum": "unused without gum",
}
_CANCELS = {
    "maltese_cross": "MX",
    "none": "uncancelled",
    "pen": "pen cancel",
    "squared_circle": "squared circle",
}
_CANCELS_IN_FULL = _CANCELS | {"maltese_cross": "Maltese Cross", "cds": "circular date stamp"}
_ATTACHED = {
    "loose": "",
    "piece": "on piece",
    "front": "on front",
    "cover": "on cover",
    "entire": "on entire",
}
_PREPOSITIONS = ("at ", "in ", "on ", "near ", "through ", "from ", "across ", "along ", "to ")


def plain_term(term: str) -> str:
    """A reference id as words: closed_tear is "closed tear"."""
    return term.replace("_", " ")


def multiple_words(multiple: str) -> str:
    """single, pair, strip_3, block_4, irregular_5 as said: "", "pair", "strip of 3", "block of 4"."""
    if multiple == "single":
        return ""
    kind, _, count = multiple.rpartition("_")
    if not (kind and count.isdecimal()):
        return plain_term(multiple)
    return f"{'irregular block' if kind == 'irregular' else plain_term(kind)} of {count}"


def margin_words(margins: tuple[str, ...]) -> list[str]:
    """Each stamp's margins in words; one entry when they are all alike."""
    words = [MARGINS.get(each, plain_term(each)) for each in margins]
    return words[:1] if len(set(words)) == 1 else words


def stamp_margins(item: Item) -> str:
    """The margins of a multiple stamp by stamp: "QH cut into, the others 4 margins"; "" where they are
    alike or not said of each."""
    if len(item.margins) != len(item.letters) or len(set(item.margins)) < 2:
        return ""
    words = [MARGINS.get(each, plain_term(each)) for each in item.margins]
    common = max(words, key=words.count)
    most = words.count(common)
    rest = common if most > 1 and sum(words.count(each) == most for each in set(words)) == 1 else ""
    said = [f"{at} {word}" for at, word in zip(item.letters, words, strict=True) if word != rest]
    return ", ".join([*said, f"the others {rest}"] if rest else said)


def cancel_words(item: Item, in_full: bool = False) -> str:
    """The cancel with its colour and number: "red MX", "numeral 46"; in full "red Maltese Cross"."""
    if not item.cancel:
        return f"{item.cancel_colour} cancel" if item.cancel_colour else ""
    what = (_CANCELS_IN_FULL if in_full else _CANCELS).get(item.cancel, plain_term(item.cancel))
    return " ".join(part for part in (item.cancel_colour, what, item.cancel_number) if part)


def attached_words(item: Item) -> str:
    """on cover, on piece...; "" for a loose stamp or when it was not noted."""
    return _ATTACHED.get(item.attachment, item.attachment)


def tied_words(tied: str) -> str:
    """tied, not tied, or "" when it was not looked at."""
    return {"": "", "no": "not tied", "not_tied": "not tied", "yes": "tied"}.get(tied, tied)


def fault_words(fault: Fault) -> str:
    """thin + "at top" is "thin at top"; thin + "top left" is "thin (top left)"."""
    what, where = plain_term(fault.term), fault.where
    if not where:
        return what
    return f"{what} {where}" if where.lower().startswith(_PREPOSITIONS) else f"{what} ({where})"
