"""The drawn panes of the opening screen; each shows one part of the board and asks nobody else."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.tui.board import Board
from counter.tui.screens.counter.examples import BEGIN, EXAMPLES
from counter.tui.widgets.citations import sure_words
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import WIDEST, LineList, mark
from counter.tui.widgets.reasons import verdict_spans
from counter.tui.widgets.text import Line, Span, fit, two_ends, wrap
from counter.values.money import pounds
from counter.values.visible import how_many, share_words

if TYPE_CHECKING:
    from counter.judge.treat.strip import StripCell


class ReadBack(LineWidget):
    """Under the ask line: what was read, in words; what was not understood, shown as such."""

    def __init__(self, board: Board) -> None:
        super().__init__(id="read-back")
        self.board = board

    def line_at(self, y: int, width: int) -> Line:
        """Two lines at most; when there is more, the unread words are what must be seen."""
        asked = self.board.asked
        if self.board.trouble:
            lines = wrap(self.board.trouble, width - 2)
            return [(f"  {lines[y]}", "bad")] if y < len(lines) else []
        if not self.board.desk:
            return [("  Opening the stock and the reference …", "dim")] if y == 0 else []
        if not asked or not self.board.text.strip():
            words = "  Type what you see, in any order: 1d blk imp KC sm crown mx red"
            return [(words, "dim")] if y == 0 else []
        if self.board.may_buy:
            words = "  bt begins a purchase: bt 2d blue pl 3 KC £45; or the letters are B and T"
            return [(words, "dim")] if y == 0 else []
        unread = " ".join(run.text for run in asked.reading.unread)
        seen = [
            f"{each.told}{' (as read)' if each.slip else ''}" for each in asked.reading.observations
        ]
        seen += [f"({run.text}: not used)" for run in asked.reading.noted]
        seen += [f"or: {other.words} (Ctrl+L)" for other in asked.reading.second[:1]]
        lines = wrap(" · ".join(seen) or "nothing read yet", width - 2)
        if unread:
            return self._with_unread(y, width, lines, unread)
        trap = asked.trap_line
        if y == 1 and trap:
            return [(fit(f"  ! {trap}", width), "care")]
        if y == len(lines) and self.board.next_look:
            words = f"  next: {self.board.next_look}"
            return two_ends([(words, "dim")], [(" F4", "accent")], width)
        if y == 0 and trap and len(lines) > 1:
            return [(f"  {lines[0]} …", "plain")]
        return [(f"  {lines[y]}", "plain")] if y < len(lines) else []

    def _with_unread(self, y: int, width: int, lines: list[str], unread: str) -> Line:
        told: list[Span] = [("  not understood: ", "care"), (unread, "bad")]
        if y == 0:
            return [(f"  {lines[0]}" + (" …" if len(lines) > 1 else ""), "plain")]
        if self.board.asked and (trap := self.board.asked.trap_line):
            told.append((f"  ! {trap}", "care"))
        return two_ends(told, [], width)


#: So many lines may stand below the candidates; and what all others come to must be worth one.
_MOST_BELOW = 5
_WORTH_A_LINE = 0.005


def _share(words: str, share: float, width: int) -> Line:
    return two_ends([(f"  {words}", "dim")], [(f" {share_words(share):>5}", "dim")], width)


class Candidates(LineList):
    """What it could be, each with its share; below them the rest, none of these, and what decides."""

    def __init__(self, board: Board, *, captions: bool = False) -> None:
        super().__init__(id="candidates")
        self.board = board
        self.captions = captions  # of the examples that stand beside it

    def count(self) -> int:
        """Every candidate worth showing."""
        return len(self.board.candidates)

    def empty(self) -> str:
        """The line tells nothing that an issue is known by."""
        return "  Nothing typed tells an issue yet." if self.board.desk else ""

    def line_at(self, y: int, width: int) -> Line:
        """The candidates; the line below them is for none of them."""
        if not self.board.text.strip():
            meaning = EXAMPLES[y][0] if y < len(EXAMPLES) and self.captions else ""
            return two_ends([], [(meaning, "dim"), (" ", "plain")], width)
        if y < min(self.count() - self.top, self.size.height - _MOST_BELOW):
            return super().line_at(y, width)  # most lines are a candidate's whatever stands below
        below = self._below(width)
        first = min(self.count() - self.top, self.size.height - len(below))
        return below[y - first] if 0 <= y - first < len(below) else super().line_at(y, width)

    @property
    def kept_below(self) -> int:
        """What stands below the candidates is never scrolled away."""
        return len(self._below(WIDEST))

    def _below(self, width: int) -> list[Line]:
        """All that stand under one per cent in one line, none of these, what the first rests on, and
        the next look where its own line has something else; nothing without a candidate."""
        asked, board = self.board.asked, self.board
        if not asked or not self.count():
            return []
        lines = [_share("none of these", asked.identification.none_of_these, width)]
        if board.faint >= _WORTH_A_LINE:
            lines.insert(0, _share("others", board.faint, width))
        if asked.office_line:
            lines.append([("  abroad: ", "dim"), (fit(asked.office_line, width - 10), "plain")])
        if board.supports:
            lines.append([("  rests on ", "dim"), (fit(self._supports(), width - 11), "plain")])
        if board.next_look and (asked.trap_line or asked.reading.unread):
            lines.append([("  next: ", "dim"), (fit(board.next_look, width - 8), "dim")])
        return lines

    def _supports(self) -> str:
        """The things seen that decide; after the first, what it would be had that been misread."""
        words = ", ".join(each.words for each in self.board.supports)
        first, leader = self.board.supports[0], self.board.candidates[0].issue_id
        other = first.issue_id != leader
        return f"{words}; else {self.board.short_name(first.issue_id)}" if other else words

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """Name and share; those that nothing seen tells apart are marked with =."""
        found = self.board.candidates[index]
        asked = self.board.asked
        tied = asked is not None and len(asked.identification.together) > 1
        sign = "= " if tied and asked and found.issue_id in asked.identification.together else "  "
        ink = "strong" if chosen else "plain"
        idle = self.board.side != "stamp"
        share = [(f" {share_words(found.share):>5}", "strong" if index == 0 else "plain")]
        name = found.name if len(found.name) < width - 9 else self.board.short_name(found.issue_id)
        return two_ends([mark(chosen, idle), (sign if tied else "", "care"), (name, ink)], share, width)


#: What the strip speaks of, and the gap between its cells: the first that leaves the verdicts whole.
_LABELS = (("  may it meet: ", 3), ("  ", 3), (" ", 1))
#: How the strip asks what its question's key does not say in the trade's words.
_ASKED = {
    "attachment": "loose or on cover?",
    "certificate": "certificate or rarity?",
    "issue": "which issue?",
    "paper": "blued paper?",
    "repair": "repaired?",
    "sulphided_lead_ink": "darkened by sulphide?",
    "writing": "pen or pencil?",
}
#: From so many columns light and steam stand in the strip too.
_ROOM_FOR_LIGHT = 130


def _room(label: str, gap: int) -> int:
    """What the label and the gaps of four cells take."""
    return len(label) + 3 * gap


def strip_spans(cell: StripCell) -> list[Span]:
    """What a cell says: its verdict, or that something must be asked first; never leave by silence."""
    if cell.verdict == cell.could_be:
        return verdict_spans(cell.verdict, disputed=cell.disputed)
    return [("? ask first", "unknown")]


class Strip(LineWidget):
    """Float, soak, peroxide and watermark spirit: always there, by word and sign; F6 has the questions.

    On a tall screen the reason and its source stand below each other too.
    """

    def __init__(self, board: Board) -> None:
        super().__init__(id="strip")
        self.board = board

    def line_at(self, y: int, width: int) -> Line:
        """The verdicts; their words are never cut. Then a reason a line."""
        cells = self.board.strip()
        if not cells:
            return [("  What water, peroxide and spirit would do stands here.", "dim")] if not y else []
        if y:
            return self._reason(cells[:y], width) if y <= len(cells) else []
        told: list[list[Span]] = []
        for cell in cells:
            if not cell.treatment and width < _ROOM_FOR_LIGHT:
                continue
            name = cell.name if width >= 110 else cell.name.split()[-1]
            told.append([(f"{name} ", "dim"), *strip_spans(cell)])
        need = sum(len(text) for spans in told for text, _ in spans)
        label, gap = next((each for each in _LABELS if _room(*each) + need <= width), _LABELS[-1])
        line: Line = [(label, "dim")]
        for spans in told:
            line += [*spans, (" " * gap, "plain")]
        return line

    def _reason(self, cells: tuple[StripCell, ...], width: int) -> Line:
        """The first reason of the last cell; what the line above says it of is not said again."""
        *above, cell = cells
        if cell.verdict != cell.could_be:
            asked = " ".join(_ASKED.get(key, f"{key}?") for key in cell.asks)
            words = f"ask first: {asked}  then it could be {cell.could_be}"
            return [(f"    {cell.name:<17}", "dim"), (fit(words, max(width - 22, 10)), "dim")]
        if not cell.reasons:
            return []
        first = cell.reasons[0]
        of, colon, words = first.text.partition(": ")
        said = above[-1].reasons[0].text if above and above[-1].reasons else ""
        if not colon or not said.startswith(of + colon):
            words = first.text
        source, sure = self.board.source_words(first.source), sure_words(first.confidence)
        if len(source) > width // 4:
            source = fit(source, width // 4)
        told = source if source == sure else f"{source}, {sure}"
        left: Line = [(f"    {cell.name:<17}", "dim"), (words, "dim")]
        return two_ends(left, [(f" {told} ", "dim")], width)


class Stock(LineList):
    """The stock that matches the line: number, description, where it is kept, status, price."""

    def __init__(self, board: Board) -> None:
        super().__init__(id="stock")
        self.board = board

    def count(self) -> int:
        """The matches found."""
        return len(self.board.stock)

    def head(self) -> str:
        """What the list of stock is called: how many pieces of how many are shown."""
        desk = self.board.desk
        if not desk:
            return "Stock"
        if self.board.buying:
            return "Bought"
        size = how_many(desk.stock_size, "piece")
        if not self.board.text.strip():
            return f"{'Demo stock' if desk.demo else 'Stock'}: {size}, the latest first"
        from counter.desk.identify.line_query import MOST_LINES

        found = len(self.board.stock)
        best = "best " if found == MOST_LINES else ""
        return f"Stock: {best}{found} of {size}"

    def empty(self) -> str:
        """Nothing matches, or the stock is still being read."""
        desk = self.board.desk
        if not desk:
            return ""
        return "  Nothing in stock matches." if desk.stock_ready else "  The stock is being read …"

    def line_at(self, y: int, width: int) -> Line:
        """The matches; an empty stock says how to begin."""
        desk = self.board.desk
        if desk and desk.stock_ready and not desk.stock_size:
            return [(f"  {BEGIN[y]}", "plain")] if y < len(BEGIN) else []
        return super().line_at(y, width)

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """The number and the price are never cut; of the words the name gives way before the faults."""
        found = self.board.stock[index]
        taken = self.board.quote.holds(found.number)
        kept = fit(found.kept, min(22, width // 6)) if width >= 100 else ""
        tail = f" {kept}" if kept else ""
        status = "" if found.status == "in stock" else f" {found.status}"
        missing = "" if found.status == "sold" else "no price"
        price = pounds(found.price) if found.price is not None else missing
        right: Line = [(status, "care"), (tail, "dim"), (f" {price:>9}", "price")]
        left: Line = [
            mark(chosen, self.board.side != "stock"),
            (f"{found.number:<7} ", "strong" if chosen else "accent"),
        ]
        left += [("✓ ", "good")] if taken else []
        room = width - 1 - sum(len(text) for text, _ in (*left, *right))
        return two_ends([*left, *emphasised(*self.board.narrowed(found, room))], right, width)


def emphasised(words: str, matched: tuple[tuple[int, int], ...]) -> list[Span]:
    """The words as spans, the matched ranges (sorted, apart from each other) in their own ink."""
    spans: list[Span] = []
    at = 0
    for start, end in sorted(matched):
        spans += [(words[at:start], "plain"), (words[max(start, at) : end], "match")]
        at = max(end, at)
    return [*spans, (words[at:], "plain")]


class QuoteLineBar(LineWidget):
    """The quote in hand: how many lines and what they come to, always in view."""

    def __init__(self, board: Board) -> None:
        super().__init__(id="quote-bar")
        self.board = board

    def line_at(self, y: int, width: int) -> Line:
        """Count, discount and total."""
        quote = self.board.quote
        if not quote.lines:
            return [("  Quote: empty", "dim")]
        count = how_many(len(quote.lines), "line")
        words = f"  Quote: {count}, "
        line: Line = [(words, "plain"), (pounds(quote.total), "price")]
        if quote.total != quote.before:
            line.append((f"  ({pounds(quote.before)} {quote.discount_words()})", "dim"))
        return line
