"""Selling: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "sale", ("enter",), "Enter", "answer",
           "Take what was typed and go on; on the last line, note the sale.", "next", 1),
    Action("note", "sale", ("f9",), "F9", "note it",
           "Note the sale: it is on the disk before the screen says so.", "sell done save", 2),
    Action("down", "sale", ("down",), "↓", "next", "The next question."),
    Action("up", "sale", ("up",), "↑", "question before", "The question before."),
    Action("fetch", "sale", ("tab",), "Tab", "as it stands",
           "Put what stands there into the line, to change a word of it.", "edit", 3),
    Action("back", "sale", ("escape",), "Esc", "back",
           "Back to the quote; what was answered stays.", "", 6),
)
# fmt: on

HELP = Help(
    "selling",
    (
        "The quickest sale is a digit for how it is paid, Enter, and F9. Everything else may stay "
        "empty: - takes an answer back.",
        "Paid now is empty for all of it, a sum for a part of it (the rest stays owed, or follows a "
        "deposit), or parts by different ways: cash 20, card 52.50.",
        "What is taken in part exchange is a purchase of its own at its full price: two deals, never "
        "netted. Write it like any purchase: 1d red pl 9 £20.",
        "Another currency is turned once at your own dated rate, which you note in the house's "
        "settings (F2, house). On approval nothing is sold until something is kept.",
        "No cost or margin stands here. VAT answers are reference only: check with HMRC or an "
        "accountant.",
    ),
)
