"""Sharing the price of a lot: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "lot", ("enter",), "Enter", "answer",
           "Take the price typed and go on; on the last line, freeze the split.", "next", 1),
    Action("note", "lot", ("f9",), "F9", "freeze", "Freeze the split with its basis and day.",
           "split save done", 2),
    Action("down", "lot", ("down",), "↓", "next", "The next piece."),
    Action("up", "lot", ("up",), "↑", "piece before", "The piece before."),
    Action("fetch", "lot", ("tab",), "Tab", "as it stands",
           "Put what stands there into the line, to change it.", "edit", 3),
    Action("back", "lot", ("escape",), "Esc", "back", "Back; what was typed waits.", "", 6),
)
# fmt: on

HELP = Help(
    "sharing the price of a lot",
    (
        "Give each piece what it should fetch: the price paid is shared in proportion, the pence "
        "left over go to the largest remainders, and the shares add up exactly. By hand, the shares "
        "themselves are typed and must come to the price.",
        "A lot noted as one line is broken up: type each piece with its price, as 2d blue pl 3 @45. "
        "They get stock numbers of their own, and the line is withdrawn.",
        "The split is frozen with its basis and day. A worthless piece may bear nothing.",
    ),
)
