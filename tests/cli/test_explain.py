"""`plan --explain`: reasons in place of plans."""

import json
from pathlib import Path

import pytest
from cli.running import COLD_START, LOW_WATER, TALK, process, run, sentence

from cuewright import flow


def test_every_clause_of_a_talk_at_80_columns() -> None:
    result = run("plan", LOW_WATER, "--explain")
    assert (result.exit_code, result.stderr) == (0, "")
    lines = result.stdout.splitlines()
    assert lines[0] == "talk.vtt (captions), 6:43 long"
    assert max(map(len, lines)) <= 80
    assert "\x1b" not in result.stdout
    told = [line for line in lines if line[:1].isdigit()]
    assert len(told) == len(flow.explain_plan(LOW_WATER).clauses)


def test_several_talks_stand_under_their_names() -> None:
    text = run("plan", LOW_WATER, COLD_START, LOW_WATER, "--explain").stdout
    heads = [line for line in text.splitlines() if line.startswith("talk.")]
    assert heads == ["talk.vtt (captions), 6:43 long", "talk.srt (captions), 6:38 long"]
    assert "\n\ntalk.srt" in text


def test_json_holds_the_same_a_line_a_talk() -> None:
    lines = run("plan", LOW_WATER, COLD_START, "--explain", "--json").stdout.splitlines()
    first, second = map(json.loads, lines)
    assert second["source"]["name"] == "talk.srt"
    page = run("plan", LOW_WATER, "--explain").stdout
    for clause in first["clauses"]:
        assert clause["said"]["quote"][:50] in page
        for choice in (clause["section"], clause["role"]):
            assert f"  {choice['chosen']}  " in page
        assert clause["section"]["lost_by"] >= 0


def test_the_same_talk_has_the_same_reasons() -> None:
    runs = {process("plan", COLD_START, "--explain", "--json").stdout for _ in range(2)}
    assert len(runs) == 1


@pytest.mark.parametrize("more", [["--out", "DIR"], ["--format", "html"], ["--quiet"]])
@pytest.mark.parametrize("form", [[], ["--json"]])
def test_what_does_not_go_with_it(more: list[str], form: list[str], tmp_path: Path) -> None:
    args = [tmp_path / "out" if arg == "DIR" else arg for arg in more]
    result = run("plan", LOW_WATER, "--explain", *args, *form)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "leave out --out, --format and --quiet" in sentence(result)
    assert list(tmp_path.iterdir()) == []


def test_a_source_that_cannot_be_read_does_not_stop_the_rest(tmp_path: Path) -> None:
    result = run("plan", tmp_path / "none.vtt", LOW_WATER, "--explain")
    assert result.exit_code == 2
    assert "does not exist" in sentence(result)
    assert result.stdout.count("talk.vtt") == 1


def test_warnings_of_the_reader_are_told(tmp_path: Path) -> None:
    talk = tmp_path / "older.txt"
    talk.write_bytes("Ten burpees at the caf\u00e9.\n".encode("latin-1"))
    result = run("plan", talk, "--explain")
    assert sentence(result).startswith("Warning: older.txt is not UTF-8")


def test_one_s_own_movements_are_weighed(tmp_path: Path) -> None:
    mine, talk = tmp_path / "mine.toml", tmp_path / "talk.txt"
    mine.write_text('[heave]\npatterns = ["hinge"]\n', "utf-8")
    talk.write_text("Warm up first. Ten heaves.\n", "utf-8")
    assert "prescribes" not in run("plan", talk, "--explain").stdout
    assert "prescribes" in run("plan", talk, "--explain", "--movements", mine).stdout


def test_standard_input() -> None:
    result = run("plan", "-", "--explain", stdin=TALK)
    assert result.stdout.startswith("standard input (captions)")
