"""Every treatment with its verdict for one piece; a name on a bottle is looked at too."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult

from counter.judge.treat.fluids import FluidMatch, name_half_typed
from counter.judge.treat.plan import Plan
from counter.tui.screens.treatments.case import TreatmentCase
from counter.tui.screens.treatments.deference import Deference
from counter.tui.screens.treatments.rows import Judged, TreatmentRows, in_order
from counter.tui.widgets.action import Action, Help, back, pages, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.citations import sure_words
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.reasons import reason_sign
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry


class TreatmentsScreen(BaseScreen):
    """`cases` are the pieces that may be meant, the one to judge first; F5 goes round."""

    NAME = "treatments"
    # fmt: off
    ACTIONS = (
        Action("open", "enter", "open",
               "The chosen treatment in full: why, what would change it, hazards, the bath.",
               "reasons peroxide water watermark", foot=1),
        *steps("treatment", label="row"),
        *pages("A page down the list.", "A page up the list."),
        Action("other", "f5", "line/stock", "Judge the chosen line of stock, or the line typed again.",
               "stock item piece switch", foot=3),
        Action("strength", "f6", "strength", "How strong a bottle is, and what to add to weaken it.",
               "dilute volume percent bottle vol convert", foot=2),
        back("Back to the counter."),
    )
    # fmt: on
    ABOUT = Help(
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
    DEFAULT_CSS = "TreatmentsScreen #why { height: 4; }"

    def __init__(self, cases: tuple[TreatmentCase, ...]) -> None:
        super().__init__()
        self.cases = cases
        self.case = cases[0]
        self.judged: list[Judged] = []

    def body(self) -> ComposeResult:
        """What is judged, a line to name a treatment or a bottle, the list, why."""
        yield Heading(lambda: f"May I treat it? {self.case.heading}")
        yield PromptedEntry("treatment or bottle", "all of them", entry="wanted")
        yield TreatmentRows()
        yield Heading(self._chosen_name)
        yield ScrollPage(self._why, id="why")
        yield Deference()

    def on_mount(self) -> None:
        """Judge, and listen to what is typed."""
        wanted = self.query_one("#wanted", TextEntry)
        self.watch(wanted, "value", self._typed, init=False)
        wanted.focus()
        self.judge()

    def on_resize(self, event: events.Resize) -> None:
        """A taller screen gives the reasons more lines."""
        self.query_one("#why").styles.height = max(4, event.size.height // 5)

    def judge(self) -> None:
        """Work every verdict out again."""
        self.judged = [
            Judged(each, self.case.verdict(Plan(each.id))) for each in in_order(self.case.treatments)
        ]
        self._narrow()

    def _typed(self, text: str) -> None:
        self.say("")
        match = self._narrow()
        if match:
            self.say(_fluid_words(match, text), wrong=match.fluid.barred or not match.exact)

    def _narrow(self) -> FluidMatch | None:
        """The treatments that are wanted; the liquid that was named, if one was."""
        text = self.query_one("#wanted", TextEntry).value
        match = self._match()
        kind = self._kind_of(match)
        words = text.casefold().split()
        shown = [
            each
            for each in self.judged
            if all(word in _searched(each) for word in words) or (kind and each.treatment.kind == kind)
        ]
        self.query_one(TreatmentRows).show(shown, match.fluid.treatment if match else "")
        self._explain()
        return match

    def _match(self) -> FluidMatch | None:
        text = self.query_one("#wanted", TextEntry).value
        return name_half_typed(text, self.case.treatments) if text.strip() else None

    def _kind_of(self, match: FluidMatch | None) -> str:
        """A liquid shows the treatments done with it; a barred one those it would be mistaken for."""
        if match is None:
            return ""
        named = self.case.treatments.treatments.get(match.fluid.treatment)
        return named.kind if named else "spirit"

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """The reasons follow the cursor."""
        self._explain()

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """Clicked twice."""
        self.do_open()

    def _explain(self) -> None:
        self.query_one("#why", ScrollPage).show(self._why)
        for rule in self.query(Heading):
            rule.refresh()

    def _chosen_name(self) -> str:
        chosen = self.query_one(TreatmentRows).chosen
        return chosen.treatment.name if chosen else "Nothing chosen"

    def _why(self, width: int) -> list[Line]:
        chosen = self.query_one(TreatmentRows).chosen
        if chosen is None:
            return []
        reasons = chosen.verdict.reasons[:4]
        said = bool(reasons) and reasons[0].code == "default"  # then it tells the purpose itself
        lines = [] if said else prose(f"{chosen.treatment.purpose}.", width)
        for reason in reasons:
            sign, ink = reason_sign(reason.speaks)
            lines += prose(
                reason.text, width, head=(f"  {sign} ", ink), tail=sure_words(reason.confidence)
            )
        return lines

    # The keys

    def do_page_up(self) -> None:
        """A page up."""
        rows = self.query_one(TreatmentRows)
        rows.move(1 - max(rows.size.height, 2))

    def do_page_down(self) -> None:
        """A page down."""
        rows = self.query_one(TreatmentRows)
        rows.move(max(rows.size.height, 2) - 1)

    def do_open(self) -> None:
        """The chosen treatment in full; the name typed goes with it as the name on the bottle."""
        chosen = self.query_one(TreatmentRows).chosen
        if chosen is None:
            return
        text = self.query_one("#wanted", TextEntry).value.strip()
        match = self._match()
        bottle = text if match and self._kind_of(match) == chosen.treatment.kind else ""
        self.app.open_screen(
            "treatment", self.case, chosen.treatment, product=bottle, then=lambda _: self.judge()
        )

    def do_other(self) -> None:
        """The other piece that may be meant."""
        if len(self.cases) == 1:
            self.say("There is nothing else to judge: type a line, or choose a line of stock first.")
            return
        at = self.cases.index(self.case)
        self.case = self.cases[(at + 1) % len(self.cases)]
        self.judge()

    def do_strength(self) -> None:
        """How strong a bottle is."""
        self.app.open_screen("peroxide", self.case.treatments)


def _searched(judged: Judged) -> str:
    about = judged.treatment
    return " ".join((about.name, *about.called, about.purpose)).casefold()


def _fluid_words(match: FluidMatch, text: str) -> str:
    fluid = match.fluid
    name = f"{fluid.name[:1].upper()}{fluid.name[1:]}"
    if fluid.barred:
        near = (
            "" if match.exact else f"As a name on a bottle {text.strip()} is as near to {fluid.name}. "
        )
        return f"{near}{fluid.text}"
    if match.exact:
        return f"{name}. {fluid.text}".strip()
    return f"{text.strip()} is not a name on a bottle: {fluid.name} is near. Read the label again."
