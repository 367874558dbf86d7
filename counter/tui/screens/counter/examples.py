"""The shorthand by examples: stands where the card will, while nothing is typed."""

from __future__ import annotations

#: What a line may say, and a line that says it.
EXAMPLES = (
    ("an issue, its letters and watermark", "1d blk imp KC sm crown"),
    ("what the frame shows", "2d blu no lines"),
    ("a plate number", "1d red pl 148"),
    ("a watermark by its name", "3d rose emblems"),
    ("a colour and a year", "9d green 1884"),
    ("cancel and cover", "mx red tied cover"),
    ("stock below a price", "blk kc under 200"),
    ("a purchase to note", "bt 2d blue pl 3 KC £45"),
)
#: What an empty stock offers.
BEGIN = (
    "There is no stock yet. Three ways to begin:",
    "  Ctrl+O   open the demo: an invented dealer's stock to try everything on",
    "  Ctrl+E   bring in a stock list from a CSV file",
    "  or start empty: type bt, what you bought and the price, then Enter",
)
