"""What cannot be listened to is refused in one sentence, and nothing is made up."""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
import recordings
from recordings import RATE, UNKEPT, Samples

from cuewright.errors import CuewrightError
from cuewright.hear import hear, read
from cuewright_models.hearing import Hearing


def refusal(path: Path) -> str:
    with pytest.raises(CuewrightError) as caught:
        hear(path, UNKEPT)
    sentence = str(caught.value)
    assert sentence.startswith(path.name)
    assert sentence.endswith(".")
    assert sentence.count("\n") == 0
    return sentence


def words(heard: Hearing) -> list[str]:
    return [word.text for piece in heard.pieces for word in piece.words]


def shaped(kind: str, seconds: int = 20) -> Samples:
    """Sound in which nobody speaks, from a fixed seed where it is drawn."""
    drawn = np.random.default_rng(7)
    time = np.arange(seconds * RATE) / RATE
    chord = sum(np.sin(2 * np.pi * pitch * time + pitch) for pitch in (220, 277, 330, 440)) / 8
    made = {
        "silence": np.zeros(len(time)),
        "hum": np.sin(2 * np.pi * 50 * time) * 0.3,
        "noise": drawn.standard_normal(len(time)) * 0.1,
        "music": chord * (0.6 + 0.4 * np.sin(2 * np.pi * 2 * time)),
        "beat": np.where(time * 2 % 1 < 0.08, drawn.standard_normal(len(time)) * 0.5, 0),
    }
    made["music and beat"] = made["music"] + made["beat"]
    return made[kind].astype(np.float32)


@pytest.mark.parametrize("kind", ["silence", "hum", "noise", "music", "beat", "music and beat"])
def test_where_nobody_speaks_no_words_are_invented(kind: str, tmp_path: Path) -> None:
    path = recordings.write(tmp_path / "talk.wav", shaped(kind))
    assert "holds no speech" in refusal(path)


def test_speech_between_music_is_heard_and_nothing_else(
    tmp_path: Path, short: Samples, short_said: list[str]
) -> None:
    music = shaped("music and beat", 30)
    path = recordings.write(tmp_path / "talk.wav", recordings.joined([music, short, music]))
    heard = hear(path, UNKEPT)
    assert recordings.error_rate(short_said, words(heard)) <= 0.1
    assert heard.pieces[0].start_s == pytest.approx(30, abs=0.5)


