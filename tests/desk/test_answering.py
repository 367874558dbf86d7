"""Every answer to a look is put into the line in words that are read back as that answer."""

import pytest

from counter.desk.identify.answer_to_line import line_with_answer
from counter.judge.identify.evidence import evidence_of
from counter.judge.identify.model import model_of
from counter.judge.identify.words import value_words
from counter.judge.observation import Observation
from counter.judge.reading import read_line
from counter.reference.library import Library

LIBRARY = Library()
MODEL = model_of(LIBRARY.stamps)
KINDS = sorted({look.kind for look in LIBRARY.stamps.errors.looks})
#: Lines that do not speak of the kind answered: it would not be asked else.
LINES = {
    "colour": ("", "1d imperf", "4d KC small crown perf 14", "mx red cover 6d"),
    "denomination": ("", "red", "mauve imperf KC"),
}
ANY = ("", "1d red", "4d mauve KC", "mx red cover 1d", "2d blue pl 3 under £40 zzqq")


def answers(kind: str) -> list[Observation]:
    """Everything that a look of this kind may offer."""
    values = {value for each in MODEL.variants for value in MODEL.possible(kind, each)}
    if kind == "colour":
        values |= set(LIBRARY.stamps.errors.hues.values())
    return [Observation(kind, value, value_words(kind, value, MODEL)) for value in sorted(values)]


def lines(kind: str) -> tuple[str, ...]:
    return LINES.get(kind) or tuple(
        line for line in ANY if not read_line(line, LIBRARY.vocabulary).all(kind)
    )


@pytest.mark.parametrize("kind", KINDS)
def test_every_answer_is_read_back(kind: str) -> None:
    for answer in answers(kind):
        for line in lines(kind):
            told = line_with_answer(line, answer, LIBRARY)
            assert told is not None, (answer, line)
            now = read_line(told, LIBRARY.vocabulary)
            was = read_line(line, LIBRARY.vocabulary)
            others = [(each.kind, each.value) for each in now.observations if each.kind != kind]
            before = [(each.kind, each.value) for each in was.observations if each.kind != kind]
            assert sorted(others) == sorted(before), told
            assert [run.text for run in now.unread] == [run.text for run in was.unread], told
            made = next(
                each for each in evidence_of(now.observations, MODEL.stamps.errors) if each.kind == kind
            )
            if kind == "colour":
                fit = MODEL.palette.fit(made.value, answer.value)
                same = MODEL.palette.main(made.value) == MODEL.palette.main(answer.value)
                assert same or fit >= LIBRARY.stamps.errors.fits["same main hue"], (told, answer)
            else:
                assert set(MODEL.values(kind, made.value)) == set(MODEL.values(kind, answer.value)), (
                    told
                )


@pytest.mark.parametrize("kind", KINDS)
def test_the_words_may_stand_in_front(kind: str) -> None:
    for answer in answers(kind):
        told = line_with_answer("cover £45", answer, LIBRARY, before=True)
        assert told is not None and told.endswith("cover £45"), answer


def test_words_that_do_not_fit_are_refused() -> None:
    assert line_with_answer("1d red", Observation("subject", "zzqq", "zzqq"), LIBRARY) is None
