"""The end of a bath: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("note", "bath_end", ("enter",), "Enter", "note it", "Note the end.", "done save", 1),
    Action("back", "bath_end", ("escape",), "Esc", "back", "Back to the bath; it goes on.", "", 6),
)
# fmt: on

HELP = Help(
    "the end of a bath",
    (
        "Say in a few words how the piece looks now, or why the bath was abandoned, and press Enter.",
        "What was done (product, strength, seconds, before and after, by whom) is noted with the line "
        "of stock and stands in its description: a buyer needs to know. Nothing wet is done to it "
        "again on the same day; judge it dry, in daylight.",
    ),
)
