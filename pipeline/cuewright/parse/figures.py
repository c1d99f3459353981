"""The figures of a talk that may be targets: times, sets, marks out of ten, shares."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import chain
from typing import Any, Literal

from cuewright.parse.marks import Marks
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.tokens import Amount, Token, norm_at

Unit = Literal["s", "sets", "rounds", "rpe", "%"]
_LONGEST_S = 2 * 3600.0
_NEGATED = 5
"""Tokens from "shouldn't" to "more than four minutes", at most."""
_REFUSED = 9
"""Tokens from "I don't want" to "over four minutes", at most."""
_REFUSE = {
    "not",
    "shouldn't",
    "don't",
    "won't",
    "never",
    "nobody",
    "nobody's",
    "no",
    "none",
    "nothing",
}
_OVER = {"over", "past", "beyond", "above"}
_MORE = {"more", "longer", "slower", "later"}
_NOT = {"nobody", "nobody's", "no", "none", "not", "shouldn't", "don't", "won't", "never"}
_SOME = {"first", "last", "final", "opening", "another", "the", "of", "those", "these"}
_SCALE = 40
"""Tokens for which a scale of ten stays open."""
_BEFORE = 3
_UP_TO = 2
"""Words between the two ends of a range, at most."""
_PARTED_BY = 5
"""Tokens from "break" to "into two", at most."""
_MOST_SETS = 10
"""Nobody breaks a station up into so many sets."""
_TEN = 10
_SCALES = (
    ["outta", "ten"],
    ["outta", "10"],
    ["out", "of", "ten"],
    ["out", "of", "10"],
    ["from", "ten"],
    ["from", "10"],
)
"""What is said after a mark."""
_AT_MOST = {"about", "no", "more", "than", "at", "most", "maybe", "say", "just", "roughly"}
_PARTED = {"break", "split", "chop", "cut", "breaking", "splitting", "broken", "carve", "divide"}
_PIECES = {
    "halves",
    "thirds",
    "goes",
    "chunks",
    "bites",
    "bits",
    "hits",
    "lots",
    "pieces",
    "parts",
    "blocks",
    "chunk",
}
_MAYBE = {"maybe", "a", "an", "or", "perhaps", "possibly", "even", "to", "nearly"}
_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_TAKE = {
    "between",
    "at",
    "you",
    "take",
    "takes",
    "taking",
    "cost",
    "costs",
    "in",
    "under",
    "about",
    "around",
}


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


def figures(divided: Divided, marks: Marks, *, rounds: bool) -> list[Figure]:
    """Every figure in order; ``marks`` are the phrases of targets.toml.

    Rounds are a figure only where the session leaves their number open.
    """
    scales = [mention.start for mention in marks.all("scale")]
    read: Iterable[Figure | None] = (
        _figure(divided.reading.tokens, a, scales) for a in divided.reading.amounts
    )
    if rounds:
        read = chain(read, (_rounds(divided.reading.tokens, a) for a in divided.reading.amounts))
    unbroken = (m for m in marks.all("unbroken") if not _refused(divided.reading.tokens, m.start))
    whole = (Figure(m.start, m.end, "sets", 1, 1) for m in unbroken)
    found = sorted([*filter(None, read), *whole], key=lambda figure: figure.start)
    return list(_joined(divided.reading.tokens, found))


def _joined(tokens: Sequence[Token], figures: Iterable[Figure]) -> Iterator[Figure]:
    """The figures, "two minutes, maybe 2:10" as one."""
    last: Figure | None = None
    for figure in figures:
        if last is not None and _goes_up_to(tokens, last, figure):
            last = Figure(last.start, figure.end, "s", last.low, figure.high)
            continue
        if last is not None:
            yield last
        last = figure
    if last is not None:
        yield last


def _goes_up_to(tokens: Sequence[Token], low: Figure, high: Figure) -> bool:
    """Whether a second time is the upper end of a first."""
    between = [token.norm for token in tokens[low.end : high.start]]
    timed = low.unit == high.unit == "s" and bool(low.low) and bool(high.high)
    if not timed or not between or len(between) > _UP_TO or not set(between) <= _MAYBE:
        return False
    return (low.high or 0) < (high.high or 0) <= 2 * (low.high or 0)


def _refused(tokens: Sequence[Token], at: int) -> bool:
    """ "Don't go unbroken"."""
    return any(token.norm in _NOT for token in tokens[max(at - _BEFORE, 0) : at])


def _figure(tokens: Sequence[Token], amount: Amount, scales: Sequence[int]) -> Figure | None:
    if amount.shape not in ("one", "range"):
        return None
    readings = (_time, _on_the_watch, _share, _out_of_ten, _exertion, _sets)
    found = (figure for reading in readings for figure in reading(tokens, amount))
    return next(found, None) or _bare_mark(tokens, amount, scales)


def _time(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    low, high = amount.low, amount.high
    if amount.unit != "s" or (high or low or 0) > _LONGEST_S:
        return
    earlier = {token.norm for token in tokens[max(amount.start - _NEGATED, 0) : amount.start]}
    if high is None and earlier & _NOT:
        low, high = None, low  # "it shouldn't take more than"
    if _at_most(tokens, amount):
        low, high = None, high or low
    yield Figure(amount.start, amount.end, "s", low, high)


def _at_most(tokens: Sequence[Token], amount: Amount) -> bool:
    """ "Four minutes tops", "at the outside", "nobody over four minutes"."""
    after = [token.norm for token in tokens[amount.end : amount.end + 3]]
    if after[:1] and after[0] in words()["most"]:
        return True
    if after[:1] == ["at"] and (after[1:] and {after[1], after[-1]} & set(words()["outside"])):
        return True
    before = [token.norm for token in tokens[max(amount.start - _REFUSED, 0) : amount.start]]
    over = before[-1:] and (
        before[-1] in _OVER or (before[-1] == "than" and before[-2:-1] and before[-2] in _MORE)
    )
    return bool(over) and not _REFUSE.isdisjoint(before)


def _share(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    """A share of best effort; "75 percent of your max" is a load."""
    after, then = norm_at(tokens, amount.end), norm_at(tokens, amount.end + 1)
    flat_out = after == "of" and then in ("flat", "top", "full", "what", "all", "race")
    if amount.unit == "%" and (flat_out or after not in ("of", "max", "one")):
        yield Figure(amount.start, amount.end, "%", amount.low, amount.high)


def _out_of_ten(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    norms = [token.norm for token in tokens[amount.end : amount.end + 3]]
    width = next((len(scale) for scale in _SCALES if norms[: len(scale)] == scale), 0)
    if amount.unit is None and width:
        start, low = _lower(tokens, amount)
        yield Figure(start, amount.end + width, "rpe", low, amount.high)


def _lower(tokens: Sequence[Token], amount: Amount) -> tuple[int, float | None]:
    """Where "a six, maybe a seven" starts, and with which mark."""
    at = amount.start - 1
    while at > 0 and tokens[at].norm in _MAYBE:
        at -= 1
    below = None if amount.high is None else amount.high - 1
    if at < amount.start - 1 and below is not None and tokens[at].norm in _marks(below):
        return at, below
    return amount.start, amount.low


def _marks(mark: float) -> tuple[str, ...]:
    """A whole mark as it may be written."""
    at = int(mark) - 1
    return (_WORDS[at], str(at + 1)) if 0 <= at < len(_WORDS) else ()


def _on_the_watch(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    """ "Two twenty to two forty" after "should take you": minutes and seconds."""
    low, high = amount.low, amount.high
    words = {token.norm for token in tokens[amount.start : amount.end]}
    if amount.unit is not None or low is None or high is None or amount.end - amount.start < 2:
        return
    spoken = all(word.isalpha() for word in words) and not words & {"hundred", "thousand"}
    clock = all(100 <= end < 1000 and end % 100 < 60 for end in (low, high))
    if spoken and clock and norm_at(tokens, amount.start - 1) in _TAKE:
        yield Figure(amount.start, amount.end, "s", _seconds(low), _seconds(high))


def _seconds(said: float) -> float:
    minutes, seconds = divmod(said, 100)
    return 60 * minutes + seconds


def _exertion(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    """ "RPE seven", "an RPE of seven"."""
    before = [token.norm for token in tokens[max(amount.start - 2, 0) : amount.start]]
    if amount.unit is None and (before[-1:] == ["rpe"] or before == ["rpe", "of"]):
        yield Figure(amount.start, amount.end, "rpe", amount.low, amount.high)


def _sets(tokens: Sequence[Token], amount: Amount) -> Iterator[Figure]:
    """ "In two sets", "split into three goes", "two sets on the swings"; not "two sets of"."""
    if amount.unit is not None or (amount.high or _MOST_SETS) >= _MOST_SETS:
        return
    at = amount.start - 1
    while at > 0 and tokens[at].norm in _AT_MOST:
        at -= 1
    after, before = norm_at(tokens, amount.end), norm_at(tokens, at)
    within, parted = before in ("in", "into"), _is_parted(tokens, at)
    if after in ("set", "sets") or (after in _PIECES and within):
        beside = norm_at(tokens, amount.end + 1) in ("on", "for") and not _is_measure(
            tokens, amount
        )
        should = before in ("be", "are", "should") or (
            before in ("it's", "is") and amount.high == 1
        )
        should = should or _will_do(tokens, amount)
        if within or beside or should:
            yield Figure(amount.start, amount.end + 1, "sets", amount.low, amount.high)
    elif parted and within and not norm_at(tokens, amount.end - 1).endswith("s"):
        yield Figure(amount.start, amount.end, "sets", amount.low, amount.high)


def _will_do(tokens: Sequence[Token], amount: Amount) -> bool:
    """ "Two sets is fine"."""
    verb, said = (norm_at(tokens, amount.end + nth) for nth in (1, 2))
    return verb in ("is", "are") and said in ("fine", "plenty", "enough", "ok", "okay", "good")


def _is_parted(tokens: Sequence[Token], at: int) -> bool:
    """Whether breaking something up is spoken of shortly before a token."""
    return not _PARTED.isdisjoint(token.norm for token in tokens[max(at - _PARTED_BY, 0) : at])


def _is_measure(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether what follows "sets for" is a time: "two sets for a minute"."""
    following = norm_at(tokens, amount.end + 2)
    return following not in ("the", "those", "your", "all", "each", "these")


