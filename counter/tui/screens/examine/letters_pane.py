"""The sheet as a small map with the stamp in hand on it, and what its letters and plate say."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from counter.judge.judgement import Judgement
from counter.judge.letters import LetterReading, PlateSheet, judge_letters, plate_judgement, sheet_map
from counter.tui.screens.examine.grounds import reasons_lines, wrapped_grounds
from counter.tui.screens.examine.sheet_lines import map_lines
from counter.tui.screens.examine.state import Looking
from counter.tui.widgets.citations import sure_words
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.values.letters import Format, spoken

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.reference.stamps_issue import Issue

_USUAL = Format(20, 12)


class Letters(ScrollPage):
    """The map stands on the left; the words beside it scroll."""

    def __init__(self, looking: Looking) -> None:
        super().__init__(self._words, id="letters")
        self.looking = looking
        self._map: tuple[int, list[Line]] = (0, [])

    def redraw(self) -> None:
        """Another line, or another candidate."""
        self._map = (0, [])
        super().redraw()

    def line_at(self, y: int, width: int) -> Line:
        """A row of the map, and the words beside it."""
        drawn, across = self._drawn(width)
        line = drawn[y] if y < len(drawn) else []
        gap = across - sum(len(text) for text, _ in line)
        return [*line, (" " * gap, "plain"), *super().line_at(y, width)]

    def _drawn(self, width: int) -> tuple[list[Line], int]:
        """The map for a width and the cells it takes; none where there is nothing to mark."""
        if self._map[0] != width:
            item, (sheet, known) = self.looking.in_hand(), self._sheet()
            shown = item is not None and bool(item.letters or known)
            stock = self._in_stock()
            lines = (
                list(
                    map_lines(
                        sheet_map(item.letters, sheet),
                        item.letters,
                        width,
                        stock.held if stock else {},
                    )
                )
                if shown and item
                else []
            )
            self._map = (width, lines)
        lines = self._map[1]
        return lines, 3 + max((sum(len(text) for text, _ in line) for line in lines), default=-1)

    def _sheet(self) -> tuple[Format, bool]:
        """The sheet of the issue, and whether it is on record; else the usual one."""
        issue = self.looking.issue()
        if issue and issue.characters.rows and issue.characters.columns:
            return Format(issue.characters.rows, issue.characters.columns), True
        return _USUAL, False

    def _in_stock(self) -> PlateSheet | None:
        """The plate of the stamp in hand with what the stock holds of it; None where no plate is read."""
        item, desk, issue = self.looking.in_hand(), self.looking.board.desk, self.looking.issue()
        if not item or not desk or not issue or not item.plate:
            return None
        from counter.desk.stock.plate_entry import plate_of_stock

        return plate_of_stock(desk, issue, item.plate)

    def _words(self, width: int) -> list[Line]:
        item, desk = self.looking.in_hand(), self.looking.board.desk
        if not item or not desk:
            return []
        issue, (sheet, known) = self.looking.issue(), self._sheet()
        room = width - self._drawn(width)[1]
        plate = self._plate(issue, item.plate, desk, room) + _stock_words(self._in_stock(), room)
        if not item.letters and not known:
            none = "No letters are read, and no sheet of letters is recorded for this issue."
            return [*wrapped_grounds(none, "dim", room), [], *plate]
        library = desk.library
        read = judge_letters(item.letters, sheet, library.stamps, library.vocabulary.lettering_errors)
        letters = _letter_lines(read, self.looking.board.source_words, room)
        return [*_sheet_words(sheet, known, issue, room), *letters, [], *plate]

    def _plate(self, issue: Issue | None, number: str, desk: Desk, width: int) -> list[Line]:
        """What the plate number says, or the plates there are."""
        if issue is None:
            return []
        if not number:
            return _plates(issue, self.looking.board.source_words, width)
        both = self.looking.both_sides
        judged = plate_judgement(issue, number, desk.library.stamps, both_sides=both)
        return _judged(judged, self.looking, width)


def _stock_words(found: PlateSheet | None, width: int) -> list[Line]:
    """What of the plate is in stock, and which of it may once have been joined."""
    if found is None or not found.held:
        return []
    count = f"{len(found.held)} of {found.sheet.stamps} places of plate {found.plate} in stock (▪)"
    doubled = f", doubled {', '.join(found.doubled)}" if found.doubled else ""
    lines = wrapped_grounds(f"{count}{doubled}, {len(found.missing)} missing", "strong", width)
    for each in found.joined:
        lines += wrapped_grounds(f"{' and '.join(each.numbers)}: {each.words}", "plain", width)
    return lines


def _sheet_words(sheet: Format, known: bool, issue: Issue | None, width: int) -> list[Line]:
    name = issue.name if issue else "an issue not yet known"
    if known:
        return wrapped_grounds(
            f"{name}: sheet of {sheet.stamps}, {sheet.rows} rows of {sheet.columns}", "dim", width
        )
    return wrapped_grounds(
        f"{name}: sheet not recorded, taken as {sheet.rows} rows of {sheet.columns}", "care", width
    )


def _letter_lines(read: LetterReading, source_words: Callable[[str], str], width: int) -> list[Line]:
    lines: list[Line] = []
    if not read.positions:
        return wrapped_grounds("Letters not read yet: type them in the line, KC or CKKC.", "dim", width)
    for each in read.positions:
        number = f", number {each.number} of {read.sheet.stamps}" if each.number else ""
        head = f"{spoken(each.letters)}  row {each.row}, column {each.column}{number}"
        lines += wrapped_grounds(head, "strong", width)
        if each.beside:
            beside = ", ".join(f"{spoken(letters)} {side}" for side, letters in each.beside.items())
            lines += wrapped_grounds(f"○ {beside}", "plain", width)
    if read.adjoin is not None:
        sign = "✓" if read.adjoin else "✗"
        lines += wrapped_grounds(f"{sign} {read.shape}", "good" if read.adjoin else "care", width)
    return [*lines, *reasons_lines((*read.problems, *read.notes), source_words, width)]


def _judged(judged: Judgement, looking: Looking, width: int) -> list[Line]:
    lines = reasons_lines(judged.reasons, looking.board.source_words, width)
    if not judged.reasons:
        lines += wrapped_grounds(judged.verdict, "dim", width)
    for caution in judged.cautions:
        lines += wrapped_grounds(f"! {caution}", "care", width)
    for question in judged.asks:
        lines += wrapped_grounds(f"? {question} F5 says so.", "plain", width)
    if looking.both_sides and not judged.asks:
        lines += wrapped_grounds("Read on both sides (F5 takes that back).", "dim", width)
    return lines


def _plates(issue: Issue, source_words: Callable[[str], str], width: int) -> list[Line]:
    """The plates of an issue by what became of them."""
    made = (
        ("plates", issue.plates, "plain"),
        ("never put to press", issue.plates_never_put_to_press, "care"),
        ("never used", issue.plates_never_used, "care"),
        ("never completed", issue.plates_never_completed, "care"),
        ("not used", issue.plates_made_but_unused + issue.plates_made_but_unused_at_end, "care"),
    )
    lines: list[Line] = []
    for label, numbers, ink in made:
        if numbers:
            lines += wrapped_grounds(f"{label}: {', '.join(numbers)}", ink, width)
    told = f"{sure_words(issue.confidence)}: {source_words(issue.source)}"
    return [*lines, *wrapped_grounds(told, "dim", width)] if lines else []
