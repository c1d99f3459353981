"""A fault of ours is one sentence; leaving early is silent."""

from pathlib import Path

import pytest
from cli.running import TALK, run, sentence

from cuewright import flow

read_plan = flow.read_plan


@pytest.fixture
def talks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Two talks, of which the first meets a fault."""

    def faulty(source: str, **more: object) -> object:
        if "faulty" in source:
            raise ZeroDivisionError("a\nlong" + " story" * 100)
        return read_plan(source, **more)

    monkeypatch.setattr(flow, "read_plan", faulty)
    paths = [tmp_path / "faulty.vtt", tmp_path / "good.vtt"]
    for path in paths:
        path.write_bytes(TALK)
    return paths


def test_a_fault_is_one_sentence_and_the_rest_goes_on(talks: list[Path]) -> None:
    result = run("plan", *talks)
    assert result.exit_code == 2
    told = sentence(result)
    assert "fault in cuewright (ZeroDivisionError: a long story" in told
    assert "report" in told
    assert len(told) < 400
    assert "Warm-up" in result.stdout


def test_the_traceback_is_there_for_those_who_ask(
    talks: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CUEWRIGHT_DEBUG", "1")
    result = run("plan", *talks)
    assert result.exit_code == 2
    assert "Traceback" in result.stderr


def test_an_interruption_is_quiet(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(_: str, **__: object) -> object:
        raise KeyboardInterrupt

    monkeypatch.setattr(flow, "read_plan", stop)
    result = run("plan", "talk.vtt", "other.vtt")
    assert (result.exit_code, result.stdout, result.stderr) == (130, "", "")
