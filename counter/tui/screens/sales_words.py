"""The sales: the actions and the help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("open", "sales", ("enter",), "Enter", "open",
           "Open the sale: balance, approval kept or returned, refund, a deposit ended.",
           "settle refund balance approval deposit cancel", 1),
    Action("down", "sales", ("down",), "↓", "next", "The next sale."),
    Action("up", "sales", ("up",), "↑", "sale before", "The sale before."),
    Action("paper", "sales", ("f5",), "F5", "invoice", "The paper of the sale.", "print copy", 2),
    Action("back", "sales", ("escape",), "Esc", "back", "Back.", "", 6),
)
# fmt: on

HELP = Help(
    "the sales",
    (
        "Sales, deposits, goods on approval and refunds, the newest first. Type a number, a buyer's "
        "name, a day, a stock number or a state (deposit, on approval, refund) to find one.",
        "What becomes of a sale is noted as an entry of its own; the sale stays as it was written.",
    ),
)
