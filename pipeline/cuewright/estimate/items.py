"""Seconds of items: what they hold, and the ways between them."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from cuewright.estimate.athletes import Athletes, Some, plain
from cuewright.estimate.effort import Going, effort_timed
from cuewright.estimate.timed import Timed, mean
from cuewright.movements.catalogue import catalogue
from cuewright.paces.figures import figures
from cuewright_models.movement import Movement
from cuewright_models.plan import Effort, Item, Ladder, Repeat, Rest, Slot

_GONE_THROUGH = (3, 2, 1)
"""Rounds gone through one by one, by how deep they lie; the last stands for all further."""


def timed(item: Item, athletes: Athletes, going: Going) -> Timed:
    """The item, its athletes tired and their clock moved on by it."""
    match item:
        case Effort():
            return effort_timed(item, athletes, going)
        case Rest():
            return _rest(item, athletes)
        case Slot():
            return once(item.items, athletes, going)
        case Repeat():
            return _repeat(item, athletes, going)
        case Ladder():
            return _ladder(item, athletes, going)


def _rest(rest: Rest, athletes: Athletes) -> Timed:
    said = athletes.amount(rest.low, rest.high)
    seconds = 0.0 if said is None else said
    athletes.passes(seconds)
    return Timed(seconds, work_s=seconds)


def once(items: Sequence[Item], athletes: Athletes, going: Going) -> Timed:
    """The items one after the other, with the ways between them."""
    total: Some = 0.0
    parts: list[Timed] = []
    for nth, item in enumerate(items):
        walked = way(items[nth - 1], item, athletes) if nth else 0.0
        athletes.passes(walked)
        part = timed(item, athletes, going)
        total = total + walked + part.seconds
        parts.append(replace(part, way_s=walked))
    return Timed(total, tuple(parts))


def rounds(
    items: Sequence[Item], times: Some, rest_s: Some | None, athletes: Athletes, going: Going
) -> Timed:
    """The items ``times`` over, with ``rest_s`` or the way back between rounds."""
    between = way_back(items, athletes) if rest_s is None else rest_s
    gone, counts = [], _counts(times, _GONE_THROUGH[min(going.depth, len(_GONE_THROUGH) - 1)])
    for nth, count in enumerate(counts):
        deeper = replace(going, depth=going.depth + 1, drift=_drifted(going, nth, count))
        gone.append(once(items, athletes, deeper))
        athletes.passes(between)
    total: Some = sum((go.seconds * n for go, n in zip(gone, counts, strict=True)), 0.0)
    shares = [plain(n / np.maximum(times, 1)) for n in counts]
    one = mean(gone, shares, fully=athletes.crowd.seed is None)
    return Timed(total + between * plain(np.maximum(times - 1, 0)), one.parts)


def _counts(times: Some, at_most: int) -> list[Some]:
    """How many rounds each round gone through stands for; at least one is gone through."""
    counts: list[Some] = [np.clip(times - nth, 0, 1) for nth in range(at_most - 1)]
    counts.append(np.maximum(times - (at_most - 1), 0))
    while len(counts) > 1 and np.max(counts[-1]) == 0:
        counts.pop()
    return [plain(n) for n in counts]


def _drifted(going: Going, nth: int, count: Some) -> Some:
    """The slowing of the round after ``nth`` others, or its mean over ``count`` like it."""
    if not going.pressed:
        return going.drift
    number = figures().number
    slower = number["drift"] * (nth + np.maximum(count - 1, 0) / 2)
    return plain(going.drift * (1 + np.minimum(slower, number["most-drift"])))


def _repeat(repeat: Repeat, athletes: Athletes, going: Going) -> Timed:
    times = athletes.amount(repeat.times.low, repeat.times.high)
    rest_s = athletes.amount(repeat.rest_s, repeat.rest_s)
    return rounds(repeat.items, 1.0 if times is None else times, rest_s, athletes, going)


def _ladder(ladder: Ladder, athletes: Athletes, going: Going) -> Timed:
    if not ladder.rungs:
        return once(ladder.items, athletes, going)
    between = way_back(ladder.items, athletes)
    gone = []
    for rung in ladder.rungs:
        gone.append(once(ladder.items, athletes, replace(going, rung=rung)))
        athletes.passes(between)
    weights: list[Some] = [1 / len(gone)] * len(gone)
    one = mean(gone, weights, fully=athletes.crowd.seed is None)
    total: Some = sum((go.seconds for go in gone), 0.0)
    return Timed(total + between * (len(gone) - 1), one.parts)


def way_back(items: Sequence[Item], athletes: Athletes) -> Some:
    """Seconds from the last item to the first, for the next round."""
    return way(items[-1], items[0], athletes) if items else 0.0


def way(before: Item, after: Item, athletes: Athletes) -> Some:
    """Seconds from one item to the next; a rest beside them takes it in."""
    left, right = _edge(before, -1), _edge(after, 0)
    if not isinstance(left, Effort) or not isinstance(right, Effort):
        return 0.0
    return athletes.seconds(_change(left, right))


def _edge(item: Item, side: int) -> Item | None:
    """The first (0) or last (-1) effort or rest inside the item."""
    while not isinstance(item, Effort | Rest):
        if not item.items:
            return None
        item = item.items[side]
    return item


def _change(left: Effort, right: Effort) -> str:
    """The row of pace.toml for the way between two efforts."""
    if left.movement == right.movement:
        return "next"
    rows = catalogue()
    one, other = rows.get(left.movement), rows.get(right.movement)
    if _travels(one) != _travels(other):
        return "place"
    used, wanted = one.kit if one else (), other.kit if other else ()
    return "kit" if (used or wanted) and set(used).isdisjoint(wanted) else "next"


def _travels(movement: Movement | None) -> bool:
    return movement is not None and movement.counted_in[0] == "m" and not movement.kit
