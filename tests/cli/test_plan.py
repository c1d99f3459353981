"""`plan`: what is printed, what is written, and what is never written over."""

import json
from pathlib import Path

import pytest
from cli.running import COLD_START, LOW_WATER, TALK, run, sentence

from cuewright import cli, files
from cuewright.errors import CuewrightError
from cuewright.render import FORMS


@pytest.fixture
def talk(tmp_path: Path) -> Path:
    path = tmp_path / "talk.vtt"
    path.write_bytes(TALK)
    return path


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_every_form_of_the_renderer_can_be_asked_for() -> None:
    assert {form.value for form in cli.Form} == set(FORMS)


@pytest.mark.parametrize("source", [LOW_WATER, COLD_START])
def test_a_summary_fits_80_columns_and_has_no_colour_in_a_pipe(source: Path) -> None:
    result = run("plan", source)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "Times" in result.stdout
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert "\x1b" not in result.stdout


def test_json_is_one_plan_a_line(talk: Path, tmp_path: Path) -> None:
    (tmp_path / "other.vtt").write_bytes(TALK)
    result = run("plan", talk, tmp_path / "other.vtt", "--json")
    plans = [json.loads(line) for line in result.stdout.splitlines()]
    assert [plan["source"]["name"] for plan in plans] == ["talk.vtt", "other.vtt"]
    assert {plan["contract"] for plan in plans} == {"cuewright-plan/1"}


@pytest.mark.parametrize(
    ("form", "start"),
    [("json", "{\n"), ("markdown", "# "), ("html", "<!DOCTYPE html>"), ("text", "untitled")],
)
def test_one_form_on_screen(talk: Path, form: str, start: str) -> None:
    assert run("plan", talk, "--format", form).stdout.startswith(start)


@pytest.mark.parametrize("more", [["--format", "html", "--json"], ["--format", "x"], ["--nope"]])
def test_bad_use(talk: Path, more: list[str]) -> None:
    result = run("plan", talk, *more)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "Traceback" not in result.stderr


def test_files_are_the_plan_and_the_asked_forms(talk: Path, tmp_path: Path) -> None:
    result = run("plan", talk, "--out", tmp_path / "out", "--format", "text", "--format", "html")
    assert names(tmp_path / "out") == ["talk.plan.html", "talk.plan.json", "talk.plan.txt"]
    assert "Wrote" in sentence(result)
    assert "Warm-up" in result.stdout
    written = (tmp_path / "out/talk.plan.json").read_text("utf-8")
    assert json.loads(written) == json.loads(run("plan", talk, "--json").stdout)


def test_quiet_prints_nothing_when_all_is_well(talk: Path, tmp_path: Path) -> None:
    result = run("plan", talk, "--out", tmp_path, "--quiet")
    assert (result.stdout, result.stderr) == ("", "")


def test_the_same_talk_gives_the_same_bytes(talk: Path, tmp_path: Path) -> None:
    for folder in ("one", "two"):
        run("plan", talk, "--out", tmp_path / folder)
    for name in names(tmp_path / "one"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_standard_input(tmp_path: Path) -> None:
    result = run("plan", "-", "--out", tmp_path, stdin=TALK)
    assert result.exit_code == 0
    assert "standard-input.plan.json" in names(tmp_path)


def test_generated_files_are_replaced(talk: Path, tmp_path: Path) -> None:
    (tmp_path / "talk.plan.md").write_text("old")
    run("plan", talk, "--out", tmp_path)
    assert (tmp_path / "talk.plan.md").read_text("utf-8").startswith("# ")


@pytest.mark.parametrize("other", ["talk.vtt", "talk.srt", "Talk.txt"])
def test_sources_of_one_stem_do_not_write_over_each_other(
    talk: Path, tmp_path: Path, other: str
) -> None:
    second = tmp_path / "more" / other
    second.parent.mkdir()
    second.write_bytes(TALK.replace(b"fifteen", b"twelve"))
    result = run("plan", talk, second, "--out", tmp_path / "out", "--quiet")
    assert result.exit_code == 2
    assert f"{second} would be written over {talk}" in sentence(result)
    plan = (tmp_path / "out/talk.plan.json").read_text("utf-8")
    assert "fifteen" in plan
    assert len(names(tmp_path / "out")) == 3


def test_a_source_named_twice_is_read_once(talk: Path) -> None:
    assert len(run("plan", talk, talk, "--json").stdout.splitlines()) == 1


def test_a_source_is_never_written_over(talk: Path, tmp_path: Path) -> None:
    clash = tmp_path / "talk.plan.md"
    clash.write_bytes(TALK)
    result = run("plan", talk, clash, "--out", tmp_path, "--quiet")
    assert result.exit_code == 2
    assert "is one of the sources" in sentence(result)
    assert clash.read_bytes() == TALK
    assert "talk.plan.json" not in names(tmp_path)


def test_a_place_that_cannot_be_written(talk: Path, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    result = run("plan", talk, "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert "in the way" in sentence(result)
    assert result.stdout == ""


def test_a_full_disk_stops_neither_the_rest_nor_leaves_halves(
    talk: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = files.write

    def full(path: Path, text: str) -> None:
        if path.name.startswith("talk"):
            raise CuewrightError(f"{path.name}: no space left on the disk.")
        write(path, text)

    monkeypatch.setattr(files, "write", full)
    (tmp_path / "other.vtt").write_bytes(TALK)
    result = run("plan", talk, tmp_path / "other.vtt", "--out", tmp_path / "out", "--quiet")
    assert result.exit_code == 2
    assert "no space" in sentence(result)
    assert [name.split(".")[0] for name in names(tmp_path / "out")] == ["other"] * 3
