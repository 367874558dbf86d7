"""The quote in full: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("back", "quote", ("escape",), "Esc", "back", "Back to the counter; the quote stays.", "", 7),
    Action("down", "quote", ("down",), "↓", "next", "The next line."),
    Action("up", "quote", ("up",), "↑", "row before", "The line before."),
    Action("remove", "quote", ("delete", "f8"), "Del", "take out", "Take the chosen line out.",
           "remove delete", 3),
    Action("discount", "quote", ("enter",), "Enter", "discount",
           "Take the discount typed: 10% or a price for the lot; empty for none.", "percent round", 1),
    Action("sell", "quote", ("f6",), "F6", "sell",
           "Sell what is in the quote: payment, deposit, approval, part exchange.",
           "sale pay cash card note", 2),
    Action("keep", "quote", ("f7",), "F7", "keep", "Keep the quote until a day.",
           "save valid customer", 4),
    Action("kept", "quote", ("f4",), "F4", "kept", "Find a kept quote again.", "find open quotes", 5),
    Action("copy", "quote", ("f5",), "F5", "copy", "Copy the quote as plain text.", "clipboard", 10),
    Action("clear", "quote", ("f9",), "F9", "empty", "Start an empty quote.", "new", 11),
)
# fmt: on

HELP = Help(
    "the quote",
    (
        "The lines quoted so far, as a customer may see them: no cost or margin stands here.",
        "Type a discount as 10%, or a round price for the lot as 45, and press Enter; an empty "
        "line takes the discount off again.",
        "F6 sells it. F7 keeps it for a customer until a day; F4 finds a kept one again.",
    ),
)
