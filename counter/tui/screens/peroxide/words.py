"""The strength of a bottle: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("dilute", "strength", ("enter",), "Enter", "work out",
           "Work out what to add: 50 mL of 9 % to 3 %.", "dilute weaken water mix", 1),
    Action("further", "strength", ("pagedown", "down"), "PgDn", "further", "Further down.", "", 2),
    Action("before", "strength", ("pageup", "up"), "PgUp", "back up", "Further up."),
    Action("back", "strength", ("escape",), "Esc", "back", "Back to where you were.", "", 6),
)
# fmt: on

HELP = Help(
    "how strong it is",
    (
        "Type what stands on the bottle: 20 vol, 3 %, 6 % w/w, 0.9 mol/L, or old bottle. Every way "
        "the label may be meant is shown; the strongest decides, for the stamp and for the hazard.",
        "A volume is a litre of oxygen from a litre of solution; some reckon the gas at 0 °C, some "
        "at room temperature. A bare % may be by weight or by volume.",
        "To weaken a bottle type 50 mL of 9 % to 3 % and press Enter. Hazard statements are the "
        "harmonised ones for hydrogen peroxide solution, whose limits are by weight.",
        "The label and the safety data sheet on the bottle win over everything shown here.",
    ),
)
