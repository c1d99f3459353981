"""What is said in a recording, with the words that are surely not what was heard."""

from cuewright_models.base import Value
from cuewright_models.hearing import Hearing
from cuewright_models.transcript import Word


class Mended(Value):
    """Words ``first:last`` of a hearing as they are to be shown; what was heard stays there."""

    first: int
    last: int
    heard: str
    meant: str


class Spoken(Value):
    """A recording as heard, and its mishearings in order, none overlapping."""

    hearing: Hearing
    repairs: tuple[Mended, ...] = ()

    @property
    def words(self) -> tuple[Word, ...]:
        """All words as heard, by the positions that repairs use."""
        return tuple(word for piece in self.hearing.pieces for word in piece.words)
