"""The stock book: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("take", "book", ("enter",), "Enter", "period",
           "Go to the period typed; with none typed, complete the chosen line's purchase.",
           "quarter month year dates complete gap missing", 1),
    Action("view", "book", ("tab",), "Tab", "totals, gaps",
           "Turn between the lines, the totals and what is missing.", "sums boxes return missing", 2),
    Action("before", "book", ("f3",), "F3", "before", "The period before.", "earlier previous", 10),
    Action("after", "book", ("f4",), "F4", "after", "The period after.", "later next", 11),
    Action("csv", "book", ("f5",), "F5", "CSV", "Every line as a CSV file.", "spreadsheet export", 3),
    Action("print_page", "book", ("f6",), "F6", "page", "The period as a page to print.",
           "html printer", 4),
    Action("down", "book", ("down",), "↓", "next", "The next line."),
    Action("up", "book", ("up",), "↑", "line before", "The line before."),
    Action("page_down", "book", ("pagedown",), "PgDn", "page on", "A screenful down."),
    Action("page_up", "book", ("pageup",), "PgUp", "page back", "A screenful up."),
    Action("back", "book", ("escape",), "Esc", "back", "Back.", "", 7),
)
# fmt: on

HELP = Help(
    "the stock book",
    (
        "A line for every piece that came in or went out in the period. Type a period: q1 2026, "
        "apr 2026, 2026, tax 2025 (from 6 April 2025), or 1.4.26 to 30.6.26. F3 and F4 "
        "go to the one before and the one after.",
        "Under the margin scheme each line bears VAT on its own margin, and a loss offsets nothing. "
        "Global accounting is worked out once on the period. The totals are for stock alone: add "
        "overheads and other supplies in your return.",
        "A line with ! lacks something the law asks for. Tab lists them; Enter fills them in.",
        "Reference only: check with HMRC or an accountant before relying on it.",
    ),
)
