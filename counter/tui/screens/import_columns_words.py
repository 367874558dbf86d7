"""The columns of a stock list: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "columns", ("enter",), "Enter", "take it",
           "Take the number or the first letters typed; - leaves the column out.", "choose", 1),
    Action("down", "columns", ("down",), "↓", "next", "The next column of the file."),
    Action("up", "columns", ("up",), "↑", "one before", "The column before."),
    Action("back", "columns", ("escape",), "Esc", "done",
           "Back; the lines are looked over again.", "ready finished", 2),
)
# fmt: on

HELP = Help(
    "which column is what",
    (
        "Each column of the file with its first cell, and what it is taken for. Type the number of "
        "what it is, or its first letters; - leaves it out. Esc goes back, and the lines are "
        "looked over again.",
        "What you say here is remembered by the column's name, for the next list.",
    ),
)
