"""What the commands keep of recordings goes into a folder of these tests' own."""

import wave
from collections.abc import Iterator
from pathlib import Path

import pytest
from cli.running import ASR

from cuewright.hear.recording import media

SHORT_S = 21.5
"""The first five sentences of the talk."""


@pytest.fixture(scope="session", autouse=True)
def own_folders(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Nothing that is kept on this machine, and no model of it, is used."""
    home = tmp_path_factory.mktemp("home")
    with pytest.MonkeyPatch.context() as patch:
        for kind in ("CACHE", "DATA"):
            patch.setenv(f"XDG_{kind}_HOME", str(home / kind.lower()))
        yield home


@pytest.fixture(scope="session")
def short(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The beginning of the talk as a recording of its own."""
    path = tmp_path_factory.mktemp("recordings") / "short.wav"
    talk = ASR / "talk.ogg"
    sound = next(iter(media.Sound(talk, media.probe(talk))))[: round(SHORT_S * media.RATE)]
    with wave.open(str(path), "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(media.RATE)
        out.writeframes((sound * 32767).astype("<i2").tobytes())
    return path
