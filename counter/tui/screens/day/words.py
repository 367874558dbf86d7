"""The day: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("complete", "day", ("enter",), "Enter", "complete",
           "Complete the chosen purchase: seller, address, VAT standing, the split.",
           "owed missing fill in", 1),
    Action("down", "day", ("down",), "↓", "next", "The next purchase."),
    Action("up", "day", ("up",), "↑", "row before", "The purchase before."),
    Action("costs", "day", ("f4",), "F4", "costs",
           "Show what was paid, to whom, and the profit; or cover them again.",
           "margin earned profit paid", 2),
    Action("till", "day", ("f6",), "F6", "box",
           "The box: float, expenses, banked; count it and close the day.",
           "cash till close count float expense", 3),
    Action("book", "day", ("f5",), "F5", "book",
           "The stock book of a period, its totals and gaps.", "vat return tax period", 4),
    Action("sales", "day", ("f7",), "F7", "sales",
           "Find a sale: balance, approval, refund, a deposit ended.", "settle after return", 5),
    Action("people", "day", ("f9",), "F9", "people",
           "Who is known; complete, export, erase.", "sellers buyers names privacy"),
    Action("earlier", "day", ("pageup",), "PgUp", "day before", "The day before.", "yesterday"),
    Action("later", "day", ("pagedown",), "PgDn", "day after", "The next day.", "tomorrow"),
    Action("back", "day", ("escape",), "Esc", "back", "Back to the counter.", "", 7),
)
# fmt: on

HELP = Help(
    "the day",
    (
        "What was taken and paid, by the way it was paid, and what the box should hold: the float, "
        "cash taken, less cash paid out. PgUp looks at the day before.",
        "What was paid and the profit are covered until F4: a customer may be looking. Profit is after "
        "VAT on the lines sold; global accounting's VAT comes once a period.",
        "Below stand the purchases with something still to complete, the newest first. Enter fills "
        "them in, and shares the price of a lot.",
        "Cash with one person is added up over twelve months. When it comes near the law's limit for "
        "dealers: check with HMRC before the next payment.",
    ),
)
