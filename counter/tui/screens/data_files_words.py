"""Your data: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("take", "data", ("enter",), "Enter", "do it", "Do what is chosen.",
           "import export verify backup restore merge csv", 1),
    Action("down", "data", ("down",), "↓", "next", "The next one."),
    Action("up", "data", ("up",), "↑", "one before", "The one before."),
    Action("back", "data", ("escape",), "Esc", "back", "Back to the counter.", "", 6),
)
# fmt: on

HELP = Help(
    "your data",
    (
        "Everything you note is in one folder, readable by you alone, in files a person can read. "
        "Choose with the arrow keys or by number; Enter does it.",
        "Bring in a stock list from a spreadsheet (CSV); write out the stock, the purchases or the "
        "sales; look everything over; back it up and put it back; bring in what was noted on "
        "another laptop and settle what both changed.",
        "Back up after every fair, on a disk that does not travel with the laptop.",
    ),
)
