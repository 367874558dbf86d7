"""The help page: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("back", "help", ("escape", "enter"), "Esc", "back", "Back to where you were.", "", 1),
    Action("down", "help", ("down",), "↓", "down", "One line down."),
    Action("up", "help", ("up",), "↑", "up", "One line up."),
    Action("page_down", "help", ("pagedown", "space"), "PgDn", "further", "One page down.", "", 2),
    Action("page_up", "help", ("pageup",), "PgUp", "back up", "One page up."),
)
# fmt: on

HELP = Help("help", ("This page. Esc goes back.",))
