"""The finder of actions: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("back", "find", ("escape",), "Esc", "back", "Back without doing anything.", "", 2),
    Action("down", "find", ("down",), "↓", "next", "The next action."),
    Action("up", "find", ("up",), "↑", "row before", "The action before."),
    Action("take", "find", ("enter",), "Enter", "do it", "Do the chosen action.", "", 1),
)
# fmt: on

HELP = Help("finding an action", ("Type a word of what you want to do; Enter does it.",))
