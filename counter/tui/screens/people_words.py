"""The people: the actions and the help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("open", "people", ("enter",), "Enter", "open",
           "Open the person: complete, see what is held, export, erase.",
           "details privacy export erase", 1),
    Action("down", "people", ("down",), "↓", "next", "The next person."),
    Action("up", "people", ("up",), "↑", "person before", "The person before."),
    Action("back", "people", ("escape",), "Esc", "back", "Back.", "", 6),
)
# fmt: on

HELP = Help(
    "the people",
    (
        "Sellers and buyers, kept apart from what was bought and sold. Type a name, a town or a "
        "number to find one.",
        "Keep this list from a customer's eyes: the details are other people's.",
    ),
)
