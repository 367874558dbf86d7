"""The house's settings: the actions and the help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "house", ("enter",), "Enter", "note it",
           "Note what was typed for the line in hand; - empties it or takes your edit off.",
           "save change set", 1),
    Action("down", "house", ("down",), "↓", "next", "The next setting."),
    Action("up", "house", ("up",), "↑", "setting before", "The setting before."),
    Action("fetch", "house", ("tab",), "Tab", "as it stands",
           "Put what stands there into the line, to change a word of it.", "edit", 2),
    Action("next_group", "house", ("pagedown",), "PgDn", "group", "The next group of settings.",
           "business limits vat exchange schedule factors", 3),
    Action("group_before", "house", ("pageup",), "PgUp", "group before", "The group before."),
    Action("back", "house", ("escape",), "Esc", "back", "Back.", "", 6),
)
# fmt: on

HELP = Help(
    "the house",
    (
        "Your business as it stands on papers, VAT registration, the profit you want, the limits of "
        "the law, rates of exchange and the factors of the house schedule. PgDn goes to the next "
        "group. Each change is noted with its day.",
        "Limits and rates are dated: a new figure holds from the day in the first line, and what "
        "was sold before keeps the old one. A rate of exchange is how many units one pound buys.",
        "The figures given are reference only: check with HMRC or an accountant before relying on one.",
    ),
)
