"""Writing a file: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("write", "filing", ("enter",), "Enter", "write it",
           "Write the file to the place shown.", "save export", 1),
    Action("back", "filing", ("escape",), "Esc", "back", "Back; nothing is written.", "cancel", 6),
)
# fmt: on

HELP = Help(
    "writing a file",
    (
        "A bare name goes into the data folder; write a path, or ~ for your home, for another place. "
        "The file is written whole or not at all.",
        "Pages to print are self-contained HTML: open them in any browser and print from there.",
    ),
)
