"""One text with a clock, which every format is brought to, and its way into words."""

import re
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass, field

from cuewright_models.base import Said
from cuewright_models.transcript import Word

from cuewright.errors import UnreadableSource
from cuewright.hear.tags import find_tags

MAX_WORDS = 300_000
"""More words than a day of talking without a break; a longer text is refused."""

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
    where a word starts. ``dashes`` tells whether a dash that opens a line is a speaker's.
    """

    text: str
    clock: list[Stamp] = field(default_factory=list)
    voices: list[tuple[int, str]] = field(default_factory=list)
    confidence: dict[int, float] = field(default_factory=dict)
    language: str | None = None
    duration_s: float | None = None
    warnings: list[str] = field(default_factory=list)
    dashes: bool = True

    def take_apart(self, name: str) -> Parts:
        """Words, tags, turns and breaks, as ``Transcript`` has them."""
        found = find_tags(self.text, dashes=self.dashes)
        text = _blank(self.text, [(tag.start, tag.end) for tag in found])
        spans = [match.span() for match in _WORD.finditer(text)]
        if len(spans) > MAX_WORDS:
            raise UnreadableSource(
                f"{name} has more than {MAX_WORDS:,} words, more than a day of speech; "
                "give one talk at a time."
            )
        starts = [start for start, _ in spans]
        voices = [(place, place, voice) for place, voice in self.voices]
        labelled = [(tag.start, tag.end, tag.label) for tag in found if tag.label]
        removed = sorted([*voices, *labelled])
        tags = [
            Said(start_s=start, end_s=end, quote=label)
            for (start, end), (*_, label) in zip(
                self._times([(a, b) for a, b, _ in removed]), removed, strict=True
            )
        ]
        turns = _turns(
            [(tag.start, tag.speaker) for tag in found if tag.turn] + self.voices, starts
        )
        return self._words(text, spans), tuple(tags), turns, _breaks(text, starts)

    def _words(self, text: str, spans: list[tuple[int, int]]) -> tuple[Word, ...]:
        known = self.confidence
        if not known:
            return tuple(
                Word(text[a:b], start, end)
                for (a, b), (start, end) in zip(spans, self._times(spans), strict=True)
            )
        return tuple(
            Word(text[a:b], start, end, min((known[i] for i in range(a, b) if i in known), default=None))
            for (a, b), (start, end) in zip(spans, self._times(spans), strict=True)
        )

    def _times(self, spans: list[tuple[int, int]]) -> Iterator[tuple[float | None, float | None]]:
        """Start and end seconds of each span; spans come in rising order."""
        if not self.clock:
            yield from ((None, None) for _ in spans)
            return
        places = [place for place, _ in self.clock]
        seconds = [second for _, second in self.clock]
        last = len(places) - 1
        after = 0

        def at(place: int) -> float:
            nonlocal after
            while after <= last and places[after] < place:
                after += 1
            if after > last:
                return seconds[last]
            if after == 0 or places[after] == place:
                return seconds[after]
            before = after - 1
            share = (place - places[before]) / (places[after] - places[before])
            return round(seconds[before] + share * (seconds[after] - seconds[before]), 3)

        for start, end in spans:
            yield at(start), at(end)


def _blank(text: str, spans: list[tuple[int, int]]) -> str:
    """The text with spaces where ``spans`` were, so that every place stays the same."""
    pieces = []
    done = 0
    for start, end in spans:
        pieces += [text[done:start], " " * (end - start)]
        done = end
    return "".join([*pieces, text[done:]])


def _turns(changes: list[tuple[int, str | None]], starts: list[int]) -> tuple[int, ...]:
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