def test_one_word_over_and_over_is_not_believed_but_told(
    tmp_path: Path, talk: Samples, short: Samples
) -> None:
    start, end = next((s, e) for word, s, e in recordings.said() if word == "boathouse")
    word = talk[round(start * RATE) : round(end * RATE)]
    looped = recordings.joined([word, recordings.silence(0.15)] * 36)
    alone = recordings.write(tmp_path / "loop.wav", looped)
    assert "no words could be made out" in refusal(alone)
    path = recordings.write(tmp_path / "talk.wav", recordings.joined([short, looped]))
    heard = hear(path, UNKEPT)
    assert heard.left_out
    assert all(each.why == "repetition" for each in heard.left_out if each.text)
    assert [each for each in heard.warnings if each.startswith("No words could be made out at 0:")]


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("talk.mp4", b""),
        ("talk.mp4", b"Five sets of five back squats.\n"),
        ("talk.mp3", os.urandom(40_000)),
        ("talk.wav", b"RIFF\x24\0\0\0WAVEfmt "),
        ("talk.webm", b"\x1aE\xdf\xa3"),
        ("talk.mp4", b"\0\0\0\x20ftypisom\0\0\2\0isomiso2avc1mp41"),
    ],
)
def test_what_is_no_recording_is_refused(name: str, content: bytes, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_bytes(content)
    refusal(path)


def test_text_named_like_a_film_is_read_as_text(tmp_path: Path) -> None:
    path = tmp_path / "talk.mp4"
    path.write_text("Five sets of five back squats, two minutes between.\n")
    assert read(path).kind == "text"


def test_a_folder_and_a_missing_file_are_refused(tmp_path: Path) -> None:
    (tmp_path / "talk.mp4").mkdir()
    assert "is a folder" in refusal(tmp_path / "talk.mp4")
    assert "does not exist" in refusal(tmp_path / "talk.mkv")


def test_a_name_in_another_encoding_is_no_hindrance(tmp_path: Path, short: Samples) -> None:
    path = recordings.write(tmp_path / "talk.wav", short[: 6 * RATE])
    odd = path.rename(os.fsdecode(os.fsencode(tmp_path) + b"/caf\xe9.wav"))
    made = read(odd, listening=UNKEPT)
    assert made.name == "caf?.wav"
    assert made.model_dump_json()


def test_a_film_without_sound_is_refused(tmp_path: Path) -> None:
    path = recordings.write(tmp_path / "talk.mp4", shaped("hum"), film=(160, 120), tracks=0)
    assert "has no sound track" in refusal(path)


def test_a_film_cut_before_its_index_is_refused(tmp_path: Path, short: Samples) -> None:
    path = recordings.write(tmp_path / "talk.mp4", short, codec="aac", film=(160, 120))
    raw = path.read_bytes()
    path.write_bytes(raw[: len(raw) // 2])
    assert "cut off" in refusal(path)


HALVED = {
    "mkv": {"codec": "aac", "film": (160, 120)},
    "mp4": {"codec": "aac", "film": (160, 120), "options": {"movflags": "faststart"}},
    "flac": {"codec": "flac"},
    "mp3": {"codec": "mp3"},
}


@pytest.mark.parametrize("form", HALVED)
def test_a_recording_cut_in_half_says_where_it_breaks_off(
    form: str, tmp_path: Path, short: Samples
) -> None:
    path = recordings.write(tmp_path / f"talk.{form}", short, **HALVED[form])
    raw = path.read_bytes()
    path.write_bytes(raw[: len(raw) // 2])
    heard = hear(path, UNKEPT)
    [warning] = (each for each in heard.warnings if "breaks off at 0:" in each)
    assert warning.endswith("of 0:22; copy it again to have the rest.")
    assert heard.duration_s < 15


@pytest.mark.parametrize("form", ["mkv", "mp3", "ogg", "mp4"])
def test_junk_in_the_middle_loses_no_more_than_that(
    form: str, tmp_path: Path, short: Samples, short_said: list[str]
) -> None:
    codec = {"mp3": "mp3", "ogg": "libopus"}.get(form, "aac")
    rate = 48_000 if form == "ogg" else 16_000
    path = recordings.write(tmp_path / f"talk.{form}", short, codec=codec, rate=rate)
    raw = bytearray(path.read_bytes())
    middle = len(raw) // 2
    raw[middle : middle + 2_000] = np.random.default_rng(5).bytes(2_000)
    path.write_bytes(raw)
    heard = words(hear(path, UNKEPT))
    assert recordings.plain(heard)[:5] == recordings.plain(short_said)[:5]
    assert recordings.plain(heard)[-5:] == recordings.plain(short_said)[-5:]


def test_a_card_that_is_not_there_is_said(tmp_path: Path, short: Samples) -> None:
    import ctranslate2

    if ctranslate2.get_cuda_device_count():
        pytest.skip("a graphics card is here")
    path = recordings.write(tmp_path / "talk.wav", short)
    with pytest.raises(CuewrightError, match=r"No usable graphics card.*--device cuda\.$"):
        hear(path, UNKEPT.model_copy(update={"device": "cuda"}))


@pytest.mark.parametrize("language", ["de", "xx", ""])
def test_a_language_that_the_model_does_not_know_is_said(
    language: str, tmp_path: Path, short: Samples
) -> None:
    path = recordings.write(tmp_path / "talk.wav", short)
    with pytest.raises(CuewrightError, match=r"language"):
        hear(path, UNKEPT.model_copy(update={"language": language}))


def test_reading_text_loads_nothing_to_listen_with(tmp_path: Path) -> None:
    talk = tmp_path / "talk.txt"
    talk.write_text("Five sets of five back squats.\n")
    code = (
        "import sys\nfrom cuewright.cli import app\n"
        "from cuewright.flow import read_plan\nread_plan(sys.argv[1])\n"
        "print(*{'av', 'ctranslate2', 'faster_whisper', 'huggingface_hub', 'onnxruntime'}"
        ".intersection(sys.modules))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(talk)],
        env=recordings.environment(tmp_path),
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == ""


def test_two_hours_of_silence_hold_no_more_than_five_minutes(tmp_path: Path) -> None:
    held = {
        minutes: _held(recordings.quiet(tmp_path / f"{minutes}.wav", 60 * minutes))
        for minutes in (5, 120)
    }
    assert held[120] - held[5] <= 100


def _held(path: Path) -> float:
    """MiB that a process of its own holds at most while it listens."""
    code = (
        "import sys, recordings\nfrom cuewright.hear import hear\n"
        "from cuewright.errors import CuewrightError\n"
        "try:\n    hear(sys.argv[1], recordings.UNKEPT)\n"
        "except CuewrightError as error:\n    assert 'no speech' in str(error)\n"
        "print(recordings.most_held())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(path)],
        env=recordings.environment(path.parent),
        capture_output=True,
        text=True,
        check=True,
    )
    return float(done.stdout)
