"""Keeping a quote: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "keep", ("enter",), "Enter", "answer",
           "Take what was typed and go on; on the last line, keep the quote.", "next", 1),
    Action("note", "keep", ("f9",), "F9", "keep it", "Keep the quote.", "save note", 2),
    Action("down", "keep", ("down",), "↓", "next", "The next question."),
    Action("up", "keep", ("up",), "↑", "question before", "The question before."),
    Action("fetch", "keep", ("tab",), "Tab", "as it stands",
           "Put what stands there into the line, to change a word of it.", "edit"),
    Action("back", "keep", ("escape",), "Esc", "back", "Back to the quote.", "", 6),
)
# fmt: on

HELP = Help(
    "keeping a quote",
    (
        "A kept quote holds its prices until the day you say. F4 on the quote finds it again, takes "
        "it into hand and so into a sale; the sale marks it taken.",
        "In another currency the sum is turned once, at your own rate of the day.",
    ),
)
