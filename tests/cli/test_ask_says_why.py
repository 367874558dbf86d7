"""What `ask` prints beside the candidates: the reasons with their sources, and how unsure it is."""

import pytest

from counter.cli.main import main


def asked(text: str, capsys: pytest.CaptureFixture[str]) -> list[str]:
    assert main(["ask", text, "--demo"]) == 0
    return capsys.readouterr().out.splitlines()


def test_the_first_candidate_is_reasoned_and_its_ink_is_named(
    capsys: pytest.CaptureFixture[str],
) -> None:
    told = asked("1d blk pl 11 red mc", capsys)
    at = told.index("Why 1d black, 1840:")
    # plates 1a to 11 of the 1d black: the imperforate issues' display pages
    assert "  + plate number: 11 fits plates 1a, 1b, 2-11 [imperf_display, high]" in told[at:]
    liquids = told[told.index("May it meet:") + 1 :]
    assert liquids[3].startswith("  watermark spirit: never (")
    assert liquids[0].startswith("  float: ask first (") and "could be with care" in liquids[0]


def test_what_is_likelier_none_of_the_issues_is_said_to_be_so(
    capsys: pytest.CaptureFixture[str],
) -> None:
    told = asked("1d black pl 12", capsys)  # no 1d black was printed from plate 12
    assert any(line.endswith("none of these") for line in told)
    assert not any(line.startswith("Why") for line in told)
    assert "unknown means don't" in " ".join(told)


def test_a_plate_never_put_to_press_is_said_of_its_own_issue(
    capsys: pytest.CaptureFixture[str],
) -> None:
    # 69 of the four-letter 1d was rejected; plate 69 of the imperforate 1d printed
    told = asked("1d red plate 69", capsys)
    assert "1d rose-red, letters in four corners, 1864: plate 69 never put to press (rejected)" in told


def test_a_slip_is_told_in_the_right_number(capsys: pytest.CaptureFixture[str]) -> None:
    told = " ".join(asked("1d blk lettered UA", capsys))
    assert "or a slip in reading the check letters: " in told


def test_blueing_is_washed_out_only_of_blued_paper(capsys: pytest.CaptureFixture[str]) -> None:
    assert "blueing" not in " ".join(asked("6d embossed lilac silk threads", capsys))
    assert "blueing" in " ".join(asked("1d red imperf small crown alphabet II white paper", capsys))


def test_a_commemorative_is_no_misreading(capsys: pytest.CaptureFixture[str]) -> None:
    told = " ".join(asked("2½d silver jubilee 1935", capsys))
    assert "Why 2½d ultramarine, Silver Jubilee of George V, 7 May 1935:" in told
    assert "read it again" not in told
