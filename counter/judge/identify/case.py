"""What a line is weighed with: its observations, and whether the commemorative sets stand beside."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify.commemoratives import subject_seen
from counter.judge.identify.country import country_of
from counter.judge.identify.evidence import Clue, evidence_of
from counter.judge.identify.model import Model, model_of
from counter.judge.observation import Observation, Reading
from counter.reference.stamps import Stamps


def case_of(reading: Reading, stamps: Stamps) -> tuple[Model, tuple[Clue, ...]]:
    """The model for a line and the evidence it weighs.

    Hundreds of sets as hypotheses would cost every line time: they are weighed only where the line
    speaks of one.
    """
    subject = subject_seen(reading, stamps)
    sets = subject is not None or "commemorative" in {each.value for each in reading.all("series")}
    model = model_of(stamps, sets=sets)
    told = (*_told(reading, subject), *_implied(reading, stamps))
    return model, evidence_of(told, model.stamps.errors)


def _implied(reading: Reading, stamps: Stamps) -> Iterator[Observation]:
    """What the name of a variety says of the stamp and the line does not: PENCF is a 1½d of George V."""
    said = {each.kind for each in reading.observations}
    misplaced = tuple(_misplaced(reading, stamps))
    yield from misplaced
    for seen in (*reading.all("variety"), *misplaced):
        for kind, value in (stamps.varieties[seen.value].implies or {}).items():
            if kind not in said:
                yield Observation(kind, value, seen.words, seen.start, seen.end)


def _misplaced(reading: Reading, stamps: Stamps) -> Iterator[Observation]:
    """The error whose very letters are on the line: four that do not mirror stand on no other stamp."""
    for seen in reading.all("letters"):
        if len(seen.value) == 4 and seen.value[:2] != seen.value[2:][::-1]:
            for each in stamps.varieties.values():
                if seen.value in each.letters:
                    yield Observation("variety", each.id, seen.words, seen.start, seen.end)


def _told(reading: Reading, subject: Observation | None) -> Iterator[Observation]:
    """The observations with a loose word put right by what stands beside it."""
    for each in reading.observations:
        if subject is not None and each.start == subject.start and each.words == subject.words:
            yield subject
        elif each.kind == "town" and (country := country_of(each, reading)):
            yield Observation("country", country, each.words, each.start, each.end)
        else:
            yield each
