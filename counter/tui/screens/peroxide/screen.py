"""Type a label: every reading of it, the hazard band, and what to add to weaken it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.judge.treat.hazards import peroxide_hazards
from counter.judge.treat.peroxide_cautions import dilution_cautions, strength_cautions
from counter.tui.screens.peroxide.bar import bar_lines, reading_lines
from counter.tui.screens.peroxide.hazard_lines import hazard_rows
from counter.tui.screens.treatments.deference import Deference
from counter.tui.widgets.action import Action, Help, back, pages
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.values.dilution import Dilution, Portion, dilute, read_portion
from counter.values.errors import InputError
from counter.values.strength_words import Label, read_label

if TYPE_CHECKING:
    from counter.reference.treatments import Treatments

_TO = re.compile(r"\s+(?:to|->|→)\s+", re.IGNORECASE)
_EXAMPLES = (
    ("20 vol", "a bottle by volumes"),
    ("3 %", "a bottle that does not say per cent of what"),
    ("6 % w/w", "by weight"),
    ("old bottle", "opened, old or without a label"),
    ("50 mL of 9 % to 3 %", "what to add to weaken it (Enter)"),
)


class PeroxideScreen(BaseScreen):
    """Works on the reference alone: no stock, no stamp."""

    NAME = "peroxide"
    # fmt: off
    ACTIONS = (
        Action("dilute", "enter", "work out", "Work out what to add: 50 mL of 9 % to 3 %.",
               "dilute weaken water mix", foot=1),
        *pages("Further down.", "Further up.", labels=("further", "back up"), down="pagedown down",
               up="pageup up", foot=2),
        back("Back to where you were."),
    )
    # fmt: on
    ABOUT = Help(
        "how strong it is",
        (
            "Type what stands on the bottle: 20 vol, 3 %, 6 % w/w, 0.9 mol/L, or old bottle. Every way "
            "the label may be meant is shown; the strongest decides, for the stamp and for the hazard.",
            "A volume is a litre of oxygen from a litre of solution; some reckon the gas at 0 °C, some "
            "at room temperature. A bare % may be by weight or by volume.",
            "To weaken a bottle type 50 mL of 9 % to 3 % and press Enter. Hazard statements are the "
            "harmonised ones for hydrogen peroxide solution, whose limits are by weight.",
            "The label and the safety data sheet on the bottle win over everything shown here.",
        ),
    )

    def __init__(self, treatments: Treatments) -> None:
        super().__init__()
        self.treatments = treatments

    def body(self) -> ComposeResult:
        """The label to type, and the page that answers."""
        yield Heading("How strong is it?")
        yield PromptedEntry("label", "as it stands on the bottle", entry="label")
        yield ScrollPage(self._examples, id="answer")
        yield Deference()

    def on_mount(self) -> None:
        """Answer while it is typed."""
        entry = self.query_one("#label", TextEntry)
        self.watch(entry, "value", self._typed, init=False)
        entry.focus()

    def _typed(self, text: str) -> None:
        self.say("")
        page = self.query_one(ScrollPage)
        if not text.strip():
            page.show(self._examples)
            return
        if _TO.search(text):
            page.show(lambda width: prose("Enter works it out.", width, "dim"))
            return
        try:
            portion = read_label(text.rsplit(" of ", 1)[-1])
            portion.readings(self.treatments.scale)
        except InputError as bad:
            words = str(bad)
            page.show(lambda width: prose(words, width, "dim"))
            return
        page.show(lambda width: self._label_lines(portion, width))

    def do_dilute(self) -> None:
        """Work out a dilution beside the screen: measures of volume take a while to load."""
        text = self.query_one("#label", TextEntry).value
        parts = _TO.split(text.strip())
        if len(parts) != 2:
            if text.strip():
                self.say("To weaken it, say to what: 50 mL of 9 % to 3 %.", wrong=True)
            return

        def work() -> tuple[Portion, Dilution]:
            have, want = read_portion(parts[0]), read_portion(parts[1])
            return have, dilute(have, want, self.treatments.scale)

        def show(worked: tuple[Portion, Dilution]) -> None:
            self.query_one(ScrollPage).show(lambda width: self._dilution_lines(*worked, width))

        self.in_background("dilution", work, then=show)

    # The page

    def _examples(self, width: int) -> list[Line]:
        lines: list[Line] = [[]]
        for words, meaning in _EXAMPLES:
            lines.append([(f"  {words:<22} ", "accent"), (meaning, "dim")])
        return lines

    def _label_lines(self, label: Label, width: int) -> list[Line]:
        readings = label.readings(self.treatments.scale)
        cited = Cited(self.treatments.sources)
        hazards = peroxide_hazards(readings, self.treatments)
        lines: list[Line] = [[]]
        lines += reading_lines(readings) if readings else []
        lines += [[], *bar_lines(readings, self.treatments, width), []]
        for words in strength_cautions(readings, self.treatments):
            lines += prose(words, width, "care", head=("  ! ", "care"))
        if not hazards.h_codes:
            lines += prose("No hazard class at this strength by the harmonised limits.", width, "good")
        lines += hazard_rows(hazards, cited, width)
        return [*lines, *cited.lines(width)]

    def _dilution_lines(self, have: Portion, made: Dilution, width: int) -> list[Line]:
        head = f"  take {made.take_ml:.1f} mL  +  add {made.add_water_ml:.1f} mL of water"
        lines: list[Line] = [[], [(head, "strong")]]
        share = made.take_ml / made.total_ml
        room = max(min(width - 6, 60), 20)
        full = max(round(room * share), 1)
        lines.append([("  ", "plain"), ("▓" * full, "accent"), ("░" * (room - full), "good")])
        total = f"  = {made.total_ml:.1f} mL of {made.want.strength.percent_wv:.2f} % w/v"
        lines.append([(total, "price"), (f"   ({made.want.words})", "dim")])
        lines.append([])
        for words in dilution_cautions(have, made, self.treatments):
            lines += prose(words, width, "care", head=("  ! ", "care"))
        title = f"  The {have.label.text} at hand"
        return [*lines, [], [(title, "head")], *self._label_lines(have.label, width)]
