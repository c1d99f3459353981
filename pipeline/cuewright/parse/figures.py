"""The figures of a talk that may be targets: times, sets, marks out of ten, shares."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from cuewright.parse.marks import Marks
from cuewright_models.divided import Divided
from cuewright_models.tokens import Amount, Token

Unit = Literal["s", "sets", "rpe", "%"]
_LONGEST_S = 2 * 3600.0
_NEGATED = 5
"""Tokens from "shouldn't" to "more than four minutes", at most."""
_NOT = {"not", "shouldn't", "don't", "won't", "never"}
_SCALE = 40
"""Tokens for which a scale of ten stays open."""
_TEN = 10


@dataclass(frozen=True, slots=True)
class Figure:
    """An amount over ``start:end`` with its own words; ``None`` is an open end."""

    start: int
    end: int
    unit: Unit
    low: float | None
    high: float | None
    bare: bool = False
    """True for a mark whose "out of ten" was said before."""


def figures(divided: Divided, marks: Marks) -> list[Figure]:
    """Every figure in order; ``marks`` are the phrases of targets.toml."""
    scales = [mention.start for mention in marks.all("scale")]
    amounts = (_figure(divided.reading.tokens, a, scales) for a in divided.reading.amounts)
    whole = (Figure(m.start, m.end, "sets", 1, 1) for m in marks.all("unbroken"))
    return sorted([*filter(None, amounts), *whole], key=lambda figure: figure.start)


def _figure(tokens: Sequence[Token], amount: Amount, scales: Sequence[int]) -> Figure | None:
    if amount.shape not in ("one", "range"):
        return None
    readings = (_time, _share, _out_of_ten, _exertion, _sets)
    found = (figure for reading in readings for figure in reading(tokens, amount))
    return next(found, None) or _bare_mark(tokens, amount, scales)


def _time(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    low, high = amount.low, amount.high
    if amount.unit != "s" or (high or low or 0) > _LONGEST_S:
        return
    earlier = {token.norm for token in tokens[max(amount.start - _NEGATED, 0) : amount.start]}
    if high is None and earlier & _NOT:
        low, high = None, low  # "it shouldn't take more than"
    yield Figure(amount.start, amount.end, "s", low, high)


def _share(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    """A share of best effort; "75 percent of your max" is a load."""
    if amount.unit == "%" and _norm(tokens, amount.end) not in ("of", "max", "one"):
        yield Figure(amount.start, amount.end, "%", amount.low, amount.high)


def _out_of_ten(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    norms = [token.norm for token in tokens[amount.end : amount.end + 3]]
    if amount.unit is None and norms in (["out", "of", "ten"], ["out", "of", "10"]):
        yield Figure(amount.start, amount.end + 3, "rpe", amount.low, amount.high)


def _exertion(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    """ "RPE seven", "an RPE of seven"."""
    before = [token.norm for token in tokens[max(amount.start - 2, 0) : amount.start]]
    if amount.unit is None and (before[-1:] == ["rpe"] or before == ["rpe", "of"]):
        yield Figure(amount.start, amount.end, "rpe", amount.low, amount.high)


def _sets(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    """ "In two sets", not "two sets of twelve"."""
    after, before = _norm(tokens, amount.end), _norm(tokens, amount.start - 1)
    if amount.unit is None and after in ("set", "sets") and before == "in":
        yield Figure(amount.start, amount.end + 1, "sets", amount.low, amount.high)


def _bare_mark(tokens: Sequence[Token], amount: Amount, scales: Sequence[int]) -> Figure | None:
    """ "An eight" where a scale of ten was spoken of before."""
    last = bisect_left(scales, amount.start + 1) - 1
    open_scale = last >= 0 and amount.start - scales[last] <= _SCALE
    led = _norm(tokens, amount.start - 1) in ("a", "an", "at", "around", "about")
    if amount.unit is not None or amount.low is None or amount.high is None:
        return None
    if not (open_scale and led and amount.low >= 1 and amount.high <= _TEN):
        return None
    return Figure(amount.start, amount.end, "rpe", amount.low, amount.high, bare=True)


def _norm(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].norm if 0 <= at < len(tokens) else ""
