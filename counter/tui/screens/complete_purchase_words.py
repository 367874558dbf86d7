"""Completing a purchase: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "owed", ("enter",), "Enter", "note it",
           "Note what was typed for the line in hand; - empties it.", "save", 1),
    Action("down", "owed", ("down",), "↓", "next", "The next line."),
    Action("up", "owed", ("up",), "↑", "line before", "The line before."),
    Action("fetch", "owed", ("tab",), "Tab", "as it stands",
           "Put what stands there into the line, to change a word of it.", "edit"),
    Action("split", "owed", ("f6",), "F6", "split",
           "Share the lot's price between its pieces, once.", "lot break expected by hand", 2),
    Action("paper", "owed", ("f5",), "F5", "paper",
           "The purchase invoice made out for a private seller.", "invoice print", 3),
    Action("take_back", "owed", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake", 4),
    Action("back", "owed", ("escape",), "Esc", "back", "Back.", "", 6),
)
# fmt: on

HELP = Help(
    "completing a purchase",
    (
        "What the stock book asks for and was not said at the stall. Each answer is noted at once as "
        "an entry of its own, and Ctrl+T takes the last one back.",
        "The address belongs to the person, who is kept apart from the purchase. A seller who shows "
        "VAT on the paper keeps the pieces off the margin scheme: ask HMRC or an accountant.",
    ),
)
