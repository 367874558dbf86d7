"""What both laptops changed: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("first", "conflicts", ("1",), "1", "first holds",
           "The first version holds: what stands here.", "settle choose here ours", 1),
    Action("second", "conflicts", ("2",), "2", "second", "The second version holds.",
           "settle choose theirs other", 2),
    Action("third", "conflicts", ("3",), "3", "third", "The third version holds, where there is one.",
           "settle choose"),
    Action("down", "conflicts", ("down",), "↓", "next", "The next row that both changed."),
    Action("up", "conflicts", ("up",), "↑", "one before", "The one before."),
    Action("page_down", "conflicts", ("pagedown",), "PgDn", "further", "Further down the versions."),
    Action("page_up", "conflicts", ("pageup",), "PgUp", "page back", "Further up the versions."),
    Action("take_back", "conflicts", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake", 3),
    Action("back", "conflicts", ("escape",), "Esc", "back", "Back to your data.", "", 6),
)
# fmt: on

HELP = Help(
    "what both laptops changed",
    (
        "Both versions stand side by side; only what differs is shown. Yours stands in the books "
        "until you settle it. 1 or 2 says which holds; Ctrl+T takes that back.",
        "The same piece sold on both laptops: both sales stay in the book whichever version of the "
        "piece holds. Put the wrong sale right by a refund.",
    ),
)
