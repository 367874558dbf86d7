"""May I treat it: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("open", "treat", ("enter",), "Enter", "open",
           "The chosen treatment in full: why, what would change it, hazards, the bath.",
           "reasons peroxide water watermark", 1),
    Action("down", "treat", ("down",), "↓", "next", "The next treatment."),
    Action("up", "treat", ("up",), "↑", "row before", "The treatment before."),
    Action("page_down", "treat", ("pagedown",), "PgDn", "page on", "A page down the list."),
    Action("page_up", "treat", ("pageup",), "PgUp", "page back", "A page up the list."),
    Action("other", "treat", ("f5",), "F5", "line/stock",
           "Judge the chosen line of stock, or the line typed again.", "stock item piece switch", 3),
    Action("strength", "treat", ("f6",), "F6", "strength",
           "How strong a bottle is, and what to add to weaken it.",
           "dilute volume percent bottle vol convert", 2),
    Action("back", "treat", ("escape",), "Esc", "back", "Back to the counter.", "", 6),
)
# fmt: on

HELP = Help(
    "may I treat it?",
    (
        "Every treatment with its verdict for the piece named at the top: the line typed, a stock "
        "number in it, or, when the line is empty, the chosen line of stock. F5 changes over.",
        'A question nobody has answered counts as its worst answer. "Could be" is the verdict if '
        "all were answered well: Enter opens the treatment and asks. Unknown means don't.",
        "Disputed: long practice in the trade and the advice of conservators differ; both sides are "
        "shown. At a stall only dry looks are done. Liquids are for home, with water to hand.",
        "Type a treatment's name or the name on a bottle. A name one letter from a safe one may be "
        "a poison: benzine is petroleum spirit, benzene causes cancer.",
        "Information, not advice: the label, the safety data sheet, local rules and a paper "
        "conservator come first.",
    ),
)
