"""The cover check: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "cover", ("enter",), "Enter", "answer",
           "Take the answer typed (a number for a choice, - takes it back) and go on.", "reply", 1),
    Action("turn", "cover", ("tab",), "Tab", "turn",
           "The dates, the reasons, the questions, the rate.", "view page next", 2),
    Action("turn_back", "cover", ("shift+tab",), "⇧Tab", "turn back", "The view before."),
    Action("down", "cover", ("down",), "↓", "next", "The next question."),
    Action("up", "cover", ("up",), "↑", "question before", "The question before."),
    Action("page_down", "cover", ("pagedown",), "PgDn", "read on", "Further down the page."),
    Action("page_up", "cover", ("pageup",), "PgUp", "read back", "Further up the page."),
    Action("rate", "cover", ("f6",), "F6", "rate",
           "What it cost to send, and which weights explain the franking; again for the rest.",
           "postage pence weight miles sheets registered unpaid", 3),
    Action("afresh", "cover", ("f8",), "F8", "afresh",
           "Forget the answers given: back to what the line or the stock says.", "clear reset", 5),
    Action("keep", "cover", ("f9",), "F9", "keep",
           "Keep the finding with the item of stock; it stands in the description.",
           "save note description", 4),
    Action("back", "cover", ("escape",), "Esc", "back",
           "Back to the counter; the answers wait while the line is unchanged.", "", 6),
)
# fmt: on

HELP = Help(
    "the cover check",
    (
        "It begins with what the ask line says. Type a stock number, or choose a cover among the "
        "stock with the arrow keys, and it begins with that item.",
        "On top stands the finding with what speaks for and against. Tab turns between the dates, "
        "the reasons, the questions and the rate; a wide screen shows them side by side.",
        "The question in hand stands at the foot, the most telling first. Answer with its number, "
        "or in your own shorthand: 12 mar 1842, numeral 46, half ounce, 2 x 1d. Every answer judges "
        "the cover anew; - takes an answer back.",
        "One strong point against outweighs any number of weak ones for. Not tied, or no backstamp, "
        "is weak at most. A date that is only remembered may caution and never condemns.",
        "A finding is not a certificate: for certainty ask an expert committee.",
    ),
)
