"""Sound out of any recording that PyAV reads: 16 kHz, one channel, a stretch at a time."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from cuewright.errors import UnreadableSource

if TYPE_CHECKING:
    import av
    import av.container
    import numpy as np

    Samples = np.ndarray[tuple[int], np.dtype[np.float32]]

RATE = 16_000
"""Samples a second, what the recogniser and the voice filter take."""

_FULL = 32768
"""A sample at full loudness, as 16-bit sound has it."""

_GATHER = 30 * RATE
"""Samples put together before they are handed on; frames alone are some hundredths of a second."""


class Media(NamedTuple):
    """What a recording says of itself: seconds, ``None`` when it does not tell."""

    duration_s: float | None


def probe(path: Path) -> Media:
    """What there is to hear in ``path``.

    Raises UnreadableSource when it is no recording, is damaged, or has no sound.
    """
    with _opened(path) as container:
        if not container.streams.audio:
            raise UnreadableSource(
                f"{path.name} has no sound track; give the recording that the coach speaks in."
            )
        stream = container.streams.audio[0]
        if stream.duration is not None and stream.time_base is not None:
            return Media(float(stream.duration * stream.time_base))
        return Media(container.duration / 1_000_000 if container.duration else None)


def samples(path: Path) -> "Iterator[Samples]":
    """The sound of ``path`` as float32 arrays of about 30 s, each -1 to 1.

    Frames that cannot be decoded are left out, as a player does. Raises UnreadableSource
    when the file breaks off so that nothing more can be read.
    """
    import numpy as np

    held: list[Samples] = []
    count = 0
    for part in _frames(path):
        held.append(part)
        count += len(part)
        if count >= _GATHER:
            yield np.concatenate(held)
            held, count = [], 0
    if held:
        yield np.concatenate(held)


def _frames(path: Path) -> "Iterator[Samples]":
    import av
    import av.audio.resampler

    resampler = av.audio.resampler.AudioResampler(format="s16", layout="mono", rate=RATE)
    with _opened(path) as container:
        for packet in container.demux(audio=0):
            try:
                frames = packet.decode()
            except av.error.InvalidDataError:
                continue
            for frame in frames:
                yield from map(_floats, resampler.resample(frame))
        yield from map(_floats, resampler.resample(None))


def _floats(frame: "av.AudioFrame") -> "Samples":
    import numpy as np

    return frame.to_ndarray().reshape(-1).astype(np.float32) / np.float32(_FULL)


def _opened(path: Path) -> "av.container.InputContainer":
    import av
    import av.error

    try:
        return av.open(str(path), mode="r", metadata_errors="ignore")
    except FileNotFoundError:
        why = "does not exist; check the name and the folder"
    except IsADirectoryError:
        why = "is a folder; give the recording inside it"
    except PermissionError:
        why = "may not be read by you; change its permissions or copy it"
    except (av.error.FFmpegError, OSError, ValueError):
        why = "is damaged, cut off or no recording; save or copy it again"
    raise UnreadableSource(f"{path.name} {why}.")
