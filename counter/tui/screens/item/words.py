"""The piece in full: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("mend", "piece", ("enter",), "Enter", "correct",
           "Correct the price, faults, letters, where it is kept and the rest.",
           "edit change mend asking price status photographs certificate", 1),
    Action("history", "piece", ("f4",), "F4", "history",
           "What was noted of it and when.", "journal entries past", 4),
    Action("copy", "piece", ("f5",), "F5", "copy",
           "Copy the listing as plain text.", "clipboard description long", 2),
    Action("copy_line", "piece", ("f6",), "F6", "copy line",
           "Copy the short line with its number and price.", "clipboard description short"),
    Action("identify", "piece", ("f7",), "F7", "identify",
           "Take the stamp chosen at the counter as what this piece is.", "issue name what is it"),
    Action("costs", "piece", ("f8",), "F8", "costs",
           "Show what it might fetch, cost and leaves, and what to offer; again, or leaving, hides them.",
           "margin profit offer buy cost remarks own", 3),
    Action("photograph", "piece", ("f9",), "F9", "photo",
           "Show its photographs; the arrow keys turn to the next.", "picture image scan", 5),
    Action("next_photograph", "piece", ("right",), "→", "next photo", "The next photograph."),
    Action("last_photograph", "piece", ("left",), "←", "photo before", "The photograph before."),
    Action("down", "piece", ("down",), "↓", "down", "A line further down."),
    Action("up", "piece", ("up",), "↑", "up", "A line further up."),
    Action("page_down", "piece", ("pagedown", "space"), "PgDn", "page on", "A page further down."),
    Action("page_up", "piece", ("pageup",), "PgUp", "page back", "A page further up."),
    Action("take_back", "piece", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake"),
    Action("back", "piece", ("escape",), "Esc", "back", "Back to the piece, then to the counter.",
           "", 6),
)
# fmt: on

HELP = Help(
    "the piece",
    (
        "Everything noted of one piece, as a listing may say it: nothing is praised, and nothing is "
        "said that nobody looked at. No price suggested, own sale, cost, margin or offer stands here "
        "until you ask with F8; they are hidden again when you leave, because a customer may be looking.",
        "The price comes from your own sales of the same thing, carried over to this piece's "
        "condition by the house schedule, four times at most. With fewer than three alike nothing is "
        "suggested, and what is another thing (another plate that stands apart, a rare cancel) is "
        "listed below and does not count. What no sum takes is said: not priced. "
        "The picture puts each along a price axis, with the suggestion and what you ask.",
        "Enter corrects what is noted. F7 takes the stamp chosen at the counter as what it is: for "
        "that type its "
        "number and what you see, such as WK-12 1d blk kc, choose the stamp, and come back.",
        "Photographs are shown in colour where the terminal has colours; otherwise their path stands "
        "there.",
    ),
)
