"""Seconds of a block under its structure."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import erf, sqrt

from cuewright.estimate.athlete import Athlete, amount, span, usable
from cuewright.estimate.effort import Going
from cuewright.estimate.figures import figures
from cuewright.estimate.items import Timed, drift, once, timed, way_back
from cuewright_models.estimate import BlockSeconds, Rounds
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

NINETIETH = 1.2816  # standard deviations from the median to the 90th percentile


@dataclass(frozen=True, slots=True)
class Timing:
    """A block for one athlete.

    ``work_s`` is what the structure's clock is held against: the work without its cap,
    one round of an ``amrap``, the fullest interval of an ``every`` block.
    """

    seconds: float
    work_s: float
    parts: tuple[Timed, ...]


def block_timing(block: Block, athlete: Athlete) -> Timing:
    """The block for one athlete; a clock that was not said falls back on the work."""
    shape = block.structure
    match shape:
        case ForTime():
            return _for_time(block, shape, athlete)
        case Amrap():
            return _amrap(block, shape, athlete)
        case Every():
            return _every(block, shape, athlete)
        case Intervals():
            return _intervals(block, shape, athlete)
        case Sets():
            return _sets(block, shape, athlete)
        case Quality():
            work = once(block.items, athlete, surroundings(block))
            return Timing(work.seconds, work.seconds, work.parts)


def surroundings(block: Block) -> Going:
    """What the block is around its items."""
    pressed = isinstance(block.structure, ForTime | Amrap | Every)
    several = len({effort.movement for effort in efforts(block.items)}) > 1
    easy = isinstance(block.structure, Quality)
    work_s = block.structure.work_s if isinstance(block.structure, Intervals) else None
    return Going(mixed=easy or (pressed and several), pressed=pressed, work_s=usable(work_s))


def _for_time(block: Block, shape: ForTime, athlete: Athlete) -> Timing:
    work = once(block.items, athlete, surroundings(block))
    cap = usable(shape.cap_s)
    return Timing(work.seconds if cap is None else min(work.seconds, cap), work.seconds, work.parts)


def _amrap(block: Block, shape: Amrap, athlete: Athlete) -> Timing:
    work = once(block.items, athlete, surroundings(block))
    a_round = work.seconds + way_back(block.items, athlete)
    duration = _clock(block, usable(shape.duration_s), athlete)
    return Timing(work.seconds if duration is None else duration, a_round, work.parts)


def _clock(block: Block, said: float | None, athlete: Athlete) -> float | None:
    """The block's own clock, or the first time stated for it."""
    if said is not None:
        return said
    stated = (amount(time.low, time.high, athlete) for time in block.stated_time)
    return next((seconds for seconds in stated if seconds is not None), None)


def _is_clocked(block: Block, shape: Amrap) -> bool:
    stated = (span(time.low, time.high) for time in block.stated_time)
    return usable(shape.duration_s) is not None or any(stated)


def interval_count(shape: Every) -> float | None:
    """Number of intervals, said or from the duration."""
    times, every_s, duration = usable(shape.times), usable(shape.every_s), usable(shape.duration_s)
    if times is None and every_s and duration is not None:
        return usable(duration / every_s)
    return times


def _every(block: Block, shape: Every, athlete: Athlete) -> Timing:
    going = surroundings(block)
    work = once(block.items, athlete, going)
    fullest = _fullest(block.items, athlete, going)
    times, every_s = interval_count(shape), usable(shape.every_s)
    said = times * every_s if times is not None and every_s is not None else None
    if said is None:
        said = usable(shape.duration_s)
    clock = _clock(block, said, athlete)
    cycle = work.seconds if times is None else fullest * times
    return Timing(cycle if clock is None else clock, fullest, work.parts)


def _fullest(items: Sequence[Item], athlete: Athlete, going: Going) -> float:
    """Work seconds of the fullest interval; items in no slot belong to each."""
    always = tuple(item for item in items if not isinstance(item, Slot))
    slots: dict[int, tuple[Item, ...]] = {}
    for item in items:
        if isinstance(item, Slot):
            slots[item.index] = slots.get(item.index, ()) + item.items
    cycle = [always + held for held in slots.values()] or [always]
    return max(once(held, athlete, going).seconds for held in cycle)


