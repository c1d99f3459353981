"""Recordings made of the synthetic talk: cut, resampled, put into containers, and compared."""

import json
import os
import re
import resource
import struct
from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import av
import numpy as np
from av.audio.resampler import AudioResampler
from rapidfuzz.distance import Levenshtein

from cuewright.hear.recording import media
from cuewright.hear.recording.options import Listening

ASR = Path(__file__).parent / "hear/recording/asr"
MODEL = ASR / "model"
TALK = ASR / "talk.ogg"
LISTENING = Listening(model=str(MODEL))
UNKEPT = Listening(model=str(MODEL), keep=False)
RATE = media.RATE

Samples = np.ndarray[tuple[int], np.dtype[np.float32]]


def sound(path: Path = TALK) -> Samples:
    """All samples of a recording as the program hears them."""
    return np.concatenate(list(media.Sound(path, media.probe(path))))


def said() -> list[tuple[str, float | None, float | None]]:
    """The talk's words with when they are spoken, ``None`` where that is not known."""
    rows = json.loads((ASR / "talk.words.json").read_text("utf-8"))
    return [(word, start, end) for word, start, end in rows]


def pause_after(seconds: float) -> tuple[float, list[str]]:
    """The middle of the first pause between sentences after a moment, and the words before it."""
    rows = said()
    for number, ((word, _, end), (_, start, _)) in enumerate(pairwise(rows), 1):
        known = start is not None and end is not None and end >= seconds
        if known and word[-1] in ".!?" and start - end > 0.2:
            return (start + end) / 2, [word for word, _, _ in rows[:number]]
    raise ValueError("the talk ends before that")


def silence(seconds: float) -> Samples:
    """No sound at all."""
    return np.zeros(round(seconds * RATE), dtype=np.float32)


def joined(parts: Sequence[Samples]) -> Samples:
    """One after the other."""
    return np.concatenate(list(parts))


def plain(texts: Iterable[str]) -> list[str]:
    """Words as they are compared: without capitals and punctuation."""
    words = (re.sub(r"[^a-z0-9' ]", " ", text.lower()) for text in texts)
    return [part for word in words for part in word.split()]


def error_rate(meant: Iterable[str], heard: Iterable[str]) -> float:
    """Words put in, left out or taken for others, to each word that was said."""
    reference = plain(meant)
    return Levenshtein.distance(reference, plain(heard)) / len(reference)


def write(
    path: Path,
    samples: Samples,
    *,
    codec: str = "pcm_s16le",
    rate: int = RATE,
    layout: str = "mono",
    form: str | None = None,
    film: tuple[int, int] | None = None,
    longer_s: float = 0.0,
    late_s: float = 0.0,
    options: dict[str, str] | None = None,
    tracks: int = 1,
) -> Path:
    """A recording in the container of its name; ``film`` is the size of a picture beside it.

    The sound begins ``late_s`` after the picture and ends ``longer_s`` before it. Further
    ``tracks`` are silent.
    """
    with av.open(str(path), "w", format=form, options=options or {}) as out:
        pictures = (
            _pictures(out, film, late_s + len(samples) / RATE + longer_s) if film else iter(())
        )
        voices = [
            _voice(out, each, codec, rate, layout, late_s)
            for each in [samples, *[np.zeros_like(samples)] * tracks][:tracks]
        ]
        packets = [packet for source in (pictures, *voices) for packet in source]
        for packet in sorted(packets, key=lambda packet: packet.dts * packet.time_base):
            out.mux(packet)
    return path


def _pictures(out: Any, size: tuple[int, int], seconds: float) -> Any:
    stream = out.add_stream("mpeg4", rate=10)
    stream.width, stream.height = size
    stream.pix_fmt = "yuv420p"
    frame = av.VideoFrame(*size, "yuv420p")
    for plane in frame.planes:
        plane.update(bytes(plane.buffer_size))
    return _film(stream, frame, round(seconds * 10))


def _film(stream: Any, frame: Any, count: int) -> Any:
    for number in range(count):
        frame.pts, frame.time_base = number, Fraction(1, 10)
        yield from stream.encode(frame)
    yield from stream.encode(None)


def _voice(out: Any, samples: Samples, codec: str, rate: int, layout: str, late_s: float) -> Any:
    stream = out.add_stream(codec, rate=rate)
    stream.layout = layout
    return _spoken(stream, samples, rate, layout, round(late_s * rate))


def _spoken(stream: Any, samples: Samples, rate: int, layout: str, at: int) -> Any:
    even = AudioResampler(stream.codec_context.format.name, layout, rate)
    loud = (np.clip(samples, -1, 1) * 32767).astype(np.int16)[None]
    for first in (*range(0, loud.shape[1], RATE), None):
        frame = None
        if first is not None:
            part = np.ascontiguousarray(loud[:, first : first + RATE])
            frame = av.AudioFrame.from_ndarray(part, format="s16", layout="mono")
            frame.sample_rate = RATE
        for done in even.resample(frame):
            done.pts, done.time_base = at, Fraction(1, rate)
            at += done.samples
            yield from stream.encode(done)
    yield from stream.encode(None)


def quiet(path: Path, seconds: int) -> Path:
    """A recording of silence of any length, of which a file system holds next to nothing."""
    size = 2 * seconds * RATE
    form = struct.pack("<4sIHHIIHH", b"fmt ", 16, 1, 1, RATE, 2 * RATE, 2, 16)
    head = struct.pack("<4sI4s", b"RIFF", size + 36, b"WAVE") + form
    path.write_bytes(head + struct.pack("<4sI", b"data", size))
    os.truncate(path, 44 + size)
    return path


def most_held() -> float:
    """MiB that this process held at most.

    Where the system tells it of the program alone, that is taken: the usual figure counts
    what the process that started it held as well.
    """
    status = Path("/proc/self/status")
    if status.exists():
        text = status.read_text("utf-8")
        return int(text.split("VmHWM:")[1].split()[0]) / 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024 * 1024)


def environment(folder: Path, **more: str) -> dict[str, str]:
    """For a process of its own that keeps everything in ``folder``."""
    root = Path(__file__).parents[1]
    ways = (root / "pipeline", root / "models", root / "tests")
    homes = ("CACHE", "CONFIG", "DATA")
    return {
        **os.environ,
        "PYTHONPATH": os.pathsep.join(map(str, ways)),
        **{f"XDG_{home}_HOME": str(folder / home.lower()) for home in homes},
        "HF_HOME": str(folder / "hub"),
        **more,
    }
