"""Looking closer: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("take", "look", ("enter",), "Enter", "take",
           "Begin the first look; put the measured gauge into the line, or a find into the quote.",
           "choose answer quote", 2),
    Action("page", "look", ("tab",), "Tab", "turn", "Turn on: look, letters, gauge, finds.",
           "next page letters gauge finds map", 1),
    Action("page_back", "look", ("shift+tab",), "Shift+Tab", "turn back", "Turn back."),
    Action("down", "look", ("down",), "↓", "next", "The next candidate, or the next find."),
    Action("up", "look", ("up",), "↑", "row before", "The one before."),
    Action("further", "look", ("pagedown",), "PgDn", "further", "Further down the page."),
    Action("back_up", "look", ("pageup",), "PgUp", "back up", "Back up the page."),
    Action("both_sides", "look", ("f5",), "F5", "both sides",
           "The plate number was read on both sides of the stamp, or on one only.",
           "plate number caution", 5),
    Action("wet", "look", ("f6",), "F6", "wet/dry",
           "Propose looks that wet the stamp too: at home, with the tray to hand; or dry ones only.",
           "wet fluid benzine home dry", 4),
    Action("unsay", "look", ("f8",), "F8", "undo",
           "Take the last thing put into the line out again.", "undo answer remove wrong", 3),
    Action("back", "look", ("escape",), "Esc", "back",
           "Out of a look without answering; else back to the counter.", "", 6),
)
# fmt: on

HELP = Help(
    "looking closer",
    (
        "At most three looks are proposed, the most telling for its seconds first. A bit is one "
        "halving of what it could be. The digit before a look chooses it; the digit before an answer "
        "gives it, and its words go into the line, where they can be changed like any others.",
        "The arrow keys choose what it could be; beside it stands what speaks for it, what against, "
        "what nobody has looked at yet, how the trade explains a contradiction and the test that "
        "settles it. Each says how sure it is and where it is from.",
        "Looks that wet the stamp are proposed only when you ask with F6. Watermark fluid burns: no "
        "flame, fresh air, the label and the safety data sheet first, and never on an ink that the "
        "card does not clear.",
        "Letters: ■ is the stamp in hand, ○ its neighbours; the lower left letter is the row, the "
        "lower right the column. Letters alone prove no plate and no join.",
        "Gauge: count the holes of a side over any length: 20 over 25 mm; of two sides, top first: "
        "20/25mm x 18/22mm. Enter puts the measured gauge into the line.",
        "Finds are stamps of your stock from the same plate that could adjoin the one in hand or "
        "pair with it. Enter puts the chosen one into the quote.",
    ),
)