def _intervals(block: Block, shape: Intervals, athlete: Athlete) -> Timing:
    """Rounds x stations x (work + rest); the low end stops at the last work second."""
    work = once(block.items, athlete, surroundings(block))
    rounds = usable(shape.times)
    rounds = 1.0 if rounds is None else rounds
    rest_s = usable(shape.rest_s) or 0.0
    stations = sum(_periods(effort) for effort in efforts(block.items)) or 1
    work_s = usable(shape.work_s)
    if work_s is None:
        a_round = sum(part.seconds for part in work.parts) + stations * rest_s
    else:
        a_round = stations * (work_s + rest_s) + _rests(block.items, athlete)
    total = rounds * a_round
    trailing = rest_s if athlete.end == 0 and rounds else 0.0
    return Timing(max(total - trailing, 0.0), a_round, work.parts)


def _periods(effort: Effort) -> int:
    return 2 if effort.per_side and effort.unit == "s" else 1


def _rests(items: Sequence[Item], athlete: Athlete) -> float:
    return sum(timed(item, athlete, Going()).seconds for item in items if isinstance(item, Rest))


def _sets(block: Block, shape: Sets, athlete: Athlete) -> Timing:
    """Sets with the rest between them, and between one exercise and the next."""
    said = usable(shape.rest_s)
    rest_s = figures().rest[block.kind].at(athlete.end) if said is None else said
    items = tuple(_rested(item, rest_s) for item in block.items)
    parts = tuple(timed(item, athlete, surroundings(block)) for item in items)
    between = rest_s * sum(not _is_rest(a) and not _is_rest(b) for a, b in pairwise(items))
    seconds = sum(part.seconds for part in parts) + between
    return Timing(seconds, seconds, parts)


def _is_rest(item: Item) -> bool:
    return isinstance(item, Rest)


def _rested(item: Item, rest_s: float) -> Item:
    """The repeat with the block's rest where it carries none of its own."""
    if not isinstance(item, Repeat) or item.rest_s is not None:
        return item
    ends_in_rest = bool(item.items) and _is_rest(item.items[-1])
    return item if ends_in_rest else item.model_copy(update={"rest_s": rest_s})


def block_seconds(block: Block, timings: Sequence[Timing]) -> BlockSeconds:
    """A profile's answer from its low, likely and high athlete."""
    low, likely, high = sorted(timing.seconds for timing in timings)
    work = sorted(timing.work_s for timing in timings)
    extra: dict[str, object] = {}
    shape = block.structure
    if isinstance(shape, ForTime) and (cap := usable(shape.cap_s)) is not None:
        extra["finish"] = share_within(cap, work)
    elif isinstance(shape, Amrap) and work[0] > 0 and _is_clocked(block, shape):
        slow, mid, fast = sorted(_rounds(t.seconds, t.work_s) for t in timings)
        extra["rounds"] = Rounds(low=slow, likely=mid, high=fast)
    elif isinstance(shape, Every) and not any(effort.max for effort in efforts(block.items)):
        every_s = usable(shape.every_s)
        if every_s is not None:
            extra["spare_s"] = every_s - work[1]
            extra["behind"] = 1 - share_within(every_s, work)
    return BlockSeconds.model_validate({"low_s": low, "likely_s": likely, "high_s": high, **extra})


def _rounds(seconds: float, a_round: float) -> float:
    fresh = usable(seconds / a_round) or 0.0
    return fresh / drift(fresh)


def share_within(limit: float, work: Sequence[float]) -> float:
    """Share of athletes whose seconds lie within ``limit``.

    ``work`` is the 10th, 50th and 90th percentile; each side of the median is taken as
    half of a normal distribution.
    """
    low, likely, high = work
    spread = high - likely if limit > likely else likely - low
    if spread <= 0:
        return 1.0 if limit >= likely else 0.0
    return 0.5 * (1 + erf((limit - likely) / spread * NINETIETH / sqrt(2)))
