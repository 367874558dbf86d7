"""What each word of a line may be: every way of taking it, with what that way costs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

from counter.judge.reading.lettering import CUES, letterings_at
from counter.judge.reading.line import Line
from counter.judge.reading.phrases import Match, longest, phrases_at, slips_at
from counter.judge.reading.piece import FILLER, PAUSE, UNREAD, Piece, Rule
from counter.judge.reading.words import LoneWord, lone_word, sign_rules
from counter.reference.grammar import Grammar
from counter.reference.vocabulary import Phrase

_INITIALS = frozenset({"og", "lh", "nh", "ng", "mm", "um", "fu", "gu", "vf", "gd"})
_OTHERS = {  # initials that need something beside them: kind, value, words, and what fits
    "sc": ("watermark", "small_crown", "watermark small crown", "gauge"),
    "lc": ("watermark", "large_crown_1|large_crown_2", "watermark large crown", "gauge"),
    "mc": ("cancel", "maltese_cross", "Maltese cross", "second colour"),
    "bw": ("printer", "Bradbury Wilkinson", "printed by Bradbury Wilkinson", "high value"),
    "ww": (FILLER, "", "", "embossed"),
    "ld": ("denomination", "1d", "1d", "no value"),  # an l for the 1, as typewriters had it
    "id": ("denomination", "1d", "1d", "no value"),
    "el": ("attachment", "entire", "entire letter", "no stamp"),
}
_GRAMMAR = frozenset({"denial", "doubt", "choice", "hedge", "thing", "noted"})


@dataclass(slots=True)
class Way:
    """A way of taking the tokens up to number `end`: its cost among words of the trade and among plain
    English, and the pieces it makes."""

    end: int
    trade: float
    plain: float
    pieces: list[Piece]


def ways_at(line: Line, at: int) -> list[Way]:
    """Every way of taking the token `at` and those that follow it; at least one."""
    token = line.tokens[at]
    if token.sign:
        rules = sign_rules(token.text)
        return [*(_figures(line, at, rules) if rules else ()), _sign(line, at)]
    costs = line.vocabulary.grammar
    quoted = token.end - token.start != len(token.text)
    word = lone_word(line.vocabulary, token.text, quoted)
    found = list(_phrases(line, at, costs)) if word.node else []
    if word.rules:
        found += _figures(line, at, word.rules)
    known = bool(found)
    if token.text[0].isalpha():
        if word.letters or word.cue:
            found += _letters(line, at, costs)
        if token.text in _OTHERS:
            found += _initials(line, at, costs)
        found += _short_words(line, at, costs)
        if not known and (undone := _undone(line, at)):
            found.append(Way(at + 1, costs.cost("phrase"), inf, [undone]))
        elif not known and (slip := slips_at(line, at)):
            found.append(_slip(line, at, slip, costs))
    found.append(_left(line, at, word))
    return found


def _sign(line: Line, at: int) -> Way:
    token = line.tokens[at]
    cost = line.vocabulary.grammar.cost("sign")
    if token.text == "?":
        return Way(at + 1, 0.0, 0.0, [Piece("doubt", "?", "perhaps", token.start, token.end)])
    if token.text == "&":
        return Way(at + 1, 0.0, 0.0, [Piece("choice", "and", "and", token.start, token.end)])
    if line.is_pause(at):
        return Way(at + 1, 0.0, 0.0, [Piece(PAUSE, token.text, "", token.start, token.end)])
    return Way(at + 1, cost, cost, [Piece(UNREAD, "", "", token.start, token.end)])


def _phrases(line: Line, at: int, costs: Grammar) -> Iterator[Way]:
    word = line.tokens[at].text
    for match in phrases_at(line, at):
        kind = match.means[0].kind
        single, when = match.end == at + 1, []
        plain = inf
        if kind in _GRAMMAR:
            trade, plain = costs.cost("filler", "grammar"), costs.costs["filler", "in plain English"]
        else:
            if single and kind == "subject" and word in costs.english:
                when.append("subject of one plain word")
            if word in _INITIALS and single and line.lettered_value:
                if line.cancel_named:
                    when.append("initials on a cancelled stamp")
                if line.lists_letters:
                    when.append("initials beside letters")
            if kind == "phosphor" and single and line.lettered_value and not line.unlettered:
                when.append("bands on a lettered stamp")
            if kind == "shade" and single and not _colour_near(line, at):
                when.append("shade of nothing")
            if not single:
                when += ["several words", *(["named variety"] if kind == "variety" else [])]
            if kind == "colour" and not single and _two_colours(line, at, match):
                when.append("two colours of stamp and cancel")
            trade = costs.cost("phrase", *when)
        yield Way(match.end, trade, plain, _said(line, at, match, match.means[0]))
        for other in match.means[1:]:
            when = ["other meaning", *(["behind a colour"] if _behind_colour(line, at, match) else [])]
            yield Way(match.end, costs.cost("phrase", *when), inf, _said(line, at, match, other))


def _behind_colour(line: Line, at: int, match: Match) -> bool:
    """Whether a short form stands behind a colour, and no cancel or plate behind it."""
    if at == 0 or not _coloured(line, at - 1):
        return False
    ahead = line.node(match.end) if match.end < len(line.tokens) else None
    if match.end < len(line.tokens) and line.tokens[match.end].text in ("plate", "plates"):
        return False
    return not (ahead and ahead.means and ahead.means[0].kind in ("cancel", "a_cancel"))


def _colour_near(line: Line, at: int) -> bool:
    """Whether a colour stands beside a shade, a word between at most."""
    near = (at + 1, at - 1, at + 2)
    return any(0 <= each < len(line.tokens) and _coloured(line, each) for each in near)


def _coloured(line: Line, at: int) -> bool:
    node = line.node(at)
    if node and node.means and node.means[0].kind in ("colour", "shade"):
        return True
    return line.tokens[at].text in line.vocabulary.short_colours


def _two_colours(line: Line, at: int, match: Match) -> bool:
    """2d blue black mx: a value before, a cancel behind, and the last colour one that inks have."""
    if match.end != at + 2 or at == 0:
        return False
    if not line.tokens[at - 1].text.endswith(("d", "s", "penny", "pence", "p", "-")):
        return False
    if line.tokens[at + 1].apart and not line.tokens[at].apart:
        return True  # 2d blue BK: letters
    last = line.node(at + 1)
    ink = last and last.means and last.means[0].kind == "colour" and last.means[0].value
    if not ink or not line.vocabulary.colours[ink].cancel:
        return False
    whole = match.means[0].value
    if ink != "black" and whole not in line.vocabulary.parted:
        return False
    ahead = line.node(match.end) if match.end < len(line.tokens) else None
    return bool(ahead and ahead.means and ahead.means[0].kind in ("cancel", "a_cancel"))


def _said(line: Line, at: int, match: Match, first: Phrase) -> list[Piece]:
    """The observations of a phrase; what is said after a figure inside it stands behind the figure."""
    start = line.tokens[at].start
    end = line.tokens[match.end - 1].end
    if match.hole >= 0:
        figure = line.tokens[match.hole]
        number = Piece("number", figure.text, "", figure.start, figure.end)
        before = line.tokens[match.hole - 1].end
        head = Piece(first.kind, first.value, first.said, start, before, match.slip)
        also = [Piece(kind, value, words, start, before) for kind, value, words in first.also]
        rest = Piece(FILLER, "", "", line.tokens[match.hole + 1].start, end)
        return [head, *also, number, rest]
    made = Piece(first.kind, first.value, first.said, start, end, match.slip)
    also = [Piece(kind, value, words, start, end, match.slip) for kind, value, words in first.also]
    return [made, *also]


def _figures(line: Line, at: int, rules: list[Rule]) -> Iterator[Way]:
    """Every pattern that makes sense here."""
    folded, start, costs = line.folded, line.tokens[at].start, line.vocabulary.grammar
    for rule in rules:
        found = rule.pattern.match(folded, start)
        pieces = rule.make(found, line.vocabulary) if found else None
        if pieces:
            when = (rule.cost,) if rule.cost else ()
            if pieces[0].kind == UNREAD:
                when = ("no such thing",)
            yield Way(line.end_token(pieces[-1].end), costs.cost("figure", *when), inf, pieces)


def _letters(line: Line, at: int, costs: Grammar) -> Iterator[Way]:
    token = line.tokens[at]
    if token.text in CUES and at + 1 < len(line.tokens):
        first = at + 1 + line.is_pause(at + 1)
        cue = Piece(FILLER, "", token.text, token.start, token.end)
        for found in letterings_at(line, first) if first < len(line.tokens) else ():
            cost = costs.cost(found.of, *found.when) + costs.cost("filler")
            yield Way(found.end, cost, inf, [cue, found.piece])
    for found in letterings_at(line, at):
        yield Way(found.end, costs.cost(found.of, *found.when), inf, [found.piece])


def _initials(line: Line, at: int, costs: Grammar) -> Iterator[Way]:
    token = line.tokens[at]
    other = _OTHERS.get(token.text)
    if other is None:
        return
    kind, value, words, fits = other
    when = ["fits beside"] if _fits(line, at, fits) else []
    if line.lists_letters:
        when.append("a multiple lists letters")
    if kind == "cancel" and line.words & {"mx", "cross", "maltese", "numeral", "duplex", "cds"}:
        when.append("cancel named")
    if fits in ("embossed", "no stamp", "high value", "no value") and not when:
        return
    piece = Piece(kind, value, words, token.start, token.end, fits == "no value")
    yield Way(at + 1, costs.cost("initials", *when), inf, [piece])


def _fits(line: Line, at: int, fits: str) -> bool:
    if fits == "gauge":
        return line.gauge_named
    if fits == "no value":
        ahead = at + 1 + (at + 1 < len(line.tokens) and line.tokens[at + 1].sign)
        named = line.lettered_value or line.unlettered or line.lists_letters
        follows = ahead < len(line.tokens) and (
            line.tokens[ahead].text in ("plate", "plates") or _coloured(line, ahead)
        )
        return follows and not named
    if fits == "embossed":
        return bool(line.words & {"embossed", "emboss", "embd"})
    if fits == "high value":
        return bool(line.words & {"castle", "castles", "seahorse", "seahorses"})
    if fits == "no stamp":
        return (
            bool(line.words & {"stampless", "mileage"}) or line.before_stamps or not line.lettered_value
        )
    colours = [n for n in range(len(line.tokens)) if _is_colour(line, n)]
    return len(colours) > 1 and bool({at - 1, at + 1} & set(colours))


def _is_colour(line: Line, at: int) -> bool:
    node = line.node(at)
    return bool(node and node.means and node.means[0].kind == "colour")


def _short_words(line: Line, at: int, costs: Grammar) -> Iterator[Way]:
    """dk red, 2d bl: a short shade before a colour; a short colour behind a value or an "and"."""
    token, words = line.tokens[at], line.vocabulary
    shade, colour = words.short_shades.get(token.text), words.short_colours.get(token.text)
    if shade and at + 1 < len(line.tokens) and not token.apart:
        ahead = longest(line, at + 1) if not line.tokens[at + 1].sign else None
        short = line.tokens[at + 1].text in words.short_colours
        if short or (ahead and ahead.means[0].kind == "colour"):
            piece = Piece("shade", shade, shade, token.start, token.end)
            yield Way(at + 1, costs.cost("short word"), inf, [piece])
    if colour and not token.apart and at and (_before_colour(line, at) or _inks(line, at, colour)):
        piece = Piece("colour", colour, colour, token.start, token.end)
        yield Way(at + 1, costs.cost("short word"), inf, [piece])


def _inks(line: Line, at: int, colour: str) -> bool:
    """Rd mx, bk numeral: a short colour right before a cancel; bl may be black as well as blue."""
    ahead = line.node(at + 1) if at + 1 < len(line.tokens) else None
    cancels = bool(ahead and ahead.means and ahead.means[0].kind in ("cancel", "a_cancel"))
    return cancels and colour != "blue"


def _before_colour(line: Line, at: int) -> bool:
    before = line.tokens[at - 1].text
    if before in ("&", "and", "penny", "pence", "-") or before in line.vocabulary.short_shades:
        return True
    return before[0].isnumeric() and before[-1] in "dsp½"


def _undone(line: Line, at: int) -> Piece | None:
    """Uncreased, unthinned: "un" before a fault denies it."""
    token = line.tokens[at]
    node = line.vocabulary.tree.next.get(token.text[2:]) if token.text.startswith("un") else None
    if node is None or not node.means or node.means[0].kind not in ("fault", "repair", "condition"):
        return None
    fault = node.means[0]
    return Piece(fault.kind, fault.value, fault.said, token.start, token.end, said="is not")


def _slip(line: Line, at: int, match: Match, costs: Grammar) -> Way:
    when = ["two letters wrong"] if match.changed > 1 else []
    return Way(match.end, costs.cost("slip", *when), inf, _said(line, at, match, match.means[0]))


def _left(line: Line, at: int, word: LoneWord) -> Way:
    """A word passed over, plain English, or not understood."""
    token, trade, plain = line.tokens[at], word.trade, word.plain
    if token.text == "of" and line.is_pause(at + 1):
        trade = plain = line.vocabulary.grammar.cost("filler", "governs nothing")
    return Way(at + 1, trade, plain, [Piece(word.kind, word.value, token.text, token.start, token.end)])
