"""Seconds of a block under its structure."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cuewright.estimate.amounts import usable
from cuewright.estimate.athletes import Athletes, Some
from cuewright.estimate.effort import Going
from cuewright.estimate.items import once, rounds, timed, way_back
from cuewright.estimate.timed import Timed, mean
from cuewright.paces.figures import figures
from cuewright_models.plan import (
    Amrap,
    Block,
    Effort,
    Every,
    ForTime,
    Intervals,
    Item,
    Quality,
    Repeat,
    Rest,
    Sets,
    Slot,
    efforts,
)

PASSES = 3
"""Times that an ``amrap`` or an ``every`` cycle is gone through; the last stands for more."""


@dataclass(frozen=True, slots=True)
class Timing:
    """A block for a crowd.

    ``work_s`` is what the structure's clock is held against: the work without its cap,
    the fullest interval of an ``every`` block. ``rounds`` is for an ``amrap`` by the clock.
    """

    seconds: Some
    work_s: Some
    parts: tuple[Timed, ...]
    rounds: Some | None = None


def block_timing(block: Block, athletes: Athletes) -> Timing:
    """The block for a crowd; a clock that was not said falls back on the work."""
    shape = block.structure
    match shape:
        case ForTime():
            return _for_time(block, shape, athletes)
        case Amrap():
            return _amrap(block, shape, athletes)
        case Every():
            return _every(block, shape, athletes)
        case Intervals():
            return _intervals(block, shape, athletes)
        case Sets():
            return _sets(block, shape, athletes)
        case Quality():
            work = once(block.items, athletes, surroundings(block))
            return Timing(work.seconds, work.seconds, work.parts)


def surroundings(block: Block) -> Going:
    """What the block is around its items."""
    pressed = isinstance(block.structure, ForTime | Amrap | Every)
    several = len({effort.movement for effort in efforts(block.items)}) > 1
    return Going(
        mixed=pressed and several,
        easy=isinstance(block.structure, Quality),
        pressed=pressed,
        work_s=usable(block.structure.work_s) if isinstance(block.structure, Intervals) else None,
    )


def _for_time(block: Block, shape: ForTime, athletes: Athletes) -> Timing:
    work = once(block.items, athletes, surroundings(block))
    cap = usable(shape.cap_s)
    capped = work.seconds if cap is None else np.minimum(work.seconds, cap)
    return Timing(capped, work.seconds, work.parts)


def _amrap(block: Block, shape: Amrap, athletes: Athletes) -> Timing:
    duration = _clock(block, usable(shape.duration_s), athletes)
    going, gone = surroundings(block), []
    for _ in range(1 if duration is None else PASSES):
        gone.append(once(block.items, athletes, going))
        athletes.passes(way_back(block.items, athletes))
    one = mean(gone, [1 / len(gone)] * len(gone), fully=athletes.crowd.seed is None)
    if duration is None:
        return Timing(one.seconds, one.seconds, one.parts)
    back = way_back(block.items, athletes)
    fresh = _rounds_in(duration, [go.seconds + back for go in gone])
    return Timing(duration, one.seconds, one.parts, fresh if fresh is None else _drifted(fresh))


def _rounds_in(duration: Some, rounds: Sequence[Some]) -> Some | None:
    """Rounds in the time, the last round standing for all further ones."""
    if any(np.min(one) <= 0 for one in rounds):
        return None
    *first, last = rounds
    left: Some = duration
    done: Some = 0.0
    for one in first:
        done = done + np.clip(left / one, 0, 1)
        left = np.maximum(left - one, 0)
    return done + left / last


def _drifted(fresh: Some) -> Some:
    """Rounds done when each is slower than the one before, up to the most that they slow.

    R rounds cost R + d R^2 / 2 fresh ones while they slow by d each.
    """
    number = figures().number
    slowing, most = number["drift"], number["most-drift"]
    turn = most / slowing
    cost = turn + slowing * turn**2 / 2
    slowed = (np.sqrt(1 + 2 * slowing * np.minimum(fresh, cost)) - 1) / slowing
    return slowed + np.maximum(fresh - cost, 0) / (1 + most)


def _clock(block: Block, said: float | None, athletes: Athletes) -> Some | None:
    """The block's own clock, or the first time stated for it."""
    if said is not None:
        return said
    stated = (athletes.amount(time.low, time.high) for time in block.stated_time)
    return next((seconds for seconds in stated if seconds is not None), None)


