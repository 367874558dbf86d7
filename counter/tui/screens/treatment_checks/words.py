"""The checks before a bath: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("begin", "bath_checks", ("enter",), "Enter", "begin",
           "Begin the first stage, when every check is ticked.", "start go", 1),
    Action("tick", "bath_checks", ("space",), "Space", "tick", "Tick the chosen check, or not.",
           "check yes", 2),
    Action("down", "bath_checks", ("down",), "↓", "next", "The next check."),
    Action("up", "bath_checks", ("up",), "↑", "check before", "The check before."),
    *(Action(f"tick_{n}", "bath_checks", (str(n % 10),), str(n % 10), f"tick {n}", f"Tick check {n}.")
      for n in range(1, 11)),
    Action("back", "bath_checks", ("escape",), "Esc", "back", "Back; nothing has begun.", "", 6),
)
# fmt: on

HELP = Help(
    "before the bath",
    (
        "Look at each check and tick it: space ticks the chosen one, a digit ticks its number "
        "(0 is the tenth). Enter begins when all are ticked, and the time runs from then on.",
        "The bath is in the journal from its first second. It cannot be forgotten: it stands at the "
        "top of every screen until it is rinsed, also after the counter was closed.",
        "Where the label, the safety data sheet or local rules differ from these words, they win.",
    ),
)
