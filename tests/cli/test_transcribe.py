"""`transcribe`, and recordings as sources of the other commands; all with the test recogniser."""

import io
import json
import shutil
from pathlib import Path

import pytest
from cli.running import LOW_WATER, MODEL, run, sentence

from cuewright.hear import read

SAID = (
    "Good morning everybody, and welcome back to the boathouse at Fennel Lock. This is Robin, "
    "and I have your land training session for Thursday, the 14th of May. It is called Slow "
    "Ferry, and if you have been here for a while, you will remember it from the winter."
)


def files(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def words(text: str) -> str:
    heard = read("-", stdin=io.BytesIO(text.encode()))
    return " ".join(word.text for word in heard.words)


@pytest.mark.parametrize(
    ("form", "begins"), [([], "WEBVTT\n"), (["vtt"], "WEBVTT\n"), (["srt"], "1\n"), (["json"], "{")]
)
def test_one_recording_is_printed(short: Path, form: list[str], begins: str) -> None:
    result = run("transcribe", short, *MODEL, *(["--format", *form] if form else []))
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith(begins)
    assert words(result.stdout).startswith(SAID)


def test_files_are_written_whole_and_told(short: Path, tmp_path: Path) -> None:
    result = run("transcribe", short, *MODEL, "--out", tmp_path)
    assert (result.exit_code, result.stdout) == (0, "")
    assert list(files(tmp_path)) == ["short.srt", "short.transcript.json", "short.vtt"]
    assert all(name in sentence(result) for name in files(tmp_path))
    assert all(words(text.decode()).startswith(SAID) for text in files(tmp_path).values())


def test_one_form_and_the_words_as_heard_are_written(short: Path, tmp_path: Path) -> None:
    assert run("transcribe", short, *MODEL, "--out", tmp_path, "--format", "srt").exit_code == 0
    assert list(files(tmp_path)) == ["short.srt", "short.transcript.json"]


def test_captions_corrected_by_hand_are_never_lost(short: Path, tmp_path: Path) -> None:
    again = ("transcribe", short, *MODEL, "--out", tmp_path)
    assert run(*again).exit_code == 0
    before = files(tmp_path)
    assert run(*again).exit_code == 0
    assert files(tmp_path) == before
    corrected = before | {"short.vtt": before["short.vtt"].replace(b"Robin", b"Robyn")}
    (tmp_path / "short.vtt").write_bytes(corrected["short.vtt"])
    (tmp_path / "short.srt").unlink()
    result = run(*again)
    assert result.exit_code == 2
    assert "perhaps corrected by hand" in sentence(result)
    assert files(tmp_path) == {k: v for k, v in corrected.items() if k != "short.srt"}
    assert run(*again, "--overwrite").exit_code == 0
    assert files(tmp_path) == before


def test_no_file_goes_onto_a_source_or_twice(short: Path, tmp_path: Path) -> None:
    odd = tmp_path / "short.vtt"
    shutil.copy(short, odd)
    result = run("transcribe", odd, *MODEL, "--out", tmp_path, "--overwrite")
    assert (result.exit_code, odd.read_bytes()) == (2, short.read_bytes())
    assert "one of the sources" in sentence(result)
    result = run("transcribe", short, odd, *MODEL, "--out", tmp_path / "out", "--quiet")
    assert result.exit_code == 2
    assert "would be written over" in sentence(result)
    assert len(files(tmp_path / "out")) == 3


@pytest.mark.parametrize("args", [["a.wav", "b.wav"], ["a.wav", "--format=vtt", "--format=srt"]])
def test_several_files_need_a_folder(args: list[str]) -> None:
    result = run("transcribe", *args)
    assert result.exit_code == 2
    assert "--out DIR" in sentence(result)


def test_one_bad_recording_does_not_stop_the_rest(short: Path, tmp_path: Path) -> None:
    bad = tmp_path / "bad.wav"
    bad.write_bytes(b"RIFF\x24\0\0\0WAVEfmt ")
    sources = [bad, tmp_path / "none.mp4", LOW_WATER, short]
    result = run("transcribe", *sources, *MODEL, "--out", tmp_path / "out", "--quiet")
    assert result.exit_code == 2
    told = result.stderr.splitlines()
    assert [line.split()[0] for line in told] == ["bad.wav", "none.mp4", "talk.vtt"]
    assert "has its words already" in told[2]
    assert len(files(tmp_path / "out")) == 3


@pytest.mark.parametrize(
    ("args", "part"),
    [
        (["--model", "none/such"], "There is no model in none/such"),
        (["--language", "english"], "english is no code of a language"),
    ],
)
def test_what_cannot_be_is_one_sentence(short: Path, args: list[str], part: str) -> None:
    for command in ("transcribe", "plan", "check"):
        result = run(command, short, *args)
        assert (result.exit_code, result.stdout) == (2, "")
        assert sentence(result).startswith(part)


def test_nothing_is_kept_when_that_is_asked(short: Path, own_folders: Path) -> None:
    kept = own_folders / "cache"
    before = sorted(kept.rglob("*"))
    result = run("transcribe", short, *MODEL, "--no-cache", "--threads", 1, "--hints")
    assert words(result.stdout).startswith(SAID)
    assert sorted(kept.rglob("*")) == before


def test_the_plan_of_the_transcript_is_that_of_the_recording(short: Path, tmp_path: Path) -> None:
    run("transcribe", short, *MODEL, "--out", tmp_path, "--quiet")
    plans = [
        json.loads(run("plan", source, "--json", *MODEL).stdout)
        for source in (short, tmp_path / "short.transcript.json")
    ]
    heard, read_back = (plan.pop("source") for plan in plans)
    assert plans[0] == plans[1]
    assert (heard["kind"], read_back["kind"]) == ("recording", "captions")
    assert plans[0]["title"] == "Slow Ferry"
    assert (heard["duration_s"], heard["language"]) == (21.5, "en")
    assert (read_back["duration_s"], read_back["language"]) == (21.5, "en")


def test_a_recording_is_checked_and_explained(short: Path) -> None:
    assert run("check", short, *MODEL).exit_code == 0
    assert "Thursday" in run("plan", short, "--explain", *MODEL).stdout
