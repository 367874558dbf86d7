"""The cash box: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "till", ("enter",), "Enter", "note it",
           "Note the sum typed on the line in hand; counted closes the day.", "save close", 1),
    Action("down", "till", ("down",), "↓", "next", "The next line."),
    Action("up", "till", ("up",), "↑", "line before", "The line before."),
    Action("take_back", "till", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake", 3),
    Action("back", "till", ("escape",), "Esc", "back", "Back to the day.", "", 6),
)
# fmt: on

HELP = Help(
    "the box",
    (
        "Note the float in the morning, and what goes out of the box beside purchases: expenses, "
        "money banked or drawn. Write what for behind the sum: 12 table fee.",
        "Counting the box closes the day: the count and what it should have held are kept side by "
        "side, and a day is closed once.",
    ),
)
