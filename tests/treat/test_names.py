"""The words a person has: ordinary names of treatments and liquids, labels of bottles, times, the lamp."""

import json
from pathlib import Path

import pytest

from counter.cli.main import main
from counter.judge.treat.fluids import label_of, name_fluid
from counter.reference.treatments import Treatments
from counter.values.seconds import seconds_words

LINE = "1d red imperf used loose sulphided white paper black mx no writing no repairs no certificate"


@pytest.fixture
def treat(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> object:
    def run(*words: str) -> dict[str, object]:
        assert main(["treat", LINE, *words, "--data", str(tmp_path / "data"), "--json"]) == 0
        return dict(json.loads(capsys.readouterr().out))

    return run


# common practice, but for petroleum spirit (niosh_vmp), the poisons (epa_hhw) and the peroxide caps
# (usp_topical, conc_cap): what a dealer says for each, and the word that must come back
SPOKEN = [
    ("float", "soak_float", {"with care"}),
    ("Full soak", "soak_immersion", {"with care"}),
    ("cold water", "soak_float", {"with care"}),
    ("warm water", "soak_float", {"with care"}),
    ("boiling water", "soak_float", {"never"}),
    ("UV lamp", "uv_longwave", {"tolerates", "with care"}),
    ("lamp", "uv_longwave", {"tolerates", "with care"}),
    ("washing-up liquid", "soap_wash", {"never"}),
    ("kettle", "steam", {"never"}),
    ("watermark fluid", "watermark_other_fluid", {"never", "unknown"}),
    ("white spirit", "watermark_petroleum_spirit", {"never"}),
    ("turps", "watermark_petroleum_spirit", {"never"}),
    ("meths", "watermark_petroleum_spirit", {"never"}),
    ("isopropyl alcohol", "watermark_petroleum_spirit", {"never"}),
    ("benzol", "watermark_petroleum_spirit", {"never"}),
    ("lighter fluid", "watermark_petroleum_spirit", {"with care"}),
    ("Hydrogen Peroxide 3% Solution BP", "peroxide_brush", {"with care"}),
    ("10 vol", "peroxide_brush", {"with care"}),
    ("20 vol", "peroxide_brush", {"never"}),
    ("9 % (30 vol) cream developer", "peroxide_brush", {"never"}),
]


@pytest.mark.parametrize(("said", "treatment", "verdicts"), SPOKEN)
def test_ordinary_names(treat: object, said: str, treatment: str, verdicts: set[str]) -> None:
    answer = treat("--with", said)  # type: ignore[operator]
    assert answer["treatment"] == treatment
    assert answer["verdict"] in verdicts


@pytest.mark.parametrize(
    "said", ["vinegar", "nail varnish remover", "petrol", "perchloroethylene", "bleach"]
)
def test_what_must_not_touch_a_stamp_is_refused_by_its_own_name(treat: object, said: str) -> None:
    answer = treat("--with", said)  # type: ignore[operator]
    assert answer["verdict"] == answer["could_be"] == "never"
    assert answer["reasons"] and all(each["speaks"] != "for" for each in answer["reasons"])


def test_a_name_nobody_knows_is_refused_in_plain_words(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["treat", LINE, "--with", "mystery juice", "--data", str(tmp_path / "data")]) == 2
    told = capsys.readouterr().err
    assert "unknown means don't" in told and "float" in told and "_" not in told


def test_a_bottle_known_by_strength_alone_is_peroxide(treatments: Treatments) -> None:
    for words in ("20 vol", "3 % solution BP", "hydrogen peroxide 6% w/v USP", "stabilised 3%"):
        match = name_fluid(words, treatments)
        assert match and match.fluid.id == "hydrogen_peroxide" and match.exact
    for words in ("old bottle", "watermark fluid", "no label"):
        assert label_of(words) is None


# A float of a 1d lilac is capped at five minutes, a full soak at thirty (the guides' own caps)
@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        *((30, "30 s"), (60, "60 s"), (90, "90 s"), (120, "2 minutes"), (150, "2½ minutes")),
        *((200, "3 minutes 20 s"), (300, "5 minutes"), (5400, "1½ hours"), (86400, "24 hours")),
    ],
)
def test_times_are_said_as_a_person_says_them(seconds: int, words: str) -> None:
    assert seconds_words(seconds) == words


def test_the_lamp_has_its_figures(treatments: Treatments) -> None:
    # icnirp_2004: 10,000 J/m2 of ultraviolet A on an unprotected eye in 8 hours; W = J/s
    hazard = treatments.hazards["uv_a_eye"]
    dose = hazard.numbers["limit_j_m2"]
    assert f"{dose:,.0f} J/m²" in hazard.text
    assert f"{dose / 10:,.0f} s, {round(dose / 10 / 60)} minutes" in hazard.text


def test_less_peroxide_is_argued_with_its_figure(treat: object) -> None:
    # PbS + 4 H2O2 -> PbSO4 + 4 H2O; IUPAC weights: 239.3 g PbS, 34.0147 g H2O2: 1 mg needs 0.569 mg
    need = 4 * 34.0147 / 239.3
    assert round(need, 3) == 0.569 and round(need / 30, 3) == 0.019  # 3 % w/v is 30 mg/mL
    cautions = " ".join(treat("--with", "peroxide", "--strength", "3 %")["cautions"])  # type: ignore[operator]
    assert "0.569 mg" in cautions and "0.019 mL" in cautions


def test_a_condition_may_be_answered_like_a_question(treat: object) -> None:
    words = ("--with", "float", "--answer", "attachment=cover")
    asked = treat(*words)  # type: ignore[operator]
    keys = [each["key"] for each in asked["questions"]]
    given = [part for key in keys for part in ("--answer", f"{key}=yes")]
    assert treat(*words, *given)["verdict"] is not None  # type: ignore[operator]
