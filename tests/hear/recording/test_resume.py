"""What was heard is kept: nothing twice after a kill, nothing at all the second time."""

import json
import random
import signal
import subprocess
import sys
from pathlib import Path

import pytest
import recordings
from bench import kill_resume
from recordings import LISTENING, RATE, UNKEPT, Samples

from cuewright.hear import hear
from cuewright.hear.recording import models
from cuewright_models.hearing import Hearing


@pytest.fixture(scope="module")
def clip(tmp_path_factory: pytest.TempPathFactory, talk: Samples) -> Path:
    """Three windows of speech, with a pause in the middle."""
    parts = [talk[: 40 * RATE], recordings.silence(20), talk[40 * RATE : 65 * RATE]]
    path = tmp_path_factory.mktemp("clip") / "clip.wav"
    return recordings.write(path, recordings.joined(parts))


@pytest.fixture(scope="module")
def undisturbed(clip: Path) -> Hearing:
    return hear(clip, UNKEPT)


@pytest.mark.parametrize("seed", [1, 2])
def test_after_a_kill_at_any_moment_it_goes_on_with_the_same_words(
    seed: int, clip: Path, undisturbed: Hearing, tmp_path: Path
) -> None:
    drawn = random.Random(seed)
    done = kill_resume.trial(clip, tmp_path, [drawn.uniform(0.5, 8) for _ in range(2)])
    assert done.words == [list(word) for piece in undisturbed.pieces for word in piece.words]
    assert kill_resume.twice(done.begun) == []


def test_a_window_heard_twice_would_be_noticed() -> None:
    assert kill_resume.twice([[0, 400], [400, 800]]) == []
    assert kill_resume.twice([[0, 400], [0, 400, 800]]) == [0]
    assert kill_resume.twice([[0, 400, 800, 400]]) == [400]


def test_the_second_time_nothing_is_decoded(
    clip: Path, undisturbed: Hearing, encodes: list[float]
) -> None:
    assert hear(clip, LISTENING) == undisturbed
    assert encodes
    encodes.clear()
    assert hear(clip, LISTENING) == undisturbed
    assert not encodes


def test_a_copy_under_another_name_is_the_same_recording(
    tmp_path: Path, short: Samples, encodes: list[float]
) -> None:
    first = recordings.write(tmp_path / "talk.wav", short)
    heard = hear(first, LISTENING)
    encodes.clear()
    again = hear(first.rename(tmp_path / "tuesday.wav"), LISTENING)
    assert again == heard.model_copy(update={"name": "tuesday.wav"})
    assert not encodes


@pytest.mark.parametrize(
    "other", [{"hints": "Fennel Lock"}, {"language": "en"}, {"keep": False}, {"device": "cpu"}]
)
def test_other_options_listen_again(
    other: dict[str, object], tmp_path: Path, talk: Samples, encodes: list[float]
) -> None:
    path = recordings.write(tmp_path / "talk.wav", talk[: 5 * RATE])
    hear(path, LISTENING)
    encodes.clear()
    hear(path, LISTENING.model_copy(update=other))
    assert encodes


class Stop(Exception):
    """Raised by a progress, as by whoever has enough."""


@pytest.fixture(scope="module")
def two_lines(clip: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, bytes]:
    """Name and content of what is kept of the clip when it is left after two windows."""
    told: list[float] = []

    def progress(done_s: float, whole_s: float | None) -> None:
        told.append(done_s)
        if len(told) == 3:  # where it begins, and two windows
            raise Stop

    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        with pytest.raises(Stop):
            hear(clip, LISTENING, progress)
        [path] = models.cache().glob("*.windows")
        return path.name, path.read_bytes()


def put_back(name: str, raw: bytes) -> None:
    models.cache().mkdir(parents=True, exist_ok=True)
    (models.cache() / name).write_bytes(raw)


@pytest.mark.parametrize(
    ("harm", "left"),
    [("none", 2), ("cut", 1), ("junk", 2), ("again", 2), ("first-torn", 0), ("first-gone", 0)],
)
def test_windows_are_gone_on_with_however_their_lines_were_harmed(
    harm: str,
    left: int,
    clip: Path,
    undisturbed: Hearing,
    two_lines: tuple[str, bytes],
    encodes: list[float],
) -> None:
    name, raw = two_lines
    first, second = (line for line in raw.split(b"\n") if line)
    harmed = {
        "none": raw,
        "cut": raw[: -len(second) // 2],
        "junk": raw + b"\xff\0{}" * 9,
        "again": raw + raw,
        "first-torn": first[: len(first) // 2] + b"\n" + second + b"\n",
        "first-gone": second + b"\n",
    }
    put_back(name, harmed[harm])
    assert hear(clip, LISTENING) == undisturbed
    assert len(encodes) == 3 - left


def test_windows_of_another_process_are_not_mixed_up(
    clip: Path, undisturbed: Hearing, tmp_path: Path
) -> None:
    log = tmp_path / "begun"
    both = [
        subprocess.Popen(
            [sys.executable, kill_resume.__file__, "--listen", str(clip), str(words), str(log)],
            env=recordings.environment(tmp_path),
        )
        for words in (tmp_path / "one", tmp_path / "two")
    ]
    assert [child.wait() for child in both] == [0, 0]
    meant = [list(word) for piece in undisturbed.pieces for word in piece.words]
    assert json.loads((tmp_path / "one").read_text()) == meant
    assert json.loads((tmp_path / "two").read_text()) == meant


def test_where_nothing_can_be_kept_it_is_heard_all_the_same_and_said(
    tmp_path: Path, short: Samples, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    path = recordings.write(tmp_path / "talk.wav", short)
    heard = hear(path, LISTENING)
    assert heard.pieces == hear(path, UNKEPT).pieces
    [warning] = heard.warnings
    assert warning.startswith("What was heard could not be kept in ")


LITTLE_ROOM = """
import resource, sys
resource.setrlimit(resource.RLIMIT_FSIZE, (900, 900))
import recordings
from cuewright.errors import CuewrightError
from cuewright.hear import hear
try:
    hear(sys.argv[1], recordings.LISTENING)
except CuewrightError as error:
    print(error)
"""


def test_want_of_room_is_said_and_nothing_that_was_kept_is_lost(
    clip: Path, undisturbed: Hearing, tmp_path: Path
) -> None:
    done = subprocess.run(
        [sys.executable, "-c", LITTLE_ROOM, str(clip)],
        env=recordings.environment(tmp_path),
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.startswith("There is no room in ")
    assert done.stdout.endswith("or use --no-cache.\n")
    assert [path.suffix for path in models.cache().iterdir()] == [".windows"]
    assert hear(clip, LISTENING) == undisturbed


LISTENING_ALONE = """
import sys
import typer
import recordings
from cuewright import console
from cuewright.hear import hear

@console.guarded
def run(clip: str) -> int:
    hear(clip, recordings.LISTENING, lambda done, _: done and print("window", flush=True))
    return 0

typer.run(run)
"""


def test_ctrl_c_says_where_it_goes_on(clip: Path, tmp_path: Path) -> None:
    child = subprocess.Popen(
        [sys.executable, "-c", LISTENING_ALONE, str(clip)],
        env=recordings.environment(tmp_path),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert child.stdout is not None
    assert child.stdout.readline() == "window\n"
    child.send_signal(signal.SIGINT)
    _, told = child.communicate()
    assert child.returncode == 130
    assert told.startswith("Stopped at 0:")
    assert told.endswith("; the same command goes on from there.\n")
    assert told.count("\n") == 1
