"""What a line is weighed with: its observations, and whether the commemorative sets stand beside."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify.commemoratives import subject_seen
from counter.judge.identify.model import Model, model_of, weighable
from counter.judge.observation import Observation, Reading
from counter.reference.stamps import Stamps

#: A place of which regional stamps tell is its country when nothing on the line was posted there.
_POSTED = frozenset({"cancel", "attachment", "tied", "to_town", "backstamp", "mark", "stampless"})
_PLACES = {"Guernsey": "guernsey", "Jersey": "jersey", "Isle of Man": "isle_of_man"}


def case_of(reading: Reading, stamps: Stamps) -> tuple[Model, tuple[Observation, ...]]:
    """The model for a line and the observations it weighs.

    Hundreds of sets as hypotheses would cost every line time: they are weighed only where the line
    speaks of one.
    """
    subject = subject_seen(reading, stamps)
    sets = subject is not None or "commemorative" in {each.value for each in reading.all("series")}
    model = model_of(stamps, sets=sets)
    return model, weighable(_told(reading, subject), model)


def _told(reading: Reading, subject: Observation | None) -> Iterator[Observation]:
    """The observations with a loose word put right by what stands beside it."""
    posted = any(each.kind in _POSTED for each in reading.observations)
    for each in reading.observations:
        if subject is not None and each.start == subject.start and each.words == subject.words:
            yield subject
        elif each.kind == "town" and each.value in _PLACES and not posted:
            yield Observation("country", _PLACES[each.value], each.words, each.start, each.end)
        else:
            yield each
