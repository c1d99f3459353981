"""Blocks that are run otherwise, in other rounds or in another order."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from cuewright.comparison.align import Alignment, Pair
from cuewright.comparison.difference import Difference, Number
from cuewright.comparison.equal import same
from cuewright.comparison.stations import Station
from cuewright.render import words
from cuewright_models.plan import (
    Amrap,
    Block,
    Every,
    ForTime,
    Intervals,
    Item,
    Ladder,
    Repeat,
    Rest,
    Sets,
    Slot,
    Structure,
)

_FIELDS: dict[type, tuple[tuple[str, str], ...]] = {
    ForTime: (("cap_s", "s"),),
    Amrap: (("duration_s", "s"),),
    Every: (("every_s", "s"), ("times", "reps"), ("duration_s", "s")),
    Intervals: (("work_s", "s"), ("rest_s", "s")),
    Sets: (("rest_s", "s"),),
}
_CLOCKS = (ForTime, Amrap, Every, Intervals)


class Both(NamedTuple):
    """A block of the talk and the block of the description that is it."""

    talk: Block
    other: Block
    pairs: tuple[Pair, ...]


def blocks(found: Alignment) -> list[Both]:
    """Blocks that have more of each other than of any third."""
    shared = Counter((pair.talk.nth, pair.other.nth) for pair in found.pairs)
    out = []
    for (one, two), many in shared.items():
        rivals = [n for (a, b), n in shared.items() if (a == one) != (b == two)]
        if many > max(rivals, default=0):
            pairs = tuple(p for p in found.pairs if (p.talk.nth, p.other.nth) == (one, two))
            out.append(Both(pairs[0].talk.block, pairs[0].other.block, pairs))
    return out


def shape(found: Alignment) -> Iterator[Difference]:
    """One difference for each block that is run otherwise, one for each in another order."""
    for both in blocks(found):
        numbers = [*_structure(both), *_rounds(both), *_rungs(both), *_rests(both)]
        clock = _other_clock(both.talk.structure, both.other.structure)
        if numbers or clock:
            yield _run(both, tuple(dict.fromkeys(numbers)))
        if moved := _moved(both.pairs):
            yield _order(both, moved)


def _other_clock(one: Structure, two: Structure) -> bool:
    """Whether two clocks contradict; work on a clock with rest in it may be told either way."""
    if not isinstance(one, _CLOCKS) or not isinstance(two, _CLOCKS) or type(one) is type(two):
        return False
    return {type(one), type(two)} != {Every, Intervals}


def _structure(both: Both) -> Iterator[Number]:
    one, two = both.talk.structure, both.other.structure
    if type(one) is type(two):
        for name, unit in _FIELDS.get(type(one), ()):
            yield from _number(getattr(two, name), getattr(one, name), unit)


def _number(old: float | None, new: float | None, unit: str) -> Iterator[Number]:
    if old is not None and new is not None and not same(old, new, unit):
        yield Number(old, new, unit)


def _rounds(both: Both) -> Iterator[Number]:
    """The rounds, where both sides count them."""
    uncounted = (Amrap, Every)
    if isinstance(both.talk.structure, uncounted) or isinstance(both.other.structure, uncounted):
        return
    for pair in both.pairs:
        yield from _number(pair.other.low, pair.talk.low, "rounds")
        if pair.talk.high != pair.talk.low or pair.other.high != pair.other.low:
            yield from _number(pair.other.high, pair.talk.high, "rounds")


def _rungs(both: Both) -> Iterator[Number]:
    for pair in both.pairs:
        one, two = pair.talk.rungs, pair.other.rungs
        if one and two and one != two:
            yield from (Number(b, a, "rung") for a, b in zip(one, two, strict=False) if a != b)
            if len(one) != len(two):
                yield Number(len(two), len(one), "rungs")


def _rests(both: Both) -> Iterator[Number]:
    one, two = _said_rests(both.talk), _said_rests(both.other)
    if len(one) == len(two) == 1:
        yield from _number(two[0], one[0], "s")


def _said_rests(block: Block) -> list[float]:
    """Every different rest inside a block."""
    found = [*_inside(block.items)]
    if isinstance(block.structure, Sets) and block.structure.rest_s is not None:
        found.append(block.structure.rest_s)
    return sorted(set(found))


def _inside(items: Sequence[Item]) -> Iterator[float]:
    for item in items:
        if isinstance(item, Rest):
            yield item.low
        elif isinstance(item, Repeat | Ladder | Slot):
            if isinstance(item, Repeat) and item.rest_s is not None:
                yield item.rest_s
            yield from _inside(item.items)


def _run(both: Both, numbers: tuple[Number, ...]) -> Difference:
    expected, found = _told(both, 0), _told(both, 1)
    return Difference(
        rule="description-differs",
        about="structure",
        message=f"The description has {found}; in the talk it is {expected}.",
        expected=expected,
        found=found,
        suggestion=f"Write {expected}.",
        heard=both.talk.said[:1],
        written=both.other.said[:1],
        numbers=numbers,
        pair=both.pairs[0],
    )


def _told(both: Both, side: int) -> str:
    """How a block is run, in a few words."""
    block = both.other if side else both.talk
    station = both.pairs[0][side]
    parts = [words.structure(block.structure)]
    if station.rungs:
        parts.append("-".join(map(str, station.rungs)))
    elif station.low is not None and not isinstance(block.structure, Amrap | Every | Intervals):
        parts.append(words.between(station.low, station.high) + " rounds")
    parts += [f"rest {words.time(rest)}" for rest in _said_rests(block)]
    return ", ".join(part for part in parts if part) or "work at one's own pace"


def _moved(pairs: Sequence[Pair]) -> tuple[Station, ...]:
    """The stations of the description as the talk orders them, if it orders them otherwise."""
    written = [pair.other for pair in pairs]
    places = [station.at for station in written]
    return tuple(written) if places != sorted(places) else ()


def _order(both: Both, moved: tuple[Station, ...]) -> Difference:
    places = sorted(station.at for station in moved)
    wrong = [s for s, at in zip(moved, places, strict=True) if s.at != at]
    pairs = [pair for pair in both.pairs if pair.other in wrong]
    expected = ", ".join(words.movement(pair.talk.effort.movement) for pair in pairs)
    there = sorted(wrong, key=lambda station: station.at)
    found = ", ".join(words.movement(station.effort.movement) for station in there)
    return Difference(
        rule="description-differs",
        about="order",
        message=f"The description has the order {found}; in the talk it is {expected}.",
        expected=expected,
        found=found,
        suggestion=f"Write them in the order {expected}.",
        heard=tuple(said for pair in pairs for said in pair.talk.effort.said[:1]),
        written=tuple(said for station in there for said in station.effort.said[:1]),
        order=moved,
    )
