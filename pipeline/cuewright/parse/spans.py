"""A stretch of talk as a row of spans: amounts, movements and single words, each one letter.

The letters make the grammar's patterns short enough to read: ``nR`` is a number and the
word "rounds". Amounts: ``n`` a bare number, ``t`` a time, ``d`` a distance, ``c`` calories,
``k`` a load, ``%`` a share, ``l`` a list, ``p`` a pair, ``b`` a "by" form, ``o`` an ordinal.
``M`` is a movement; words have the letters of ``words.toml``; all others read ``.``.
"""

from bisect import bisect_left
from dataclasses import dataclass
from functools import cache

from cuewright.tables import raw
from cuewright_models.tokens import Amount, Mention, Reading

_UNITS = {"s": "t", "m": "d", "kcal": "c", "kg": "k", "lb": "k", "%": "%", None: "n"}
_SHAPES = {"list": "l", "pair": "p", "by": "b", "ordinal": "o", "date": ".", "other": "."}


@dataclass(frozen=True, slots=True)
class Span:
    """One letter of a row, over the tokens ``start:end``."""

    letter: str
    start: int
    end: int
    word: str = ""
    amount: Amount | None = None
    movement: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """Spans that cover a half-open range of tokens, and their letters as one string."""

    spans: tuple[Span, ...]
    letters: str

    @property
    def start(self) -> int:
        return self.spans[0].start if self.spans else 0

    @property
    def end(self) -> int:
        return self.spans[-1].end if self.spans else 0


def row(reading: Reading, start: int, end: int) -> Row:
    """The tokens ``start:end`` as spans; an amount or movement that sticks out is cut to words."""
    letters = _letters()
    amounts = {a.start: a for a in _inside(reading.amounts, start, end)}
    movements = {m.start: m for m in _inside(reading.movements, start, end)}
    spans: list[Span] = []
    at = start
    while at < end:
        amount, movement = amounts.get(at), movements.get(at)
        if movement is not None and (amount is None or movement.end > amount.end):
            spans.append(Span("M", at, movement.end, movement=movement.name))
            at = movement.end
        elif amount is not None and amount.end <= end:
            spans.append(Span(letter(amount), at, amount.end, amount=amount))
            at = amount.end
        else:
            word = reading.tokens[at].norm
            spans.append(Span(letters.get(word, "."), at, at + 1, word=word))
            at += 1
    return Row(tuple(spans), "".join(span.letter for span in spans))


def letter(amount: Amount) -> str:
    """The letter of an amount; a pair or list with a unit counts by its unit."""
    if amount.shape in ("ordinal", "date", "other", "by"):
        return _SHAPES[amount.shape]
    if amount.unit is None and amount.shape in _SHAPES:
        return _SHAPES[amount.shape]
    return _UNITS[amount.unit]


def _inside(
    items: tuple[Amount, ...] | tuple[Mention, ...], start: int, end: int
) -> tuple[Amount | Mention, ...]:
    first = bisect_left(items, start, key=lambda item: item.start)
    last = bisect_left(items, end, key=lambda item: item.start)
    return tuple(item for item in items[first:last] if item.end <= end)


@cache
def _letters() -> dict[str, str]:
    return {word: key for key, words in raw("cuewright.parse", "words.toml").items() for word in words}
