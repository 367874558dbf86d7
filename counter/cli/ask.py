"""counter ask: read a line, say what it could be, what its ink bears, and what is in stock."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from counter.cli.call import Call, Reply
from counter.values.money import pounds
from counter.values.visible import share_words

if TYPE_CHECKING:
    from counter.desk.identify.line_query import Asked
    from counter.judge.identify import Candidate, Details
    from counter.judge.observation import Reading
    from counter.judge.treat.strip import StripCell
    from counter.reference.stamps_records import Commemorative

_SHOWN = 8


def arguments(parser: ArgumentParser) -> None:
    """The words of the line, in any order."""
    parser.add_argument(
        "text", metavar="TEXT", nargs="+", help='what is seen: "1d blk imp KC sm crown mx red"'
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """Answer the line from the reference and the stock."""
    call.desk.index_all()
    asked = call.desk.ask(" ".join(chosen.text))
    return Reply(_data(asked), _text(asked))


def _candidate(each: Candidate, details: Details) -> dict[str, Any]:
    """A candidate under its issue's id; value, band, gum, country and set are fields beside it."""
    return {
        "id": each.issue_id,
        "name": each.name,
        "share": round(each.share, 6),
        "reasons": [reason.text for reason in (*each.speaks_for, *each.against)],
        "for": [asdict(reason) for reason in each.speaks_for],
        "against": [asdict(reason) for reason in each.against],
        "not_looked_at": list(each.not_looked_at),
        "value": each.denomination,
        "colour": each.colour,
        "band": details.band,
        "gum": details.gum,
        "country": details.country,
        "set": details.set.date if details.set else "",
        "subject": details.set.subject if details.set else "",
        "first_days": [
            {
                "date": day.issued,
                "value": day.value,
                "colours": list(day.colours),
                "band": day.band,
                "watermark": day.watermark,
                "countries": list(day.countries),
                "source": day.source,
                "confidence": day.confidence,
            }
            for day in details.first_days
        ],
    }


def _read(reading: Reading) -> dict[str, Any]:
    """What was read, what was not, and how else the line could be read."""
    return {
        "read": [
            {
                "observation": seen.kind,
                "value": seen.value,
                "said": seen.said,
                "words": seen.words,
                "mended": seen.slip,
                "stamp": seen.stamp,
            }
            for seen in reading.observations
        ],
        "unread": [run.text for run in reading.unread],
        "noted": [run.text for run in reading.noted],
        "or": [{"words": other.words, "line": other.text} for other in reading.second],
    }


def _commemorative(each: Commemorative) -> dict[str, Any]:
    return {
        "date": each.date,
        "year": each.year,
        "subject": each.subject,
        "values": list(each.values),
        "source": each.source,
        "confidence": each.confidence,
        "note": each.note,
        "fields_from_memory": list(each.fields_from_memory),
    }


def _cell(cell: StripCell) -> dict[str, Any]:
    return {
        "verdict": cell.verdict,
        "could_be": cell.could_be,
        "by_ink": cell.ink,
        "asks": list(cell.asks),
        "disputed": cell.disputed,
        "reasons": [asdict(reason) for reason in cell.reasons],
    }


def _data(asked: Asked) -> dict[str, Any]:
    found = asked.candidates
    strip = asked.strip(found[0].issue_id) if found else ()
    looks = asked.next_looks()
    return {
        **_read(asked.reading),
        "candidates": [_candidate(each, asked.details(each)) for each in found],
        "rests_on": [asdict(each) for each in asked.supports],
        "traps": [
            {"id": each.id, "name": each.name, "tell": list(each.tell), "source": each.source}
            for each in asked.traps
        ],
        "together": list(asked.identification.together),
        "none_of_these": round(asked.identification.none_of_these, 6),
        "others": round(asked.identification.others, 6),
        "commemoratives": [_commemorative(each) for each in asked.commemoratives],
        "tolerance": {cell.name: _cell(cell) for cell in strip},
        "offices_abroad": [
            {
                "number": each.number,
                "office": each.office,
                "first": each.first,
                "last": each.last,
                "source": each.source,
                "confidence": each.confidence,
            }
            for each in asked.offices
        ],
        "cautions": asked.cautions(),
        "next_looks": [
            {
                "look": each.words,
                "bits": round(each.bits, 3),
                "seconds": each.seconds,
                "wets": each.wets,
            }
            for each in looks
        ],
        "stock": [
            {"number": line.number, "line": line.words, "price_pence": line.price}
            for line in asked.stock(_SHOWN * 2)
        ],
    }


def _text(asked: Asked) -> str:
    lines = ["Read: " + (" · ".join(seen.told for seen in asked.reading.observations) or "nothing")]
    if asked.reading.noted:
        lines.append("Understood, not used: " + ", ".join(run.text for run in asked.reading.noted))
    lines += (f"Or: {other.words} (type {other.text!r})" for other in asked.reading.second[:2])
    if asked.reading.unread:
        lines.append("Not understood: " + " ".join(run.text for run in asked.reading.unread))
    lines += (f"Commemorative: {line.text}" for line in asked.commemorative_lines())
    lines += (
        f"{share_words(each.share):>7}  {each.name}" for each in asked.identification.told(_SHOWN)
    )
    if asked.office_line:
        lines.append(f"Used abroad: {asked.office_line}")
    if asked.candidates:
        lines += _why(asked)
    lines += asked.cautions()
    for line in asked.stock(_SHOWN):
        missing = "sold" if line.status == "sold" else "no price"
        price = missing if line.price is None else pounds(line.price)
        lines.append(f"{line.number:<7} {line.words}  {price}")
    return "\n".join(lines)


def _why(asked: Asked) -> Iterator[str]:
    """How likely it is another or none of them; the reasons for the first; what its ink bears."""
    first, answer = asked.candidates[0], asked.identification
    yield f"{share_words(answer.gathered(answer.told(_SHOWN))):>7}  other issues"
    yield f"{share_words(answer.none_of_these):>7}  none of these"
    for each in asked.supports:
        yield f"Rests on {each.words}; without it {each.name} stands first ({share_words(each.share)})."
    if answer.none_of_these > 0.5:
        yield "More likely none of these: read it again. Its ink is unknown, and unknown means don't."
        return
    for trap in asked.traps:
        yield f"Taken for it: {trap.name}: {trap.tell[0]} [{trap.source}, {trap.confidence}]"
    yield f"Why {first.name}:"
    for reason in (*first.against, *first.speaks_for):
        sign = "−" if reason.speaks == "against" else "+"
        yield f"  {sign} {reason.text} [{reason.source}, {reason.confidence}]"
    yield "May it meet:"
    for cell in asked.strip(first.issue_id):
        disputed = ", disputed" if cell.disputed else ""
        if cell.verdict != cell.could_be:
            asks = ", ".join(cell.asks)
            yield f"  {cell.name}: ask first ({asks}); then it could be {cell.could_be}{disputed}"
            continue
        why = f" ({cell.reasons[0].text} [{cell.reasons[0].source}])" if cell.reasons else ""
        yield f"  {cell.name}: {cell.verdict}{disputed}{why}"
