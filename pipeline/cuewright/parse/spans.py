"""A stretch of talk as a row of spans: amounts, movements and single words, each one letter.

The letters make the grammar's patterns short enough to read: ``nR`` is a number and the
word "rounds". Amounts: ``n`` a bare number, ``t`` a time, ``d`` a distance, ``c`` calories,
``k`` a load, ``%`` a share, ``l`` a list, ``p`` a pair, ``b`` a "by" form, ``o`` an ordinal,
``2`` "twice" and its like, ``x`` as much as possible, ``#`` a number that only names
something. ``M`` is a movement; words have the letters of ``words.toml``; all others read
``.``.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple, TypeVar

from cuewright.parse.signs import movement_at, sign
from cuewright.parse.words import letters, words
from cuewright_models.tokens import Amount, AmountUnit, Mention, Reading, norm_at, starting_in

Typed = TypeVar("Typed", Amount, Mention)

_LOWEST_TOP, _HIGHEST_TOP = 5, 30
"""Where a countdown to one may start."""
_LEFT_OUT = ""
"""The letter of tokens that the row does not have."""
_MOST_OF: dict[str, AmountUnit] = {
    **dict.fromkeys(words("spans", "most-kcal"), "kcal"),
    **dict.fromkeys(words("spans", "most-m"), "m"),
    **dict.fromkeys(words("spans", "most-s"), "s"),
}
"""What is counted in "max calories"."""
_COUNTS = {"once": 1.0, "twice": 2.0, "thrice": 3.0}
_BEST = words("spans", "best")
_NEEDS = words("spans", "needs")
_LONGEST = 9
"""Tokens of "as many good clean ones as you can", at most."""


class Span(NamedTuple):
    """One letter of a row, over the tokens ``start:end``."""

    letter: str
    start: int
    end: int
    word: str = ""
    amount: Amount | None = None
    movement: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """Spans in the order of a half-open range of tokens, and their letters as one string."""

    spans: tuple[Span, ...]
    letters: str

    @property
    def start(self) -> int:
        return self.spans[0].start if self.spans else 0

    @property
    def end(self) -> int:
        return self.spans[-1].end if self.spans else 0


def row(
    reading: Reading,
    start: int,
    end: int,
    *,
    without: frozenset[int] = frozenset(),
    rounds: frozenset[str] = frozenset(),
) -> Row:
    """The tokens ``start:end`` as spans, less the tokens ``without`` (what was taken back).

    ``rounds`` are further words that mean a round.

    An amount or movement that sticks out of the range is read as words.
    """
    amounts = _inside(reading.amounts, start, end)
    movements = _inside(reading.movements, start, end)
    spans: list[Span] = []
    at = start
    while at < end:
        if at in without:
            at += 1
            continue
        amount, movement = amounts.get(at), movements.get(at)
        if movement is not None and (amount is None or movement.end > amount.end):
            span = Span("M", at, movement.end, movement=movement.name)
        elif amount is not None:
            span = _figure(reading, amount, amounts.get(amount.end))
        else:
            span = _most(reading, at, end) or _word(reading, at, rounds)
        if span.letter != _LEFT_OUT:
            spans.append(span)
        at = span.end
    return Row(tuple(spans), "".join(span.letter for span in spans))


def _figure(reading: Reading, amount: Amount, following: Amount | None) -> Span:
    again = following is not None and amount.low == following.low and amount.unit is None
    again = again and amount.shape != "list"  # "nine, six, three, three sets": rungs stay
    counted = norm_at(reading.tokens, amount.start - 1) == "x"  # "x 4, 4 burpees"
    if again and not counted and reading.tokens[amount.end - 1].after != ":":
        return Span(_LEFT_OUT, amount.start, amount.end)  # "thirty, thirty metres"
    if amount.shape == "by" and _multiplied(reading, amount):
        at, first = amount.start, amount.values[0]
        return Span("n", at, at + 1, amount=Amount(at, at + 1, first, first))
    between = [token.norm for token in reading.tokens[amount.start : amount.end]]
    if rungs := _countdown(amount, climbs="up" in between):
        listed = replace(amount, shape="list", values=rungs)
        return Span("l", amount.start, amount.end, amount=listed)
    return Span(sign(reading, amount), amount.start, amount.end, amount=amount)


def _countdown(amount: Amount, *, climbs: bool) -> tuple[float, ...]:
    """The rungs of "ten down to one" and, where it ``climbs``, of "one up to ten"."""
    if amount.shape != "range" or amount.unit is not None:
        return ()
    if climbs and amount.low == 1 and (amount.high or 0) >= _LOWEST_TOP:
        return tuple(float(rung) for rung in range(1, int(amount.high or 0) + 1))
    if len(amount.values) != 2:
        return ()
    top, bottom = amount.values
    if top % 1 or bottom != 1 or not _LOWEST_TOP <= top <= _HIGHEST_TOP:
        return ()
    return tuple(float(rung) for rung in range(int(top), 0, -1))


def _multiplied(reading: Reading, amount: Amount) -> bool:
    """ "We do that six times, six fast ones": no "by" unless a unit or movement follows."""
    if amount.values[:2] == (1, 1):
        return True  # "one by one"
    norms = [token.norm for token in reading.tokens[amount.start : amount.end]]
    return "times" in norms and amount.unit is None and movement_at(reading, amount.end) is None


def _word(reading: Reading, at: int, rounds: frozenset[str]) -> Span:
    word = reading.tokens[at].norm
    if word in rounds:
        return Span("R", at, at + 1, word=word)
    if word in _COUNTS:
        times = Amount(at, at + 1, _COUNTS[word], _COUNTS[word])
        return Span("2", at, at + 1, word=word, amount=times)
    known = letters().get(word, ".")
    if known == "x":
        before = norm_at(reading.tokens, at - 1)
        if before in _BEST or (word == "failure") != (before == "to"):
            known = "."
    if known == "x" and (unit := _MOST_OF.get(norm_at(reading.tokens, at + 1))) is not None:
        return Span("x", at, at + 2, word=word, amount=Amount(at, at + 2, None, None, unit))
    return Span(known, at, at + 1, word=word)


def _most(reading: Reading, at: int, end: int) -> Span | None:
    """ "As many (good ones) as you can" or "as possible", if it starts at a token."""
    if reading.tokens[at].norm != "as":
        return None
    norms = [token.norm for token in reading.tokens[at : at + _LONGEST]]
    if norms[1:2] not in (["many"], ["long"]) or not {"round", "rounds"}.isdisjoint(norms):
        return None
    for place in range(2, len(norms) - 1):
        length = {"you": 3, "possible": 2}.get(norms[place + 1], 0)
        if norms[place + 2 : place + 3] and norms[place + 2] in _NEEDS:
            return None  # "as long as you need"
        if norms[place] == "as" and length:
            if any(movement_at(reading, at + ahead) for ahead in range(2, place)):
                return Span("x", at, at + 2, word="most")
            last = at + min(place + length, len(norms))
            return Span("x", at, last, word="most") if last <= end else None
    return None


def _inside(items: Sequence[Typed], start: int, end: int) -> dict[int, Typed]:
    """The amounts or movements that lie within ``start:end``, by the token they start at."""
    return {item.start: item for item in starting_in(items, start, end) if item.end <= end}
