"""`--movements FILE`, and the file in the user's own folder."""

import json
from pathlib import Path

import pytest
from cli.running import process, run, sentence

from cuewright.movements.catalogue import catalogue, shipped

MINE = '[heave]\nsaid = ["slipway heave"]\npatterns = ["hinge"]\n[push-up]\nsaid = ["dipper"]\n'
TALK = "For time, three rounds of ten slipway heaves and eight dippers.\n"


@pytest.fixture
def talk(tmp_path: Path) -> Path:
    path = tmp_path / "talk.txt"
    path.write_text(TALK, "utf-8")
    return path


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(MINE, "utf-8")
    return path


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The program's own folder where the XDG Base Directory Specification puts it."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "xdg"))
    path = tmp_path / "xdg/cuewright"
    path.mkdir(parents=True)
    return path


def test_a_plan_with_one_s_own_movements(talk: Path, mine: Path) -> None:
    result = run("plan", talk, "--movements", mine)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "10 heaves" in result.stdout
    assert "8 push-ups" in result.stdout
    assert "heave" not in run("plan", talk).stdout.split("Not understood")[0]
    assert catalogue() is shipped()


def test_findings_with_one_s_own_movements(tmp_path: Path, mine: Path) -> None:
    talk = tmp_path / "talk.txt"
    talk.write_text(f"{TALK}That's ninety slipway heaves in total.\n", "utf-8")
    result = run("check", talk, "--movements", mine, "--json")
    found = [json.loads(line) for line in result.stdout.splitlines()]
    assert ("sum-claim-wrong", "heave") in [(one["rule"], one["about"]) for one in found]
    assert "heave" not in run("check", talk, "--json").stdout


def test_the_list_marks_what_is_one_s_own(mine: Path) -> None:
    lines = run("movements", "--movements", mine).stdout.splitlines()
    assert [line.split()[0] for line in lines] == sorted({*shipped(), "heave"})
    assert next(line for line in lines if "(yours)" in line).startswith("heave ")
    assert next(line for line in lines if "(with your words)" in line).startswith("push-up ")
    assert max(map(len, lines)) <= 80
    assert run("movements", "Dippers", "--movements", mine).stdout.startswith(
        "push-up (with your words)\n"
    )
    assert run("movements", "dipper").exit_code == 2


def test_the_file_in_one_s_folder_is_found_and_the_option_replaces_it(
    talk: Path, mine: Path, folder: Path
) -> None:
    (folder / "movements.toml").write_text(
        '[plunge]\nsaid = ["slipway heave"]\npatterns = ["hinge"]\n', "utf-8"
    )
    assert "10 plunges" in run("plan", talk).stdout
    assert "plunge" in run("movements").stdout
    chosen = run("plan", talk, "--movements", mine).stdout
    assert "10 heaves" in chosen
    assert "plunge" not in chosen


def test_the_file_is_looked_for_where_xdg_says(talk: Path, folder: Path) -> None:
    (folder / "movements.toml").write_text(MINE, "utf-8")
    done = process("plan", talk, env={"XDG_CONFIG_HOME": str(folder.parent)})
    assert (done.returncode, done.stderr) == (0, "")
    assert "10 heaves" in done.stdout


@pytest.mark.parametrize("command", [["plan", "TALK"], ["check", "TALK"], ["movements"]])
def test_a_bad_file_is_one_sentence(command: list[str], talk: Path, folder: Path) -> None:
    args = [talk if arg == "TALK" else arg for arg in command]
    bad = folder / "movements.toml"
    bad.write_bytes(b"[heave\n")
    for more in ([], ["--movements", bad]):
        result = run(*args, *more)
        assert (result.exit_code, result.stdout) == (2, "")
        assert sentence(result).startswith(f"{bad} is not TOML at line 1 (")
    result = run(*args, "--movements", folder / "none.toml")
    assert "none.toml does not exist" in sentence(result)