def _rounds(tokens: Sequence[Token], amount: Amount) -> Figure | None:
    """ "Five to six rounds"."""
    after = norm_at(tokens, amount.end)
    if amount.unit is not None or amount.shape not in ("one", "range"):
        return None
    summed = norm_at(tokens, amount.start - 1) == "so" or norm_at(tokens, amount.start - 2) == "so"
    if summed or after not in ("rounds", "laps") or norm_at(tokens, amount.start - 1) in _SOME:
        return None
    return Figure(amount.start, amount.end + 1, "rounds", amount.low, amount.high)


def _bare_mark(tokens: Sequence[Token], amount: Amount, scales: Sequence[int]) -> Figure | None:
    """ "An eight" where a scale of ten was spoken of before."""
    last = bisect_left(scales, amount.start + 1) - 1
    open_scale = last >= 0 and amount.start - scales[last] <= _SCALE
    if norm_at(tokens, amount.end) in ("of", "times", "reps", "rounds", "sets", "each", "per"):
        return None
    led = norm_at(tokens, amount.start - 1) in ("a", "an", "at", "around", "about")
    led = led or (amount.start > 0 and tokens[amount.start - 1].after in (",", ":"))
    if amount.unit is not None or amount.low is None or amount.high is None:
        return None
    if not (open_scale and led and amount.low >= 1 and amount.high <= _TEN):
        return None
    return Figure(amount.start, amount.end, "rpe", amount.low, amount.high, bare=True)


@cache
def words() -> dict[str, Any]:
    """The single words of targets.toml, by what they do."""
    table: dict[str, Any] = raw("cuewright.parse", "targets.toml")["words"]
    return table
