"""Short sentences as the stages after the reader get them."""

from cuewright.normalise import normalise
from cuewright_models.tokens import Reading
from cuewright_models.transcript import Transcript, Word


def reading(text: str, pauses: dict[int, float] | None = None) -> Reading:
    """``text`` as ``heard``, normalised."""
    return normalise(heard(text, pauses))


def heard(text: str, pauses: dict[int, float] | None = None) -> Transcript:
    """``text`` at three words a second; ``pauses`` are seconds before the word at a position."""
    said, clock = [], 0.0
    for at, word in enumerate(text.split()):
        clock += (pauses or {}).get(at, 0.0)
        said.append(Word(word, clock, clock + 0.3))
        clock += 0.33
    return Transcript(name="talk", kind="captions", sha256="", words=tuple(said))
