"""A stretch of talk as a row of spans: amounts, movements and single words, each one letter.

The letters make the grammar's patterns short enough to read: ``nR`` is a number and the
word "rounds". Amounts: ``n`` a bare number, ``t`` a time, ``d`` a distance, ``c`` calories,
``k`` a load, ``%`` a share, ``l`` a list, ``p`` a pair, ``b`` a "by" form, ``o`` an ordinal.
``M`` is a movement; words have the letters of ``words.toml``; all others read ``.``.
"""

from bisect import bisect_left
from dataclasses import dataclass
from functools import cache

from cuewright.movements.catalogue import catalogue
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


def row(reading: Reading, start: int, end: int, *, without: frozenset[int] = frozenset()) -> Row:
    """The tokens ``start:end`` as spans, less the tokens ``without`` (what was taken back).

    An amount or movement that sticks out of the range is read as words.
    """
    letters = _letters()
    amounts = {a.start: a for a in _inside(reading.amounts, start, end)}
    movements = {m.start: m for m in _inside(reading.movements, start, end)}
    spans: list[Span] = []
    at = start
    while at < end:
        if at in without:
            at += 1
            continue
        amount, movement = amounts.get(at), movements.get(at)
        if movement is not None and (amount is None or movement.end > amount.end):
            spans.append(Span("M", at, movement.end, movement=movement.name))
            at = movement.end
        elif amount is not None and _stuttered(amount, amounts.get(amount.end)):
            at = amount.end
        elif amount is not None and amount.shape == "by" and _multiplied(reading, amount):
            first = Amount(at, at + 1, amount.values[0], amount.values[0])
            spans.append(Span("n", at, at + 1, amount=first))
            at += 1
        elif amount is not None and amount.end <= end:
            sign = _sign(reading, amount)
            spans.append(Span(sign, at, amount.end, amount=amount))
            at = amount.end
        elif (length := _most(reading, at)) and at + length <= end:
            spans.append(Span("x", at, at + length, word="most"))
            at += length
        else:
            word = reading.tokens[at].norm
            if word in _COUNTS:
                times = Amount(at, at + 1, _COUNTS[word], _COUNTS[word])
                spans.append(Span("2", at, at + 1, word=word, amount=times))
                at += 1
                continue
            known = letters.get(word, ".")
            if known == "x" and at and reading.tokens[at - 1].norm in _BEST:
                known = "."
            spans.append(Span(known, at, at + 1, word=word))
            at += 1
    return Row(tuple(spans), "".join(span.letter for span in spans))


def _most(reading: Reading, at: int) -> int:
    """Length of "as many (good ones) as you can" at a token, 0 where it does not stand."""
    norms = [t.norm for t in reading.tokens[at : at + 9]]
    if (
        norms[:1] != ["as"]
        or norms[1:2] not in (["many"], ["long"])
        or "round" in norms
        or "rounds" in norms
    ):
        return 0
    for place in range(2, len(norms) - 1):
        if norms[place] == "as" and norms[place + 1] in ("you", "possible"):
            return min(place + (2 if norms[place + 1] == "possible" else 3), len(norms))
    return 0


def _multiplied(reading: Reading, amount: Amount) -> bool:
    """ "We do that six times, six fast ones": times is no "by" unless a unit or movement follows."""
    norms = [t.norm for t in reading.tokens[amount.start : amount.end]]
    if amount.values[:2] == (1, 1):
        return True  # "one by one"
    return "times" in norms and amount.unit is None and _movement_at(reading, amount.end) is None


def _stuttered(amount: Amount, following: Amount | None) -> bool:
    """ "Thirty, thirty metres": the number is said again with its unit."""
    return following is not None and amount.unit is None and amount.low == following.low


def letter(amount: Amount) -> str:
    """The letter of an amount; a pair or list with a unit counts by its unit."""
    if amount.shape in ("ordinal", "date", "other", "by"):
        return _SHAPES[amount.shape]
    if amount.unit is None and amount.shape in _SHAPES:
        return _SHAPES[amount.shape]
    return _UNITS[amount.unit]


