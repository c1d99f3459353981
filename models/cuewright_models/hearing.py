"""What a recogniser made of a recording, before anything reads it."""

from typing import Literal

from cuewright_models.base import Value
from cuewright_models.transcript import Word


class Piece(Value):
    """A few seconds of speech as one recogniser heard them; times in seconds."""

    start_s: float
    end_s: float
    words: tuple[Word, ...]
    likelihood: float
    """Mean log-probability of the pieces of words; 0 is certain."""
    repetition: float
    """How many times shorter the text gets when compressed; speech stays under 2.4."""
    silence: float
    """0 to 1: how likely nobody speaks."""

    @property
    def text(self) -> str:
        """The words in one line."""
        return " ".join(word.text for word in self.words)


class LeftOut(Value):
    """Sound of which nothing is believed, and the words that came out of it all the same."""

    start_s: float
    end_s: float
    text: str
    why: Literal["no speech", "repetition"]


class Hearing(Value):
    """A whole recording as heard. ``sha256`` is that of the file."""

    name: str
    sha256: str
    duration_s: float
    language: str
    model: str
    pieces: tuple[Piece, ...]
    left_out: tuple[LeftOut, ...] = ()
    warnings: tuple[str, ...] = ()
