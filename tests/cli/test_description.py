"""`plan --format description`: a post for each talk, in the room that is asked for."""

from pathlib import Path

import pytest
from cli.running import COLD_START, LOW_WATER, run, sentence

from cuewright.flow import read_description


def test_a_post_is_printed() -> None:
    result = run("plan", LOW_WATER, "--format", "description")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith("# Low Water\n")
    assert len(result.stdout) <= 5000
    assert "\n0:00 " in result.stdout


def test_posts_of_several_talks_stand_apart() -> None:
    one, two = (run("plan", talk, "--format", "description").stdout
                for talk in (LOW_WATER, COLD_START))  # fmt: skip
    both = run("plan", LOW_WATER, COLD_START, "--format", "description")
    assert both.stdout == f"{one}\n{two}"


def test_the_file_can_be_read_as_a_description(tmp_path: Path) -> None:
    result = run("plan", LOW_WATER, "--out", tmp_path, "--format", "description", "--quiet")
    assert result.exit_code == 0
    names = sorted(path.name for path in tmp_path.iterdir())
    assert names == ["talk.description.md", "talk.plan.json"]
    assert read_description(tmp_path / "talk.description.md").title == "Low Water"


def test_a_limit_shortens_the_post() -> None:
    whole = run("plan", LOW_WATER, "--format", "description").stdout
    short = run("plan", LOW_WATER, "--format", "description", "--limit", len(whole) - 1)
    assert (short.exit_code, short.stderr) == (0, "")
    assert len(short.stdout) < len(whole)


def test_a_limit_too_small_for_the_session_is_told_in_one_sentence(tmp_path: Path) -> None:
    result = run("plan", LOW_WATER, "--format", "description", "--limit", 300, "--out", tmp_path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "more than the 300 allowed" in sentence(result)
    assert not list(tmp_path.iterdir())


def test_one_talk_too_long_does_not_keep_the_other() -> None:
    talks = (LOW_WATER, COLD_START)
    limit = next(room for room in range(600, 5000, 20)
                 if [ends(talk, room) for talk in talks] in ([0, 2], [2, 0]))  # fmt: skip
    result = run("plan", *talks, "--format", "description", "--limit", limit)
    assert result.exit_code == 2
    assert "allowed" in sentence(result)
    assert result.stdout.lstrip().startswith("# ")


def ends(talk: Path, limit: int) -> int:
    """The exit status for one talk."""
    return run("plan", talk, "--format", "description", "--limit", limit).exit_code


@pytest.mark.parametrize("limit", ["0", "-5", "many", "1.5", ""])
def test_a_limit_is_a_whole_number_from_one(limit: str) -> None:
    result = run("plan", LOW_WATER, "--format", "description", "--limit", limit)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "--limit" in result.stderr
    assert "Traceback" not in result.stderr


def test_a_limit_without_a_description_is_told() -> None:
    result = run("plan", LOW_WATER, "--limit", 300)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "--format description" in sentence(result)


def test_a_talk_without_a_session_gives_a_post_that_says_so() -> None:
    talk = b"Hello there. The river was high last week and the boats stayed in."
    result = run("plan", "-", "--format", "description", stdin=talk)
    assert result.exit_code == 0
    assert "no session was found" in sentence(result)
    assert "No session was found" in result.stdout
