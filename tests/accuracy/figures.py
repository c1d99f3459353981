"""Numbers and weekdays among the words of a talk, and the talk with one of them changed."""

from collections.abc import Iterator, Sequence
from functools import cache
from typing import NamedTuple, get_args

from num2words import num2words

from cuewright_models.plan import Weekday
from cuewright_models.transcript import Transcript, Word

MOST = 1000
"""Numbers are spelt out below this."""
BREATH_S, WORD_S = 2.0, 0.3
"""Before a sentence of its own, and of one word: common practice, no source."""
TRIM = "\"'([.,;:!?])…"
WEEKDAYS = get_args(Weekday)


class Figure(NamedTuple):
    """A number, or a weekday by its place in the week, over the words ``first:last``."""

    first: int
    last: int
    value: int
    weekday: bool = False


def figures(words: Sequence[Word]) -> Iterator[Figure]:
    """Every number above one and every weekday, the longest reading of each."""
    at = 0
    while at < len(words):
        lengths = (2, 1)
        found = next((f for n in lengths if (f := _figure(words, at, at + n))), None)
        if found:
            yield found
        at = found.last if found else at + 1


def _figure(words: Sequence[Word], first: int, last: int) -> Figure | None:
    parts = [word.text for word in words[first:last]]
    if len(parts) < last - first or any(part[-1] in TRIM for part in parts[:-1]):
        return None
    said = " ".join(parts).strip(TRIM).removesuffix("'s").lower()
    if said in WEEKDAYS:
        return Figure(first, last, WEEKDAYS.index(said), weekday=True)
    value = int(said) if said.isascii() and said.isdigit() else _spelt().get(said)
    return Figure(first, last, value) if value is not None and value > 1 else None


@cache
def _spelt() -> dict[str, int]:
    """Numbers by how they are spelt, with a hyphen and without."""
    plain = {num2words(number): number for number in range(100)}
    return plain | {said.replace("-", " "): number for said, number in plain.items()}


def changed(heard: Transcript, figure: Figure, value: int) -> Transcript:
    """The talk with another number or weekday, written as the one that stood there."""
    was = heard.words[figure.first : figure.last]
    told = " ".join(word.text for word in was)
    core = told.strip(TRIM).removesuffix("'s")
    new = told.replace(core, _like(core, value, weekday=figure.weekday))
    times = {"start_s": was[0].start_s, "end_s": was[-1].end_s}
    return replaced(heard, figure.first, figure.last, [Word(text, **times) for text in new.split()])


def _like(core: str, value: int, *, weekday: bool) -> str:
    if weekday:
        said: str = WEEKDAYS[value]
    elif core.isdigit():
        return str(value)
    else:
        said = num2words(value)
        said = said if "-" in core or " " not in core else said.replace("-", " ")
    return said.capitalize() if core[0].isupper() else said


def replaced(heard: Transcript, first: int, last: int, new: Sequence[Word]) -> Transcript:
    """The talk with the words ``first:last`` replaced, lines and speakers where they were."""
    more = len(new) - (last - first)
    words = (*heard.words[:first], *new, *heard.words[last:])
    places = {"breaks": heard.breaks, "turns": heard.turns}
    kept = {
        key: tuple(at + more if at >= last else at for at in all_) for key, all_ in places.items()
    }
    return heard.model_copy(update={"words": words, **kept})


def planted(heard: Transcript, at: int, sentence: str) -> Transcript:
    """The talk with a sentence said before the word ``at``, in the talk's own spelling."""
    plain = not any(word.text[-1] in ".!?" for word in heard.words)
    said = sentence.lower().translate(str.maketrans("", "", ",.?!")) if plain else sentence
    time = heard.words[at - 1].end_s if at else None
    new = [Word(text, *_spoken(time, nth)) for nth, text in enumerate(said.split())]
    return replaced(heard, at, at, new)


def _spoken(after_s: float | None, nth: int) -> tuple[float | None, float | None]:
    """When the ``nth`` word of a sentence is said that begins a breath after a time."""
    if after_s is None:
        return None, None
    start = after_s + BREATH_S + nth * WORD_S
    return start, start + WORD_S
