"""The quote in full: its actions and its help."""

from counter.tui.kit.action import Action, Help

# fmt: off
ACTIONS = (
    Action("back", "quote", ("escape",), "Esc", "back", "Back to the counter; the quote stays.", "", 6),
    Action("down", "quote", ("down",), "↓", "next", "The next line."),
    Action("up", "quote", ("up",), "↑", "row before", "The line before."),
    Action("remove", "quote", ("delete", "f8"), "Del", "take out", "Take the chosen line out.",
           "remove delete", 2),
    Action("discount", "quote", ("enter",), "Enter", "discount",
           "Take the discount typed: 10% or a price for the lot; empty for none.", "percent round", 1),
    Action("copy", "quote", ("f5",), "F5", "copy", "Copy the quote as plain text.", "clipboard", 3),
    Action("clear", "quote", ("f9",), "F9", "empty it", "Start an empty quote.", "new", 4),
)
# fmt: on

HELP = Help(
    "the quote",
    (
        "The lines quoted so far, as a customer may see them: no cost or margin stands here.",
        "Type a discount as 10%, or a round price for the lot as 45, and press Enter; an empty "
        "line takes the discount off again.",
    ),
)
