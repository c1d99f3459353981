"""Which amounts of a plan rest on words that the recogniser was not sure of."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from cuewright_models.base import Evidence, Range, Said
from cuewright_models.plan import (
    Block,
    Doubt,
    Effort,
    Intervals,
    Item,
    Ladder,
    Plan,
    Repeat,
    Rest,
)
from cuewright_models.tokens import Amount, Reading
from cuewright_models.transcript import Transcript

_OF_A_CLOCK = {
    "cap_s": "cap",
    "duration_s": "length",
    "every_s": "interval",
    "work_s": "work",
    "rest_s": "rest",
    "times": "rounds",
}
"""What the figures of a structure are."""
_EMPTY = frozenset({"the", "of", "and"})
"""Words that no amount rests on, though they stand in it."""
_COUNTS = {"once": 1.0, "twice": 2.0, "thrice": 3.0}
_MEASURED = ("s", "m", "kcal", "kg", "lb", "%")


class _Fact(NamedTuple):
    """An amount of the plan, and where to look for its words, the nearest place first."""

    about: str
    where: str
    numbers: frozenset[float]
    unit: str | None
    places: tuple[Evidence, ...]
    block: str | None = None
    certain: bool = True
    """Whether the first place holds the amount, though perhaps reckoned from what was said."""


class _Figure(NamedTuple):
    """Numbers that were read in the words ``first:last``."""

    first: int
    last: int
    numbers: frozenset[float]
    unit: str | None


def doubts(heard: Transcript, reading: Reading, plan: Plan) -> tuple[Doubt, ...]:
    """The amounts to be checked by ear, in the order of the plan; none for captions and text."""
    if not any(word.doubtful for word in heard.words):
        return ()
    look = _Look(heard, reading)
    found = (_doubt(fact, figure, heard) for fact in _facts(plan) for figure in look.under(fact))
    return tuple(dict.fromkeys((*look.date(plan), *found)))


def _doubt(fact: _Fact, figure: _Figure, heard: Transcript) -> Doubt:
    return Doubt.model_validate(
        {
            "about": fact.about,
            "where": fact.where,
            "block": fact.block,
            "words": _unsure(heard, figure.first, figure.last),
            "said": (heard.quote(figure.first, figure.last),),
        }
    )


def _unsure(heard: Transcript, first: int, last: int) -> tuple[str, ...]:
    """The doubtful words of ``first:last`` that say something."""
    return tuple(
        word.text
        for word in heard.words[first:last]
        if word.doubtful and word.text.lower() not in _EMPTY
    )


class _Look:
    """Looks for the words of amounts."""

    def __init__(self, heard: Transcript, reading: Reading) -> None:
        self._heard, self._reading = heard, reading
        self._figures = [_figure(a, reading) for a in reading.amounts if a.shape != "other"]
        self._figures += [
            _Figure(token.first, token.last, _numbers((_COUNTS[token.norm],)), None)
            for token in reading.tokens
            if token.norm in _COUNTS
        ]
        self._starts: dict[float | None, list[int]] = defaultdict(list)
        for at, word in enumerate(heard.words):
            start = None if word.start_s is None else round(word.start_s, 2)
            self._starts[start].append(at)

    def under(self, fact: _Fact) -> Sequence[_Figure]:
        """The figures on which the amount rests, unless they are beyond doubt.

        A number that was clearly heard once in the nearest place is certain.
        """
        for evidence in fact.places:
            same = [f for f in self._within(evidence) if _tells(f, fact)]
            if same:
                return same if all(map(self._doubtful, same)) else ()
        if not fact.certain:
            return ()
        return [f for f in self._within(fact.places[0]) if self._doubtful(f)]

    def date(self, plan: Plan) -> Iterator[Doubt]:
        """The session's date where a word of it is doubtful."""
        said = plan.date.said if plan.date else ()
        for each in self._reading.dates:
            first, last = _words(each.start, each.end, self._reading)
            inside = any(a <= first and last <= b for a, b in map(self._place, said))
            if inside and (unsure := _unsure(self._heard, first, last)):
                quote = self._heard.quote(first, last)
                yield Doubt(about="date", where="date", words=unsure, said=(quote,))

    def _doubtful(self, figure: _Figure) -> bool:
        return bool(_unsure(self._heard, figure.first, figure.last))

    def _within(self, evidence: Evidence) -> list[_Figure]:
        places = [self._place(said) for said in evidence]
        return [f for f in self._figures if any(a <= f.first and f.last <= b for a, b in places)]

    def _place(self, said: Said) -> tuple[int, int]:
        """The words of a quote; none where it is not found."""
        size = len(said.quote.split())
        for first in self._starts[said.start_s]:
            if self._heard.quote(first, first + size) == said:
                return first, first + size
        return 0, 0


