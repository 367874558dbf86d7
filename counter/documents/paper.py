"""A paper that leaves the table: who to whom, what, how much, and what must be said beneath it."""

from __future__ import annotations

from dataclasses import dataclass

from counter.documents.layout import Block, Column, Grid, Layout, TwoBlocks, text_blocks
from counter.values.dates import day_words


@dataclass(frozen=True, slots=True)
class Paper:
    """A heading, who to whom, lines of (stock number, words, price), and the foot.

    `stamp` says what became of it (REFUNDED, CANCELLED); `held` what holds of the whole paper and
    stands above its lines. `missing` names what the law asks for and is not known: never printed.
    """

    title: str
    number: str
    date: str
    ours: str
    theirs: str
    rows: tuple[tuple[str, str, str], ...]
    total: str
    foot: tuple[str, ...]
    missing: tuple[str, ...] = ()
    stamp: str = ""
    held: str = ""
    total_words: str = "Total"

    def text(self) -> str:
        """The paper in plain text, as wide as its words."""
        body = []
        for number, words, price in self.rows:
            first, *more = words.splitlines() or [""]
            body.append(f"{number:<10} {first}".rstrip())
            body += [f"{'':<10} {line}" for line in more]
            body += [f"{'':<10} {price:>12}"] if price else []
        head = [f"{self.title} {self.number}", *([self.stamp] if self.stamp else [])]
        head += [f"Date: {day_words(self.date)}", "", self.ours, "", self.theirs, ""]
        head += [self.held, ""] if self.held else []
        return "\n".join([*head, *body, "", f"{self.total_words:<10} {self.total:>12}", "", *self.foot])

    def layout(self, *, roll: bool = False) -> Layout:
        """The paper to print, on A4 or on a roll."""
        columns = (Column("Stock no."), Column("Description", 1), Column("Price", right=True))
        foot = "\n".join(self.foot).strip()
        blocks: list[Block] = [
            *text_blocks(self.stamp, style="stamp"),
            *text_blocks(f"Date: {day_words(self.date)}"),
            TwoBlocks(self.ours, self.theirs),
            *text_blocks(self.held, style="strong"),
            Grid(columns, self.rows, (("", self.total_words, self.total),)),
            *text_blocks(foot),
        ]
        title = f"{self.title} {self.number}"
        name = self.ours.split("\n")[0].removeprefix("Bought by").strip()
        return Layout(title, tuple(blocks), foot=f"{name}  {title}".strip(), roll=roll)
