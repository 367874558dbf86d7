"""Kept quotes: the actions and the help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("open", "kept", ("enter",), "Enter", "take it",
           "Take the quote into hand, with its prices and its discount.", "open sell", 1),
    Action("down", "kept", ("down",), "↓", "next", "The next quote."),
    Action("up", "kept", ("up",), "↑", "quote before", "The quote before."),
    Action("withdraw", "kept", ("f8",), "F8", "withdraw", "End the quote: it no longer holds.",
           "cancel lapse delete", 2),
    Action("take_back", "kept", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake", 3),
    Action("back", "kept", ("escape",), "Esc", "back", "Back.", "", 6),
)
# fmt: on

HELP = Help(
    "kept quotes",
    (
        "The open quotes, the newest first; type a name, a number or a word to find one. Enter takes "
        "it into hand in place of what is there. One whose day is past must be quoted again.",
    ),
)
