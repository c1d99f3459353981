"""Whatever is given, the command says in one sentence what is wrong, or plans with a warning."""

import codecs
import json
from pathlib import Path

import pytest
from cli.running import TALK, run, sentence

CUT = TALK + b"\n00:13.000 --> 00:1"
BACKWARDS = (
    b"WEBVTT\n\n00:07.000 --> 00:12.000\nthen for time five rounds of fifteen burpees\n\n"
    b"00:01.000 --> 00:06.000\nwarm up with two rounds of ten air squats\n"
)
LATIN = "Tonight, caf\u00e9 afterwards: three rounds for time of ten burpees.\n"


@pytest.mark.parametrize(
    ("name", "content", "part"),
    [
        ("talk.vtt", b"", "is empty"),
        ("talk.vtt", b"WEBVTT\n\n00:01.000 --> 00:09.000\n[music]\n", "no speech"),
        ("talk.srt", b"1\n00:00:01,000 --> 00:00:02,000\n\n", "no speech"),
        ("talk.vtt", b"WEBVTT\n", "no cue"),
        ("talk.txt", bytes(range(256)) * 40, "binary data"),
        ("talk.json", b'{"segments": [{"text": "ten squ', "breaks off"),
        ("talk.txt", b"ten squats " * 5_000_000, "larger than"),
        ("talk.mp4", b"\0\0\0\x20ftypisom", "recording"),
        ("talk.vtt", b"%PDF-1.7", "PDF"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_refused_in_one_sentence(tmp_path: Path, name: str, content: bytes, part: str) -> None:
    (tmp_path / name).write_bytes(content)
    result = run("plan", tmp_path / name, "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert part in sentence(result)
    assert result.stdout == ""
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("name", "content", "part"),
    [
        ("talk.vtt", CUT, "cut off"),
        ("talk.vtt", BACKWARDS, "run backwards"),
        ("talk.txt", LATIN.encode("latin-1"), "read as Latin-1"),
        ("talk.txt", codecs.BOM_UTF16_LE + LATIN.encode("utf-16-le"), ""),
        ("talk.txt", codecs.BOM_UTF16_BE + LATIN.encode("utf-16-be"), ""),
        ("talk.mp4", TALK, ""),
        ("talk.json", TALK, ""),
        ("talk", TALK, ""),
    ],
)
def test_planned_with_a_warning_where_needed(
    tmp_path: Path, name: str, content: bytes, part: str
) -> None:
    (tmp_path / name).write_bytes(content)
    result = run("plan", tmp_path / name, "--out", tmp_path / "out", "--quiet")
    assert result.exit_code == 0
    assert part in (sentence(result) if part else result.stderr)
    assert bool(result.stderr) == bool(part)
    names = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert names == ["talk.plan.html", "talk.plan.json", "talk.plan.md"]
    assert json.loads((tmp_path / "out/talk.plan.json").read_text("utf-8"))["blocks"]


def test_missing_file(tmp_path: Path) -> None:
    result = run("plan", tmp_path / "talk.vtt")
    assert result.exit_code == 2
    assert sentence(result).startswith("talk.vtt does not exist")


def test_folder(tmp_path: Path) -> None:
    assert "is a folder" in sentence(run("plan", tmp_path))


def test_no_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", forbidden)
    result = run("check", tmp_path / "talk.vtt")
    assert result.exit_code == 2
    assert "may not be read by you" in sentence(result)


@pytest.mark.parametrize("name", ["a\0b", "", "\x1b[31mred.vtt", "caf\udce9.vtt", "w" * 5000])
def test_odd_names(name: str) -> None:
    result = run("plan", name)
    assert result.exit_code == 2
    assert sentence(result).replace("\ufffd", "").isprintable()


def test_a_talk_without_training_is_an_empty_plan_that_says_so(tmp_path: Path) -> None:
    talk = tmp_path / "parking.txt"
    talk.write_text("Please do not park by the slipway, the club has had letters about it.\n")
    result = run("plan", talk, "--out", tmp_path)
    assert result.exit_code == 0
    assert "no session was found in parking.txt" in result.stderr
    assert "No session was found in this talk." in result.stdout
    assert json.loads((tmp_path / "parking.plan.json").read_text("utf-8"))["blocks"] == []
    assert run("check", talk).exit_code == 0


def test_one_bad_source_does_not_stop_the_rest(tmp_path: Path) -> None:
    (tmp_path / "bad.vtt").write_bytes(b"")
    (tmp_path / "good.vtt").write_bytes(TALK)
    sources = [tmp_path / "bad.vtt", tmp_path / "none.vtt", tmp_path / "good.vtt"]
    result = run("plan", *sources, "--out", tmp_path / "out", "--quiet")
    assert result.exit_code == 2
    assert [line.split()[0] for line in result.stderr.splitlines()] == ["bad.vtt", "none.vtt"]
    assert len(list((tmp_path / "out").iterdir())) == 3
