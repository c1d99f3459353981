"""Sound out of any recording that PyAV reads: 16 kHz, one channel, a stretch at a time.

Second 0 is where a player's clock starts, which is not always where the sound does: a film's
sound may begin late, and a damaged recording has holes. Both are filled with silence, so that
a word's time is the time at which it is heard.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from cuewright.errors import UnreadableSource

if TYPE_CHECKING:
    import av
    import av.audio.resampler
    import av.container
    import numpy as np

    Samples = np.ndarray[tuple[int], np.dtype[np.float32]]

RATE = 16_000
"""Samples a second, what the recogniser and the voice filter take."""

_MICROSECONDS = 1_000_000
_FULL = 32768
"""A sample at full loudness, as 16-bit sound has it."""

_GATHER = 30 * RATE
"""Samples put together before they are handed on; frames alone are some hundredths of a second."""

_HOLE = RATE // 10
"""Sound may come so many samples late without a hole being seen; clocks of cameras waver."""

_WIDEST_HOLE = 600 * RATE
"""A wider one is a broken clock, unless the recording says that it is so long."""

_FAULTS = 1_000
"""So many unreadable places one after another, and the rest of the recording is given up."""

_GUESSED = {"aac", "ac3", "amr", "eac3", "loas"}
"""Formats without any length, which is then guessed from the size of the file."""


class Media(NamedTuple):
    """What a recording says of itself.

    ``duration_s`` is ``None`` when it does not tell; ``tracks`` counts its sound tracks.
    """

    duration_s: float | None
    tracks: int


def probe(path: Path) -> Media:
    """What there is to hear in ``path``.

    Raises UnreadableSource when it is no recording, is damaged, or has no sound.
    """
    with _opened(path) as container:
        _track(container, path)
        tracks = len(container.streams.audio)
        if container.duration is None or container.format.name in _GUESSED:
            return Media(None, tracks)
        return Media(container.duration / _MICROSECONDS, tracks)


class Sound:
    """The sound of ``path``, to be gone through once, as float32 arrays of -1 to 1.

    Arrays are about 30 s. What cannot be decoded is left out, as a player does; ``heard_s``
    and ``reached_s`` tell, while and after it is gone through, how many seconds came out and
    at which second of the recording its last part, sound or picture, was found.
    """

    def __init__(self, path: Path, about: Media) -> None:
        """``about`` is what ``probe`` says."""
        self.about = about
        self.reached_s = 0.0
        self._path = path
        self._count = 0

    @property
    def heard_s(self) -> float:
        """Seconds that came out so far."""
        return self._count / RATE

    def __iter__(self) -> "Iterator[Samples]":
        import numpy as np

        held: list[Samples] = []
        count = 0
        for part in self._parts():
            self._count += len(part)
            held.append(part)
            count += len(part)
            if count >= _GATHER:
                yield np.concatenate(held)
                held, count = [], 0
        if held:
            yield np.concatenate(held)

    def _parts(self) -> "Iterator[Samples]":
        even = _Even()
        with _opened(self._path) as container:
            zero = (container.start_time or 0) / _MICROSECONDS
            for frame in self._frames(container, zero):
                if frame.time is not None:
                    yield from self._hole(round((frame.time - zero) * RATE))
                yield from even.taken(frame)
        yield from even.rest()

    def _frames(
        self, container: "av.container.InputContainer", zero: float
    ) -> "Iterator[av.AudioFrame]":
        """The frames of the track; pictures are passed over without a look."""
        import av.error

        track = _track(container, self._path)
        for packet in _packets(container):
            if packet.pts is not None and packet.time_base is not None:
                end = float((packet.pts + (packet.duration or 0)) * packet.time_base)
                self.reached_s = max(self.reached_s, end - zero)
            if packet.stream_index != track.index:
                continue
            try:
                yield from track.codec_context.decode(packet)
            except (av.error.FFmpegError, ValueError):
                continue

    def _hole(self, begins: int) -> "Iterator[Samples]":
        """Silence up to where a frame begins, if that is later than its turn."""
        import numpy as np

        missing = begins - self._count
        if missing > _HOLE and self._possible(begins, missing):
            while missing > 0:
                yield np.zeros(min(missing, _GATHER), dtype=np.float32)
                missing -= _GATHER

    def _possible(self, begins: int, missing: int) -> bool:
        if self.about.duration_s is None:
            return missing <= _WIDEST_HOLE
        return begins <= self.about.duration_s * RATE


class _Even:
    """Frames of any kind made into samples; a track may change its kind on the way."""

    def __init__(self) -> None:
        self._resampler: av.audio.resampler.AudioResampler | None = None
        self._kind: tuple[str, str, int] | None = None

    def taken(self, frame: "av.AudioFrame") -> "Iterator[Samples]":
        """The samples of a frame, as far as they are known yet."""
        import av.audio.resampler

        kind = (frame.format.name, frame.layout.name, frame.sample_rate)
        if self._resampler is None or kind != self._kind:
            yield from self.rest()
            self._kind = kind
            self._resampler = av.audio.resampler.AudioResampler("s16", "mono", RATE)
        frame.pts = None  # the resampler would mend what is mended already
        yield from map(_floats, self._resampler.resample(frame))

    def rest(self) -> "Iterator[Samples]":
        """What is still held back."""
        if self._resampler is not None:
            yield from map(_floats, self._resampler.resample(None))


def _packets(container: "av.container.InputContainer") -> "Iterator[av.Packet[Any]]":
    """All packets; an unreadable place is passed over, as what follows it may be whole."""
    import av.error

    faults = 0
    while faults < _FAULTS:
        try:
            for packet in container.demux():
                faults = 0
                yield packet
            return
        except av.error.EOFError:
            return
        except (av.error.FFmpegError, ValueError):
            faults += 1


def _track(container: "av.container.InputContainer", path: Path) -> "av.AudioStream":
    """The sound track that players take."""
    found = container.streams.best("audio")
    if found is None:
        raise UnreadableSource(
            f"{path.name} has no sound track; give the recording that the coach speaks in."
        )
    return found  # type: ignore[return-value]


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
