"""The words of the help, a few short paragraphs a screen."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Help:
    """A screen's name in plain words and what to know about it."""

    title: str
    paragraphs: tuple[str, ...]


HELP: dict[str, Help] = {
    "counter": Help(
        "the counter",
        (
            "Type what you see in one line, in any order and in the trade's shorthand: "
            "1d blk imp KC sm crown mx red. Slips of the key are forgiven. Under the line stands what "
            "was read; what was not understood is shown too.",
            "On the left is what it could be, with a share each; on the right the card of the chosen "
            "one. Below stands what its ink bears of water, peroxide and spirit: unknown means don't.",
            "The same line searches the stock. Enter puts the chosen line into the quote. Add under "
            "100 for a price limit, or type a stock number.",
            "Everything works without a network. A finding is an opinion with its reasons, never a "
            "certificate: for that there are expert committees.",
        ),
    ),
    "quote": Help(
        "the quote",
        (
            "The lines quoted so far, as a customer may see them: no cost or margin stands here.",
            "Type a discount as 10%, or a round price for the lot as 45, and press Enter; an empty "
            "line takes the discount off again.",
        ),
    ),
    "help": Help("help", ("This page. Esc goes back.",)),
    "find": Help("finding an action", ("Type a word of what you want to do; Enter does it.",)),
}
