"""Correcting a piece: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "mend", ("enter",), "Enter", "note it",
           "Note what was typed for the field in hand; - empties the field.", "save change", 1),
    Action("down", "mend", ("down",), "↓", "next", "The next field."),
    Action("up", "mend", ("up",), "↑", "field before", "The field before."),
    Action("fetch", "mend", ("tab",), "Tab", "as it stands",
           "Put what stands in the field into the line, to change a word of it.", "edit present", 2),
    Action("take_back", "mend", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake", 3),
    Action("back", "mend", ("escape",), "Esc", "back", "Back to the piece.", "", 6),
)
# fmt: on

HELP = Help(
    "correcting a piece",
    (
        "The arrow keys choose a field; what you type and enter is noted at once, one entry a field, "
        "and Ctrl+T takes the last one back. - empties a field. Tab puts what stands there into the "
        "line, to change a word of it.",
        "Faults are terms with where they are, between semicolons: thin at top; crease lower right. "
        "+ before them adds to what is there; photographs too.",
        "Sold and on approval follow the sale, and the cost follows the purchase: a refund or the "
        "lot's split changes those.",
    ),
)
