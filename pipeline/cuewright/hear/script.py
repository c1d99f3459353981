"""One text with a clock, which every format is brought to, and its way into words."""

import re
import sys
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import chain, repeat

from cuewright.errors import UnreadableSource
from cuewright.hear.tags import Tag, find_tags
from cuewright_models.base import Said
from cuewright_models.transcript import Word

MAX_WORDS = 300_000
"""More words than a day of talking without a break; a longer text is refused."""

_PIECES_A_WORD = 8
"""Spaces, line ends and marks for each word in the wordiest captions: a cue for each word."""

_WORD = re.compile(r"\S+")

Stamp = tuple[int, float]
"""A place in the text (characters from its start) and the second at which it is spoken."""

Parts = tuple[tuple[Word, ...], tuple[Said, ...], tuple[int, ...], tuple[int, ...]]


@dataclass(slots=True)
class Script:
    """A whole talk as one text: ``\\n`` between lines, ``\\n\\n`` between cues or paragraphs.

    ``clock`` rises in both place and time; between two stamps time runs evenly by the
    character. An empty clock means that no times are known. ``voices`` are the places
    where the source names a speaker outside the text, ``confidence`` goes by the place
    where a word starts. In a ``written`` text lines are breaks and a dash that opens one is a
    bullet; in captions lines mean nothing and the dash is another speaker.
    """

    text: str
    clock: list[Stamp] = field(default_factory=list)
    voices: list[tuple[int, str]] = field(default_factory=list)
    confidence: dict[int, float] = field(default_factory=dict)
    language: str | None = None
    duration_s: float | None = None
    warnings: list[str] = field(default_factory=list)
    written: bool = False

    def take_apart(self, name: str) -> Parts:
        """Words, tags, turns and breaks, as ``Transcript`` has them.

        Raises UnreadableSource when there are more than MAX_WORDS.
        """
        refuse_bulk(name, self.text)
        found = find_tags(self.text, dashes=not self.written)
        text = _blank(self.text, found)
        spans = [match.span() for match in _WORD.finditer(text)]
        if len(spans) > MAX_WORDS:
            raise _too_long(name)
        starts = [start for start, _ in spans]
        changes = [(tag.start, tag.speaker) for tag in found if tag.turn]
        return (
            self._words(text, spans),
            self._tags(found),
            _turns([*changes, *self.voices], starts),
            _breaks(text, starts) if self.written else (),
        )

    def _words(self, text: str, spans: list[tuple[int, int]]) -> tuple[Word, ...]:
        seconds = spoken_at(self.clock, list(chain.from_iterable(spans)))
        times = zip(seconds[::2], seconds[1::2], strict=True)
        sure = [self._confidence(*span) for span in spans] if self.confidence else repeat(None)
        return tuple(
            Word(text[a:b], start, end, c)
            for (a, b), (start, end), c in zip(spans, times, sure, strict=False)
        )

    def _confidence(self, start: int, end: int) -> float | None:
        """The least sure of the parts that the recogniser wrote this word in."""
        known = (self.confidence.get(place) for place in range(start, end))
        return min((c for c in known if c is not None), default=None)

    def _tags(self, found: list[Tag]) -> tuple[Said, ...]:
        labels = [(tag.start, tag.end, tag.label) for tag in found if tag.label]
        labels += [(place, place, voice) for place, voice in _changed(self.voices)]
        places = sorted({place for start, end, _ in labels for place in (start, end)})
        seconds = dict(zip(places, spoken_at(self.clock, places), strict=True))
        return tuple(
            Said(start_s=_short(seconds[start]), end_s=_short(seconds[end]), quote=label)
            for start, end, label in sorted(labels)
        )


def refuse_bulk(name: str, text: str) -> None:
    """Raise UnreadableSource for a text in so many pieces that it would fill the memory."""
    if sum(map(text.count, " \n[(*>♪")) > _PIECES_A_WORD * MAX_WORDS:
        raise _too_long(name)


def _too_long(name: str) -> UnreadableSource:
    return UnreadableSource(
        f"{name} has more than {MAX_WORDS:,} words, more than a day of speech; "
        "give one talk at a time."
    )


def spoken_at(clock: list[Stamp], places: list[int]) -> list[float | None]:
    """Seconds at which each of the rising ``places`` is spoken; all None without a clock.

    Even by the character between two stamps, exact on a stamp, still outside all.
    """
    if not clock:
        return [None] * len(places)
    seconds: list[float | None] = []
    ahead = iter([*clock, (sys.maxsize, clock[-1][1])])
    low, base, slope = 0, clock[0][1], 0.0
    high, top = next(ahead)
    for place in places:
        while place >= high:
            low, base = high, top
            high, top = next(ahead)
            slope = (top - base) / (high - low)
        seconds.append(base + (place - low) * slope)
    return seconds


def _short(second: float | None) -> float | None:
    return None if second is None else round(second, 2)


def _changed(voices: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """The voices that differ from the one before."""
    before = [None, *(voice for _, voice in voices)]
    return [new for new, old in zip(voices, before, strict=False) if new[1] != old]


def _blank(text: str, tags: list[Tag]) -> str:
    """The text with spaces where ``tags`` were, so that every place stays the same."""
    pieces = []
    done = 0
    for tag in tags:
        pieces += [text[done : tag.start], " " * (tag.end - tag.start)]
        done = tag.end
    return "".join([*pieces, text[done:]])


def _turns(changes: Sequence[tuple[int, str | None]], starts: list[int]) -> tuple[int, ...]:
    """Word positions where somebody else speaks; the same name again is no turn."""
    turns: dict[int, None] = {}
    speaking: str | None = None
    for place, speaker in sorted(changes, key=lambda change: change[0]):
        position = bisect_left(starts, place)
        if 0 < position < len(starts) and (speaker is None or speaker != speaking):
            turns[position] = None
        speaking = speaker or speaking
    return tuple(turns)


def _breaks(text: str, starts: list[int]) -> tuple[int, ...]:
    breaks: dict[int, None] = {}
    place = text.find("\n")
    while place != -1:
        position = bisect_left(starts, place)
        if 0 < position < len(starts):
            breaks[position] = None
        place = text.find("\n", place + 1)
    return tuple(breaks)