_COUNTS = {"once": 1.0, "twice": 2.0, "thrice": 3.0}
_NOUNS = frozenset(
    "feet legs arms knees elbows fingers toes dumbbells dumbbell kettlebells kettlebell bells plates bottles bands hands clubs cones things thing exercises moves pieces parts bits people pairs lads girls machines mats boats stations movements jobs benches bikes ergs chairs places weeks months years days hours".split()
)
_BEST = frozenset("rep your my their his her one".split())
"""Words before "max" that make it one's best lift, not an amount."""
_PRONOUNS = frozenset("you i we they it that".split())
_ORDINALS = frozenset("first second third fourth fifth sixth last next".split())
_PLACES = frozenset(
    "stop thing exercise job spot lane rack station number channel page round set part spot bay level boat engine bus room rate week day chapter gate stream squad crew grade".split()
)


def _sign(reading: Reading, amount: Amount) -> str:
    """The letter of an amount in its place; a number that only names something is a word."""
    before = reading.tokens[amount.start - 1].norm if amount.start else ""
    after = [t.norm for t in reading.tokens[amount.end : amount.end + 2]]
    if before == "your" and amount.unit is None and after[:1] and after[0] in _PRONOUNS:
        return "#"  # "when you've done your four you run"
    if before in ("your", "the", "that") and amount.start > 1:
        if reading.tokens[amount.start - 2].norm == "of" and amount.unit is not None:
            return "#"  # what is left "of your ninety seconds"
    named = (after[:1] and after[0] in _NOUNS) or after in (["of", "you"], ["of", "us"])
    nearby = _movement_at(reading, amount.end) or _movement_at(reading, amount.end + 1)
    if amount.unit is None and named and nearby is None:
        return "#"
    if before in ("that's", "is") and amount.low == 1 and amount.unit is None:
        return "#"  # "out and back, that's one shuttle"
    if after in (["rep", "max"], ["rep", "maximum"]) or after[:1] == ["rm"]:
        return "#"
    counted = amount.start > 1 and reading.tokens[amount.start - 2].norm in _ORDINALS
    if (
        before in _PLACES
        and after[:1] not in (["times"], ["time"])
        and not counted
        and amount.unit is None
        and amount.shape == "one"
    ):
        return "#"
    return "k" if _bell(reading, amount) else letter(amount)


_HEAVIEST_BELL = 130
_PEOPLE = frozenset(
    "women men ladies gents girls boys guys blokes lads lasses fellas gentlemen male female".split()
)


def _bell(reading: Reading, amount: Amount) -> bool:
    """Whether a bare number names a weight: "using a 24", "155 for the men"."""
    before = reading.tokens[amount.start - 1].norm if amount.start else ""
    after = reading.tokens[amount.end].norm if amount.end < len(reading.tokens) else ""
    if amount.unit is None and [t.norm for t in reading.tokens[amount.end : amount.end + 3]] == [
        "on",
        "the",
        "bar",
    ]:
        return True
    if amount.unit is None and any(
        token.norm in _PEOPLE for token in reading.tokens[amount.end : amount.end + 3]
    ):
        return before != "of"
    return (
        before in ("a", "an")
        and amount.unit is None
        and amount.shape == "one"
        and (amount.low or 0) < _HEAVIEST_BELL
        and after not in ("round", "set", "rep", "count", "of")
        and not _measured(reading, amount.end)
    )


def _measured(reading: Reading, at: int) -> bool:
    """Whether the movement at token ``at`` is one that "a fifty" could be metres of."""
    mention = _movement_at(reading, at)
    return mention is not None and "m" in catalogue()[mention.name].counted_in


def _movement_at(reading: Reading, at: int) -> Mention | None:
    """The movement whose name starts at a token."""
    place = _first(reading, at)
    if place < len(reading.movements) and reading.movements[place].start == at:
        return reading.movements[place]
    return None


def _first(reading: Reading, token: int) -> int:
    return bisect_left(reading.movements, token, key=lambda m: m.start)


def _inside(
    items: tuple[Amount, ...] | tuple[Mention, ...], start: int, end: int
) -> tuple[Amount | Mention, ...]:
    first = bisect_left(items, start, key=lambda item: item.start)
    last = bisect_left(items, end, key=lambda item: item.start)
    return tuple(item for item in items[first:last] if item.end <= end)


@cache
def _letters() -> dict[str, str]:
    return {
        word: key for key, words in raw("cuewright.parse", "words.toml").items() for word in words
    }
