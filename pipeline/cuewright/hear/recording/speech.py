"""Where somebody speaks: a recording cut, in pauses, into windows of at most half a minute.

The recogniser works on half minutes, so windows as full as the pauses allow cost the least.
A recording of any length is held a few minutes at a time.
"""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from cuewright.errors import CuewrightError
from cuewright.hear.recording.media import RATE

if TYPE_CHECKING:
    from cuewright.hear.recording.media import Samples

_BLOCK = 300 * RATE
"""Samples looked at together."""
_LONGEST = 298 * RATE // 10
"""Samples of a window, a little under the recogniser's half minute."""
_KEPT_PAUSE = 2 * RATE
"""Pauses up to this many samples stay in a window; they tell sentences apart."""
CUT = 1
"""The number of this way to cut; another one makes other windows of what was kept."""
_PAD_MS = 200
"""Silence left on either side of speech."""
TAIL_S = 2 * _PAD_MS / 1000
"""Seconds at the end of a window in which nobody speaks any more; a word's end is not exact."""
_VOICE = {"min_silence_duration_ms": 200, "speech_pad_ms": _PAD_MS, "max_speech_duration_s": 29}


class NoVoiceFilter(CuewrightError):
    """What tells speech from other sound does not start or fails."""


class Stretch(NamedTuple):
    """Samples ``start:end`` of the recording in which somebody speaks."""

    start: int
    end: int


class Window(NamedTuple):
    """What the recogniser gets at once.

    ``block`` is the sample at which the search that found it began, so that a search begun
    there again finds the same windows.
    """

    block: int
    stretches: tuple[Stretch, ...]
    sound: "Samples"

    @property
    def start(self) -> int:
        """The first sample."""
        return self.stretches[0].start

    @property
    def end(self) -> int:
        """One past the last sample."""
        return self.stretches[-1].end


def windows(parts: "Iterable[Samples]", begin: int = 0) -> Iterator[Window]:
    """The windows of speech in a recording, in order.

    ``parts`` is its sound from the first sample on; ``begin`` the ``block`` of a window
    found before, to go on from there.
    """
    feed = _Feed(parts, begin)
    while True:
        sound, last = feed.look(_BLOCK)
        found = _packed(_spoken(sound))
        ready, go_on = (found, len(sound)) if last else _settled(found, len(sound))
        for stretches in ready:
            yield _window(feed.at, stretches, sound)
        if last:
            return
        feed.skip(go_on)


def _settled(found: list[list[Stretch]], size: int) -> tuple[list[list[Stretch]], int]:
    """The windows that the next block cannot change, and where that block begins."""
    if not found:
        return [], size - RATE
    *before, last = found
    if before or last[0].start > RATE:
        return before, last[0].start
    if len(last) > 1 and size - last[-1].end < RATE:  # perhaps in the middle of a word
        return [last[:-1]], last[-1].start
    return [last], last[-1].end


class _Feed:
    """Sound that comes in parts, from a sample on, of which a block is held."""

    def __init__(self, parts: "Iterable[Samples]", begin: int) -> None:
        import numpy as np

        self._parts = iter(parts)
        self._held: Samples = np.zeros(0, dtype=np.float32)
        self.at = 0
        while self.at < begin:
            self.look(begin - self.at)
            if not len(self._held):
                return
            self.skip(min(begin - self.at, len(self._held)))

    def look(self, size: int) -> "tuple[Samples, bool]":
        """The next ``size`` samples, and whether these are the last."""
        import numpy as np

        held, count = [self._held], len(self._held)
        while count <= size and (part := next(self._parts, None)) is not None:
            held.append(part)
            count += len(part)
        self._held = np.concatenate(held)
        return self._held[:size], count <= size

    def skip(self, size: int) -> None:
        """Go on ``size`` samples later."""
        self._held = self._held[size:].copy()
        self.at += size


def _spoken(sound: "Samples") -> list[Stretch]:
    from faster_whisper.vad import VadOptions, get_speech_timestamps

    if not len(sound):
        return []
    try:
        found = get_speech_timestamps(sound, VadOptions(**_VOICE))
    except MemoryError:
        raise
    except Exception as error:  # its runtime's faults have no class in common
        raise NoVoiceFilter(
            f"The voice filter cannot be used ({' '.join(str(error).split())[:120]}); "
            "free some memory, or install cuewright anew."
        ) from None
    return [Stretch(each["start"], each["end"]) for each in found]


def _packed(spoken: list[Stretch]) -> list[list[Stretch]]:
    """Stretches put together to windows; short pauses between them are filled."""
    packed: list[list[Stretch]] = []
    for stretch in spoken:
        joined = _joined(packed[-1], stretch) if packed else None
        if joined is None:
            packed.append([stretch])
        else:
            packed[-1] = joined
    return packed


def _joined(window: list[Stretch], stretch: Stretch) -> list[Stretch] | None:
    """The window with one stretch more; ``None`` when that is too long."""
    *before, last = window
    joined = [*window, stretch]
    if stretch.start - last.end <= _KEPT_PAUSE:
        joined = [*before, Stretch(last.start, stretch.end)]
    return joined if sum(each.end - each.start for each in joined) <= _LONGEST else None


def _window(block: int, stretches: list[Stretch], sound: "Samples") -> Window:
    import numpy as np

    heard = np.concatenate([sound[each.start : each.end] for each in stretches])
    moved = tuple(Stretch(block + each.start, block + each.end) for each in stretches)
    return Window(block, moved, heard)
