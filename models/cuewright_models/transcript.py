"""What was heard: words with times, exactly as the source has them."""

from typing import Literal, NamedTuple

from cuewright_models.base import Said, Value
from cuewright_models.outline import Line

DOUBTFUL = 0.8
"""Words under this probability are to be checked by ear.

Measured on espeak voices with the recogniser of the tests (``tests/accuracy/HEARD.md``): up
to here every second marked word is wrong, further up fewer are. Other models spread their
probabilities otherwise and may mark more words that are right (from memory, not measured).
"""

SourceKind = Literal["recording", "captions", "text"]


class Word(NamedTuple):
    """One word as heard, punctuation included; times in seconds, ``None`` if unknown."""

    text: str
    start_s: float | None = None
    end_s: float | None = None
    confidence: float | None = None
    """0 to 1 as the recogniser gave it; ``None`` for captions and text."""

    @property
    def doubtful(self) -> bool:
        """Whether the recogniser was not sure of it."""
        return self.confidence is not None and self.confidence < DOUBTFUL


class Transcript(Value):
    """A talk as heard. Words are never rewritten after this point.

    ``breaks`` holds positions in ``words`` where a new line or paragraph of plain text
    starts; ``turns`` the positions where another person starts to speak. ``tags`` are
    the sound and speaker tags that were taken out of the words, with their times.
    ``outline`` is set for a session that was written down and not spoken, and ``lines`` for
    any text whose lines count: the line of the source, from 1, of each word.
    ``warnings`` are full sentences for the reader.
    """

    name: str
    kind: SourceKind
    sha256: str
    duration_s: float | None = None
    language: str | None = None
    words: tuple[Word, ...]
    breaks: tuple[int, ...] = ()
    turns: tuple[int, ...] = ()
    tags: tuple[Said, ...] = ()
    outline: tuple[Line, ...] = ()
    lines: tuple[int, ...] = ()
    warnings: tuple[str, ...] = ()

    def quote(self, first: int, last: int) -> Said:
        """The half-open range of words ``first:last`` as evidence."""
        words = self.words[first:last]
        starts = [w.start_s for w in words if w.start_s is not None]
        ends = [w.end_s for w in words if w.end_s is not None]
        return Said(
            start_s=round(starts[0], 2) if starts else None,
            end_s=round(ends[-1], 2) if ends else None,
            quote=" ".join(w.text for w in words),
            doubtful=tuple(at for at, word in enumerate(words) if word.doubtful),
            line=self.lines[first] if self.lines and words else None,
        )