def _figure(amount: Amount, reading: Reading) -> _Figure:
    numbers = _numbers((amount.low, amount.high, *amount.values))
    return _Figure(*_words(amount.start, amount.end, reading), numbers, amount.unit)


def _words(start: int, end: int, reading: Reading) -> tuple[int, int]:
    """Tokens to words, both half-open."""
    return reading.tokens[start].first, reading.tokens[end - 1].last


def _numbers(given: Iterable[float | None]) -> frozenset[float]:
    return frozenset(round(number, 1) for number in given if number is not None)


def _tells(figure: _Figure, fact: _Fact) -> bool:
    return figure.unit in (None, fact.unit) and bool(figure.numbers & fact.numbers)


def _facts(plan: Plan) -> Iterator[_Fact]:
    """Every amount in the order of the plan."""
    everywhere = tuple(said for block in plan.blocks for said in block.said)
    for block in plan.blocks:
        yield from _clock(block)
        yield from _items(block.items, block, everywhere)
        for time in block.stated_time:
            yield _range(block.id, "stated-time", time, "s", time.said, block.id)
    for target in plan.targets:
        yield _range(target.about, "target", target, target.unit, target.said)
    for option in plan.options:
        yield _range(option.about, "option", option, option.unit, option.said)
    for claim in plan.claims:
        yield _range(claim.about, "claim", claim, claim.unit, claim.said)


def _range(
    about: str, where: str, given: Range, unit: str | None, said: Evidence, block: str | None = None
) -> _Fact:
    numbers = _numbers((given.low, given.high))
    return _Fact(about, where, numbers, _unit(unit), (said,), block, bool(numbers))


def _unit(unit: str | None) -> str | None:
    """The unit as amounts have it; a count of reps, sets or rounds has none."""
    if unit == "%1rm":
        return "%"
    return unit if unit in _MEASURED else None


def _clock(block: Block) -> Iterator[_Fact]:
    """The figures of a block's structure, which may be reckoned from each other."""
    for field, where in _OF_A_CLOCK.items():
        number = getattr(block.structure, field, None)
        unit = None if field == "times" else "s"
        yield _Fact(block.id, where, _numbers((number,)), unit, (block.said,), block.id, False)


def _items(items: Sequence[Item], block: Block, talk: Evidence) -> Iterator[_Fact]:
    for item in items:
        match item:
            case Effort():
                yield from _effort(item, block, talk)
            case Rest():
                numbers = _numbers((item.low, item.high))
                yield _Fact(block.id, "rest", numbers, "s", (item.said,), block.id)
            case _:
                yield from _rounds(item, block)
                yield from _items(item.items, block, talk)


def _effort(item: Effort, block: Block, talk: Evidence) -> Iterator[_Fact]:
    places = (item.said, block.said)
    numbers = _numbers((item.low, item.high))
    how = block.structure
    if not (isinstance(how, Intervals) and how.work_s in numbers):  # the clock has told it
        yield _Fact(
            item.movement, "amount", numbers, _unit(item.unit), places, block.id, bool(numbers)
        )
    for load in item.load:
        both = _numbers((load.low, load.high))
        yield _Fact(item.movement, "load", both, _unit(load.unit), (*places, talk), block.id, False)


def _rounds(item: Item, block: Block) -> Iterator[_Fact]:
    match item:
        case Repeat():
            places = (item.said, block.said)
            times, rest = _numbers((item.times.low, item.times.high)), _numbers((item.rest_s,))
            yield _Fact(block.id, "rounds", times, None, places, block.id, False)
            yield _Fact(block.id, "rest", rest, "s", places, block.id, False)
        case Ladder():
            yield _Fact(
                block.id, "rungs", _numbers(item.rungs), None, (item.said, block.said), block.id
            )
