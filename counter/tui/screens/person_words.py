"""One person: the actions and the help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "person", ("enter",), "Enter", "note it",
           "Note what was typed for the line in hand; - empties it.", "save complete", 1),
    Action("down", "person", ("down",), "↓", "next", "The next line."),
    Action("up", "person", ("up",), "↑", "line before", "The line before."),
    Action("fetch", "person", ("tab",), "Tab", "as it stands",
           "Put what stands there into the line, to change a word of it.", "edit", 5),
    Action("export", "person", ("f5",), "F5", "export",
           "Everything held about the person, in a file.", "access request file privacy", 2),
    Action("erase", "person", ("f8",), "F8", "erase",
           "Forget the person as far as the law lets; asked twice.", "delete forget privacy", 3),
    Action("take_back", "person", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake"),
    Action("back", "person", ("escape",), "Esc", "back", "Back.", "", 6),
)
# fmt: on

HELP = Help(
    "one person",
    (
        "Details can follow later; each is noted at once. F5 writes everything held about the person "
        "to a file, for when they ask.",
        "F8 erases on request, in every old entry too. What tax law wants kept stays: name and "
        "address while a piece bought from them is unsold, then for the term the screen names with "
        "its reason. Ask an accountant about your own case.",
    ),
)
