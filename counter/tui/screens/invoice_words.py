"""An invoice on the screen: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("copy", "paper", ("f5",), "F5", "copy", "Copy the paper as plain text.", "clipboard", 1),
    Action("print_page", "paper", ("f6",), "F6", "page to print",
           "Write the paper as a page to print.", "html save file printer invoice", 2),
    Action("person", "paper", ("f7",), "F7", "person",
           "Complete the name and address of who stands on it.", "buyer seller address", 3),
    Action("own", "paper", ("f4",), "F4", "own eyes",
           "What the dealer alone should read: floors, cash limits.", "mind warning", 4),
    Action("down", "paper", ("down",), "↓", "on", "Further down."),
    Action("up", "paper", ("up",), "↑", "up", "Further up."),
    Action("page_down", "paper", ("pagedown",), "PgDn", "page on", "A screenful down."),
    Action("page_up", "paper", ("pageup",), "PgUp", "page back", "A screenful up."),
    Action("back", "paper", ("escape", "enter"), "Esc", "back", "Back.", "", 6),
)
# fmt: on

HELP = Help(
    "the paper",
    (
        "The invoice as it prints: one price a piece and the wording the law fixes. It never shows "
        "VAT, a rate, a net price, the margin or the cost of a piece under the margin scheme.",
        "What the law asks for and is missing stands below it and is not printed. F7 completes the "
        "person; your own name, address and VAT number stand in the house's settings (F2, house).",
        "Reference only: check with HMRC or an accountant before relying on it.",
    ),
)