def interval_count(shape: Every) -> float | None:
    """Number of intervals, said or from the duration."""
    times, every_s, duration = usable(shape.times), usable(shape.every_s), usable(shape.duration_s)
    if times is None and every_s and duration is not None:
        return usable(duration / every_s)
    return times


def _every(block: Block, shape: Every, athletes: Athletes) -> Timing:
    every_s, times = usable(shape.every_s), interval_count(shape)
    work = _Cycle(block, every_s, athletes)
    said = times * every_s if times is not None and every_s is not None else None
    clock = _clock(block, usable(shape.duration_s) if said is None else said, athletes)
    if clock is None:
        clock = work.seconds if times is None else work.fullest * times
    return Timing(clock, work.fullest, work.parts)


class _Cycle:
    """The intervals of an ``every`` block, gone through a few times.

    ``fullest`` is the fullest interval of the last time through, ``seconds`` all of it.
    """

    def __init__(self, block: Block, every_s: float | None, athletes: Athletes):
        going, intervals = surroundings(block), _intervals_of(block.items)
        for _ in range(PASSES):
            done: dict[int, Timed] = {}
            work = []
            for interval in intervals:
                one = once(interval, athletes, going)
                athletes.passes(0.0 if every_s is None else np.maximum(every_s - one.seconds, 0))
                done.update(zip(map(id, interval), one.parts, strict=True))
                work.append(one.seconds)
        self.parts = tuple(done[id(item)] for item in block.items)
        self.seconds: Some = sum(work, 0.0)
        self.fullest: Some = work[0]
        for seconds in work[1:]:
            self.fullest = np.maximum(self.fullest, seconds)


def _intervals_of(items: Sequence[Item]) -> list[tuple[Item, ...]]:
    """The items of each interval; those in no slot belong to each."""
    always = tuple(item for item in items if not isinstance(item, Slot))
    slots: dict[int, tuple[Item, ...]] = {}
    for item in items:
        if isinstance(item, Slot):
            slots[item.index] = (*slots.get(item.index, ()), item)
    return [always + held for held in slots.values()] or [always]


def _intervals(block: Block, shape: Intervals, athletes: Athletes) -> Timing:
    """Rounds x stations x (work + rest); some athletes stop at the last work second."""
    work = once(block.items, athletes, surroundings(block))
    rounds = usable(shape.times)
    rounds = 1.0 if rounds is None else rounds
    rest_s = usable(shape.rest_s) or 0.0
    stations = sum(_periods(effort) for effort in efforts(block.items)) or 1
    work_s = usable(shape.work_s)
    if work_s is None:
        a_round = sum((part.seconds for part in work.parts), 0.0) + stations * rest_s
    else:
        a_round = stations * (work_s + rest_s) + _rests(block.items, athletes)
    stops = athletes.crowd.choice() < figures().number["first-to-stop"]
    total = np.maximum(rounds * a_round - (rest_s if rounds else 0.0) * stops, 0)
    return Timing(total, total, work.parts)


def _periods(effort: Effort) -> int:
    return 2 if effort.per_side and effort.unit == "s" else 1


def _rests(items: Sequence[Item], athletes: Athletes) -> Some:
    rests = (athletes.amount(item.low, item.high) for item in items if isinstance(item, Rest))
    return sum((seconds for seconds in rests if seconds is not None), 0.0)


def _sets(block: Block, shape: Sets, athletes: Athletes) -> Timing:
    """Sets with the rest between them, and between one exercise and the next."""
    said = usable(shape.rest_s)
    rest_s = athletes.spread("rest", figures().rest[block.kind]) if said is None else said
    going = surroundings(block)
    total: Some = 0.0
    parts: list[Timed] = []
    for nth, item in enumerate(block.items):
        if nth and not _is_rest(block.items[nth - 1]) and not _is_rest(item):
            athletes.passes(rest_s)
            total = total + rest_s
        parts.append(_of_sets(item, rest_s, athletes, going))
        total = total + parts[-1].seconds
    return Timing(total, total, tuple(parts))


def _is_rest(item: Item) -> bool:
    return isinstance(item, Rest)


def _of_sets(item: Item, rest_s: Some, athletes: Athletes, going: Going) -> Timed:
    """The item, a repeat with the block's rest where it carries none of its own."""
    if not isinstance(item, Repeat) or item.rest_s is not None:
        return timed(item, athletes, going)
    if item.items and _is_rest(item.items[-1]):
        return timed(item, athletes, going)
    times = athletes.amount(item.times.low, item.times.high)
    return rounds(item.items, 1.0 if times is None else times, rest_s, athletes, going)
