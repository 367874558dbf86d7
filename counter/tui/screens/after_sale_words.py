"""What became of a sale: the actions and the help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "settle", ("enter",), "Enter", "answer",
           "Take what was typed and go on; on the last line, note it.", "next", 1),
    Action("note", "settle", ("f9",), "F9", "note it", "Note what became of it.", "save done", 2),
    Action("down", "settle", ("down",), "↓", "next", "The next question."),
    Action("up", "settle", ("up",), "↑", "question before", "The question before."),
    Action("fetch", "settle", ("tab",), "Tab", "as it stands",
           "Put what stands there into the line, to change a word of it.", "edit"),
    Action("paper", "settle", ("f5",), "F5", "paper", "The invoice or the credit note.",
           "print copy invoice", 3),
    Action("take_back", "settle", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake", 4),
    Action("back", "settle", ("escape",), "Esc", "back", "Back to the sales.", "", 6),
)
# fmt: on

HELP = Help(
    "what became of a sale",
    (
        "A deposit becomes the sale on the day its balance is paid, or falls through and is paid "
        "back. Of goods on approval what is kept is sold and the rest is back in stock.",
        "A refund is an entry of its own with its reason: the pieces come back under their own "
        "numbers and cost, and the refund's period of the book is corrected.",
    ),
)
