"""One treatment in full: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("answer", "treatment", ("enter",), "Enter", "answer",
           "Answer the question in hand (a number or words); - takes an answer back.",
           "question reply", 1),
    Action("down", "treatment", ("down",), "↓", "next", "The next question."),
    Action("up", "treatment", ("up",), "↑", "row before", "The question before."),
    Action("further", "treatment", ("pagedown",), "PgDn", "read on", "Further on.", "", 3),
    Action("before", "treatment", ("pageup",), "PgUp", "read back", "Further up the reasons."),
    Action("bath", "treatment", ("f7",), "F7", "the bath",
           "Begin the guided run, where the verdict allows one.",
           "start timer countdown begin do it", 2),
    Action("strength", "treatment", ("f6",), "F6", "strength",
           "How strong a bottle is, and what to add to weaken it.",
           "dilute volume percent bottle", 4),
    Action("back", "treatment", ("escape",), "Esc", "back",
           "Back to the list; the answers are kept.", "", 6),
)
# fmt: on

HELP = Help(
    "one treatment",
    (
        "The verdict, what speaks for and against it with its source and how sure it is, and what "
        "counts against it until it is answered. Only questions that would change the verdict are "
        "asked; each answer shows the verdict it leads to.",
        "For peroxide type the strength as it stands on the bottle. Both readings of the label are "
        "judged and the stronger decides. An old or unlabelled bottle is never used.",
        "F7 begins the guided run: checks to tick, then each stage with its countdown. What was done "
        "is noted with the piece and stands in its description for the buyer.",
        "Information, not advice: the label, the safety data sheet, local rules and a paper "
        "conservator come first.",
    ),
)
