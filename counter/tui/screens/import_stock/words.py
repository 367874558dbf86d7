"""A stock list from elsewhere: its actions and its help."""

from counter.tui.widgets.action import Action, Help

# fmt: off
ACTIONS = (
    Action("begin_it", "stock_list", ("enter",), "Enter", "bring in",
           "Look the file over; once it is looked over, bring its lines in.", "import csv", 1),
    Action("complete", "stock_list", ("tab",), "Tab", "complete",
           "Complete the path from the names that are there.", "path file name folder", 4),
    Action("columns", "stock_list", ("f4",), "F4", "columns",
           "Say which column of the file is what.", "mapping headings fields", 2),
    Action("again", "stock_list", ("f5",), "F5", "once more",
           "Of a file that came in before: take lines without a stock number again, or not.",
           "repeat duplicate twice", 3),
    Action("down", "stock_list", ("down",), "↓", "next", "The next refused line."),
    Action("up", "stock_list", ("up",), "↑", "one before", "The refused line before."),
    Action("page_down", "stock_list", ("pagedown",), "PgDn", "further", "A page of refused lines on."),
    Action("page_up", "stock_list", ("pageup",), "PgUp", "page back", "A page of refused lines back."),
    Action("back", "stock_list", ("escape",), "Esc", "back",
           "Back; while lines come in, stop after those that are in.", "stop cancel", 6),
)
# fmt: on

HELP = Help(
    "a stock list from elsewhere",
    (
        "Type the path of a CSV file; Tab completes it. Its first line names the columns, in any "
        "order; commas, semicolons or tabs, any common encoding.",
        "Enter looks it over first and changes nothing: what each column is taken for, and every "
        "line that would be refused, with the reason. F4 says what a column is. Enter again brings "
        "the good lines in; one bad line never stops the rest.",
        "Esc stops it while it runs: the lines that are in stay in, and the same file brought in "
        "again goes on where it stopped. A stock number that is there already is left alone.",
    ),
)
