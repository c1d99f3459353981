"""The talk as samples, what is heard in it, and folders of the test's own."""

from pathlib import Path

import pytest
import recordings
from recordings import Samples

from cuewright.hear import hear
from cuewright_models.hearing import Hearing


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing that is kept on this machine, and no model of it, is used."""
    for home in ("CACHE", "DATA"):
        monkeypatch.setenv(f"XDG_{home}_HOME", str(tmp_path / home.lower()))


@pytest.fixture(scope="session")
def talk() -> Samples:
    """The whole talk."""
    return recordings.sound()


@pytest.fixture(scope="session")
def short(talk: Samples) -> Samples:
    """The first sentences of the talk, some twenty seconds."""
    return talk[: round(recordings.pause_after(18)[0] * recordings.RATE)]


@pytest.fixture(scope="session")
def short_said() -> list[str]:
    """What is said in them."""
    return recordings.pause_after(18)[1]


@pytest.fixture(scope="session")
def heard() -> Hearing:
    """The whole talk as the test recogniser hears it."""
    return hear(recordings.TALK, recordings.UNKEPT)


@pytest.fixture
def encodes(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """One entry for every time the recogniser takes in sound."""
    from faster_whisper import WhisperModel

    counted: list[float] = []
    encode = WhisperModel.encode

    def counting(model, features):
        counted.append(float(features.shape[-1]))
        return encode(model, features)

    monkeypatch.setattr(WhisperModel, "encode", counting)
    return counted
