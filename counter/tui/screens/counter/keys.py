"""The counter's keys, and its help."""

from __future__ import annotations

from counter.tui.widgets.action import Action, Help, pages, steps, take_back

# fmt: off
#: Its keys, in the order of the foot line.
COUNTER_ACTIONS = (
    Action("take", "enter", "take",
           "Put the chosen stock line into the quote; after bt it notes the purchase.",
           "add sell price", foot=1),
    *steps("row of the list", before="row"),
    Action("side", "tab shift+tab", "side",
           "The arrow keys move the other list: what it is, or the stock.", "switch list", foot=11),
    *pages("Further down the card.", "Further up the card.", labels=("card on", "card back")),
    Action("quote", "f3", "quote",
           "Read the quote out, take a discount off, take a line out, copy it.",
           "discount total customer remove delete", foot=2),
    Action("cover", "f5", "cover",
           "Does it belong? The cover in the line, or the cover chosen among the stock.",
           "belong check tied rate postage cancel timeline finding", foot=5),
    Action("buy", "f9", "buy", "Note a purchase: bt, what, the price, how paid, from whom.",
           "buy purchase in", foot=3),
    Action("look", "f4", "look",
           "Look closer: what to look at next, the reasons, letters on the sheet, gauge, finds.",
           "identify next reasons map letters gauge finds why", foot=4),
    Action("treat", "f6", "treat",
           "May I treat it: water, peroxide, spirit, lamp; strengths and baths.",
           "peroxide soak watermark bath strength rinse", foot=6),
    Action("piece", "f7", "piece",
           "The chosen stock line, or the number typed, in full: price, history, photographs.",
           "stock item describe price correct edit change cost margin history photograph listing",
           foot=7),
    Action("worth", "ctrl+p", "worth",
           "What may I pay, what will it fetch: the stamp of the line, yours or not.",
           "price pay offer fetch value buy worth suggestion what is it worth"),
    Action("day", "f8", "day",
           "The day: takings, the box, what is still to complete; the book, sales, people from there.",
           "takings close owed profit cash box float", foot=10),
    Action("strength", "ctrl+g", "strength",
           "How strong a bottle is, and what to add to weaken it.",
           "peroxide dilute volume percent bottle vol convert hazard"),
    take_back(),
    Action("second", "ctrl+l", "or",
           "Read the line in the other way that stands there after \"or:\".",
           "other reading second instead or letters"),
    Action("data", "ctrl+e", "your data",
           "Your data files: bring in a stock list, write out, look over, back up, restore, merge.",
           "backup import export csv verify restore merge conflicts settle spreadsheet files laptop"),
    Action("back", "escape", "clear", "Step back: an empty line."),
)
# fmt: on
#: What the counter is for, in a few sentences.
ABOUT_COUNTER = Help(
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
