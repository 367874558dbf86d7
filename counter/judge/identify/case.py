"""What a line is weighed with: its observations, and whether the commemorative sets stand beside."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify.commemoratives import subject_seen
from counter.judge.identify.country import country_of
from counter.judge.identify.model import Model, model_of, weighable
from counter.judge.observation import Observation, Reading
from counter.reference.stamps import Stamps


def case_of(reading: Reading, stamps: Stamps) -> tuple[Model, tuple[Observation, ...]]:
    """The model for a line and the observations it weighs.

    Hundreds of sets as hypotheses would cost every line time: they are weighed only where the line
    speaks of one.
    """
    subject = subject_seen(reading, stamps)
    sets = subject is not None or "commemorative" in {each.value for each in reading.all("series")}
    model = model_of(stamps, sets=sets)
    told = (*_told(reading, subject), *_implied(reading, stamps))
    return model, weighable(told, model)


def _implied(reading: Reading, stamps: Stamps) -> Iterator[Observation]:
    """What the name of a variety says of the stamp and the line does not: PENCF is a 1½d of George V."""
    said = {each.kind for each in reading.observations}
    for seen in reading.all("variety"):
        for kind, value in (stamps.varieties[seen.value].implies or {}).items():
            if kind not in said:
                yield Observation(kind, value, seen.words, seen.start, seen.end)


def _told(reading: Reading, subject: Observation | None) -> Iterator[Observation]:
    """The observations with a loose word put right by what stands beside it."""
    for each in reading.observations:
        if subject is not None and each.start == subject.start and each.words == subject.words:
            yield subject
        elif each.kind == "town" and (country := country_of(each, reading)):
            yield Observation("country", country, each.words, each.start, each.end)
        else:
            yield each
