"""What is said comes out, when it is said, whatever the recording is packed in."""

import itertools
from pathlib import Path
from statistics import median

import numpy as np
import pytest
import recordings
from rapidfuzz.distance import Levenshtein
from recordings import RATE, UNKEPT, Samples

from cuewright.hear import hear, read, transcript
from cuewright.hear.recording import media
from cuewright_models.hearing import Hearing


def words(heard: Hearing) -> list[str]:
    return [word.text for word in transcript(heard).words]


def slips(heard: Hearing, later: float = 0.0) -> list[float]:
    """How far each word that was heard right begins from where it is spoken."""
    meant = [(recordings.plain([word]), start) for word, start, _ in recordings.said()]
    found = [(recordings.plain([word.text]), word.start_s) for word in transcript(heard).words]
    same = Levenshtein.opcodes([tuple(w) for w, _ in meant], [tuple(w) for w, _ in found])
    pairs = (
        (meant[code.src_start + n][1], found[code.dest_start + n][1])
        for code in same
        if code.tag == "equal"
        for n in range(code.src_end - code.src_start)
    )
    return [abs(got - spoken - later) for spoken, got in pairs if spoken is not None]


def test_the_talk_is_heard_as_it_is_said(heard: Hearing) -> None:
    assert recordings.error_rate([word for word, _, _ in recordings.said()], words(heard)) <= 0.02
    assert heard.duration_s == pytest.approx(291.99, abs=0.05)
    assert heard.language == "en"
    assert not heard.warnings


def test_words_have_the_times_at_which_they_are_spoken(heard: Hearing) -> None:
    off = slips(heard)
    assert len(off) > 600
    assert median(off) <= 0.1
    assert sorted(off)[len(off) * 95 // 100] <= 0.4


def test_times_go_forward_and_stay_inside(heard: Hearing) -> None:
    spoken = transcript(heard).words
    assert all(0 <= word.start_s <= word.end_s <= heard.duration_s for word in spoken)
    assert all(a.start_s <= b.start_s for a, b in itertools.pairwise(spoken))
    assert all(0 <= word.confidence <= 1 for word in spoken)


FORMS = {
    "wav-8": ("talk.wav", {"rate": 8_000}),
    "wav-22": ("talk.wav", {"rate": 22_050, "layout": "stereo"}),
    "flac-48": ("talk.flac", {"codec": "flac", "rate": 48_000, "layout": "stereo"}),
    "mp3-44": ("talk.mp3", {"codec": "mp3", "rate": 44_100, "layout": "stereo"}),
    "opus-48": ("talk.opus", {"codec": "libopus", "rate": 48_000, "form": "ogg"}),
    "aac": ("talk.aac", {"codec": "aac", "form": "adts", "rate": 44_100}),
    "m4a": ("talk.m4a", {"codec": "aac", "form": "ipod", "rate": 44_100}),
    "mp4": ("talk.mp4", {"codec": "aac", "film": (160, 120)}),
    "mkv": ("talk.mkv", {"codec": "aac", "film": (160, 120)}),
    "mov": ("talk.mov", {"codec": "aac", "film": (160, 120), "rate": 48_000, "layout": "5.1"}),
    "ts": ("talk.ts", {"codec": "mp2", "form": "mpegts", "film": (160, 120)}),
    "unnamed": ("talk", {"form": "wav"}),
}


@pytest.mark.parametrize("form", FORMS)
def test_any_container_and_rate_is_heard(
    form: str, tmp_path: Path, short: Samples, short_said: list[str]
) -> None:
    name, how = FORMS[form]
    path = recordings.write(tmp_path / name, short, **how)
    made = read(path, listening=UNKEPT)
    assert made.kind == "recording"
    assert recordings.error_rate(short_said, (w.text for w in made.words)) <= 0.1
    assert made.duration_s == pytest.approx(len(short) / RATE, abs=0.2)
    assert made.words[0].start_s == pytest.approx(0.02, abs=0.25)
    assert not made.warnings


@pytest.mark.parametrize("name", ["late.mp4", "late.mkv"])
def test_sound_that_begins_after_the_picture_keeps_the_pictures_time(
    name: str, tmp_path: Path, short: Samples
) -> None:
    path = recordings.write(tmp_path / name, short, codec="aac", film=(160, 120), late_s=2.5)
    heard = hear(path, UNKEPT)
    assert median(slips(heard, later=2.5)) <= 0.1
    assert not heard.warnings


def test_a_hole_in_the_sound_does_not_move_what_follows(tmp_path: Path, short: Samples) -> None:
    whole = recordings.write(tmp_path / "whole.mkv", short, codec="aac", film=(160, 120))
    raw = bytearray(whole.read_bytes())
    middle = len(raw) // 2
    raw[middle : middle + 3_000] = np.random.default_rng(6).bytes(3_000)
    torn = tmp_path / "torn.mkv"
    torn.write_bytes(raw)
    assert median(slips(hear(torn, UNKEPT))[-10:]) <= 0.1


def test_a_film_that_goes_on_after_its_sound_is_not_cut_off(tmp_path: Path, short: Samples) -> None:
    path = recordings.write(
        tmp_path / "talk.mkv", short, codec="aac", film=(160, 120), longer_s=9.0
    )
    assert media.probe(path).duration_s == pytest.approx(len(short) / RATE + 9.0, abs=0.2)
    assert not hear(path, UNKEPT).warnings


def test_a_picture_of_any_size_costs_nothing(tmp_path: Path, short: Samples) -> None:
    path = recordings.write(
        tmp_path / "large.mp4", short[: 4 * RATE], codec="aac", film=(3840, 2160)
    )
    assert sum(map(len, media.Sound(path, media.probe(path)))) == pytest.approx(4 * RATE, abs=2_000)


def test_a_streamed_recording_need_not_know_its_length(
    tmp_path: Path, short: Samples, short_said: list[str]
) -> None:
    path = recordings.write(
        tmp_path / "live.webm", short, codec="libopus", rate=48_000, options={"live": "1"}
    )
    told: list[tuple[float, float | None]] = []
    heard = hear(path, UNKEPT, lambda done, of: told.append((done, of)))
    assert media.probe(path).duration_s is None
    assert told
    assert all(of is None for _, of in told)
    assert recordings.error_rate(short_said, words(heard)) <= 0.1


def test_of_several_sound_tracks_one_is_heard_and_that_is_said(
    tmp_path: Path, short: Samples, short_said: list[str]
) -> None:
    path = recordings.write(tmp_path / "two.mkv", short, codec="aac", tracks=2)
    heard = hear(path, UNKEPT)
    assert recordings.error_rate(short_said, words(heard)) <= 0.1
    assert [w for w in heard.warnings if "2 sound tracks" in w]
