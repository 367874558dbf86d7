"""The opening screen: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("take", "counter", ("enter",), "Enter", "take",
           "Put the chosen stock line into the quote; after bt it notes the purchase.",
           "add sell price", 1),
    Action("down", "counter", ("down",), "↓", "next", "The next row of the list."),
    Action("up", "counter", ("up",), "↑", "row before", "The row before."),
    Action("side", "counter", ("tab", "shift+tab"), "Tab", "side",
           "The arrow keys move the other list: what it is, or the stock.", "switch list", 11),
    Action("card_down", "counter", ("pagedown",), "PgDn", "card on", "Further down the card."),
    Action("card_up", "counter", ("pageup",), "PgUp", "card back", "Further up the card."),
    Action("quote", "counter", ("f3",), "F3", "quote",
           "Read the quote out, take a discount off, take a line out, copy it.",
           "discount total customer remove delete", 2),
    Action("cover", "counter", ("f5",), "F5", "cover",
           "Does it belong? The cover in the line, or the cover chosen among the stock.",
           "belong check tied rate postage cancel timeline finding", 5),
    Action("buy", "counter", ("f9",), "F9", "buy",
           "Note a purchase: bt, what, the price, how paid, from whom.", "buy purchase in", 3),
    Action("look", "counter", ("f4",), "F4", "look",
           "Look closer: what to look at next, the reasons, letters on the sheet, gauge, finds.",
           "identify next reasons map letters gauge finds why", 4),
    Action("treat", "counter", ("f6",), "F6", "treat",
           "May I treat it: water, peroxide, spirit, lamp; strengths and baths.",
           "peroxide soak watermark bath strength rinse", 6),
    Action("piece", "counter", ("f7",), "F7", "piece",
           "The chosen stock line, or the number typed, in full: price, history, photographs.",
           "stock item describe price correct edit change cost margin history photograph listing", 7),
    Action("worth", "counter", ("ctrl+p",), "Ctrl+P", "worth",
           "What may I pay, what will it fetch: the stamp of the line, yours or not.",
           "price pay offer fetch value buy worth suggestion what is it worth"),
    Action("day", "counter", ("f8",), "F8", "day",
           "The day: takings, the box, what is still to complete; the book, sales, people from there.",
           "takings close owed profit cash box float", 10),
    Action("strength", "counter", ("ctrl+g",), "Ctrl+G", "strength",
           "How strong a bottle is, and what to add to weaken it.",
           "peroxide dilute volume percent bottle vol convert hazard"),
    Action("take_back", "counter", ("ctrl+t",), "Ctrl+T", "take back",
           "Take back the last entry by a new one.", "undo reverse mistake"),
    Action("data", "counter", ("ctrl+e",), "Ctrl+E", "your data",
           "Your data files: bring in a stock list, write out, look over, back up, restore, merge.",
           "backup import export csv verify restore merge conflicts settle spreadsheet files laptop"),
    Action("back", "counter", ("escape",), "Esc", "clear", "Step back: an empty line."),
)
# fmt: on

HELP = Help(
    "the counter",
    (
        "Type what you see in one line, in any order and in the trade's shorthand: "
        "1d blk imp KC sm crown mx red. Slips of the key are forgiven. Under the line stands what "
        "was read; what was not understood is shown too.",
        "On the left is what it could be, with a share each; on the right the card of the chosen "
        "one. Below stands what its ink bears of water, peroxide and spirit; F6 asks about gum, "
        "paper and cancel before it allows any: unknown means don't.",
        "The same line searches the stock. Enter puts the chosen line into the quote. Add under "
        "100 for a price limit, or type a stock number.",
        "Everything works without a network. A finding is an opinion with its reasons, never a "
        "certificate: for that there are expert committees.",
    ),
)
