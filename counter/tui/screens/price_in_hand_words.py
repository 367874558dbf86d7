"""What a stamp in the hand is worth: the actions and the help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("want", "worth", ("enter",), "Enter", "wanted profit",
           "Work the offer out anew for the profit typed, in pounds or per cent.", "profit margin", 1),
    Action("costs", "worth", ("f8",), "F8", "costs",
           "Show what it might fetch and what may be paid; again, or leaving, hides them.",
           "price offer fetch pay worth value suggestion", 2),
    Action("page_down", "worth", ("pagedown",), "PgDn", "page on", "A page further down."),
    Action("page_up", "worth", ("pageup",), "PgUp", "page back", "A page further up."),
    Action("back", "worth", ("escape",), "Esc", "back", "Back to the counter.", "", 6),
)
# fmt: on

HELP = Help(
    "what it is worth",
    (
        "What may I pay, and what will it fetch: for the stamp of the line in hand, whether it is "
        "yours or not, from your own sales of the same thing. Nothing stands here until F8 asks for "
        "it, because the seller may be looking.",
        "The offer is the highest price that leaves the profit you want after VAT, at the marked price "
        "and after the usual haggling. Type another profit, £30 or 25%, and Enter.",
        "What needs a certificate says so first. What no sum takes is said: not priced. Without three "
        "sales alike nothing is suggested and no offer is made.",
    ),
)
