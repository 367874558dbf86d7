"""Work with one data file: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("begin_it", "data_file", ("enter",), "Enter", "do it",
           "Do it with the path typed.", "go", 1),
    Action("complete", "data_file", ("tab",), "Tab", "complete",
           "Complete the path from the names that are there.", "path file name folder", 2),
    Action("down", "data_file", ("down",), "↓", "next", "The next choice; else a line down."),
    Action("up", "data_file", ("up",), "↑", "one before", "The choice before; else a line up."),
    Action("page_down", "data_file", ("pagedown",), "PgDn", "further", "A page down."),
    Action("page_up", "data_file", ("pageup",), "PgUp", "page back", "A page up."),
    Action("back", "data_file", ("escape",), "Esc", "back",
           "Back to your data; while it works, stop it.", "stop cancel", 6),
)
# fmt: on

HELP = Help(
    "a data file",
    (
        "Type the path of the file or folder; Tab completes it from the names that are there, ~ is "
        "your own folder. Enter does it.",
        "Long work shows how far it is. Esc stops it, and what was begun is left as if it never was.",
        "No file that is there already is ever written over.",
    ),
)
