"""Running baths: their actions and their help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("confirm", "bath", ("enter",), "Enter", "rinsed / next",
           "Confirm that it is rinsed, or that the stage is over, and go on to the next.",
           "done finish stop out", 1),
    Action("down", "bath", ("down", "tab"), "↓", "next", "The next bath.", "switch"),
    Action("up", "bath", ("up", "shift+tab"), "↑", "bath before", "The bath before."),
    *(Action(f"pick_{n}", "bath", (str(n),), str(n), f"bath {n}", f"Bath {n} of the list.")
      for n in range(1, 10)),
    Action("mute", "bath", ("f5",), "F5", "bell",
           "Mute the bell, or let it ring again; the words go on.", "quiet silent sound noise", 3),
    Action("abandon", "bath", ("f8",), "F8", "abandon",
           "End a bath early, with the reason.", "cancel break off stop", 4),
    Action("back", "bath", ("escape",), "Esc", "back",
           "Back; the bath goes on and stands at the top of every screen.", "", 6),
)
# fmt: on

HELP = Help(
    "running baths",
    (
        "The large figures count down. At zero the bell rings and they count up, with a plus, until "
        "Enter confirms that it is rinsed: the liquid goes on working until then. Blotting does not "
        "stop peroxide; clean water does.",
        "Then the waters follow, each with its time, and the drying. Enter at the last stage asks "
        "how it looks now and notes the treatment with the piece.",
        "Several baths may run: 1 to 9 and the arrow keys change over. A running bath stands at the "
        "top of every screen; Ctrl+R comes back here. The time goes on when the counter is closed.",
        "In the eye: rinse at once with gently running water, lids held open, fifteen to twenty "
        "minutes. The label, the safety data sheet and local rules come first.",
    ),
)
