"""Seconds of items for one athlete: what they hold, and the ways between them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cuewright.estimate.athlete import Athlete, amount
from cuewright.estimate.effort import Going, effort_seconds
from cuewright.estimate.figures import figures
from cuewright.movements.catalogue import catalogue
from cuewright_models.movement import Movement
from cuewright_models.plan import Effort, Item, Ladder, Repeat, Rest, Slot


@dataclass(frozen=True, slots=True)
class Timed:
    """An item's seconds; ``parts`` nests as its items do, each timed for one go.

    One go is the mean over the rounds of a repeat or the rungs of a ladder.
    """

    seconds: float
    parts: tuple["Timed", ...] = ()


def timed(item: Item, athlete: Athlete, going: Going) -> Timed:
    """The item for one athlete."""
    if isinstance(item, Effort):
        return Timed(effort_seconds(item, athlete, going))
    if isinstance(item, Rest):
        return Timed(amount(item.low, item.high, athlete) or 0.0)
    if isinstance(item, Slot):
        return once(item.items, athlete, going)
    if isinstance(item, Repeat):
        return _repeat(item, athlete, going)
    return _ladder(item, athlete, going)


def once(items: Sequence[Item], athlete: Athlete, going: Going) -> Timed:
    """The items one after the other, with the ways between them."""
    parts = tuple(timed(item, athlete, going) for item in items)
    ways = sum(way(a, b, athlete) for a, b in pairwise(items))
    return Timed(sum(part.seconds for part in parts) + ways, parts)


def rounds(
    items: Sequence[Item], times: float, rest_s: float | None, athlete: Athlete, going: Going
) -> Timed:
    """The items ``times`` over, with ``rest_s`` or the way back between rounds."""
    if going.pressed:
        going = replace(going, drift=going.drift * drift(times))
    one = once(items, athlete, going)
    between = way_back(items, athlete) if rest_s is None else rest_s
    return Timed(one.seconds * times + between * max(times - 1, 0), one.parts)


def drift(times: float) -> float:
    """How much slower than the first the mean of ``times`` rounds is."""
    number = figures().number
    return 1 + min(number["drift"] * max(times - 1, 0) / 2, number["most-drift"])


def _repeat(repeat: Repeat, athlete: Athlete, going: Going) -> Timed:
    times = amount(repeat.times.low, repeat.times.high, athlete)
    rest_s = amount(repeat.rest_s, repeat.rest_s, athlete)
    return rounds(repeat.items, 1.0 if times is None else times, rest_s, athlete, going)


def _ladder(ladder: Ladder, athlete: Athlete, going: Going) -> Timed:
    if not ladder.rungs:
        return once(ladder.items, athlete, going)
    gone = [once(ladder.items, athlete, replace(going, rung=rung)) for rung in ladder.rungs]
    between = way_back(ladder.items, athlete) * (len(gone) - 1)
    return Timed(sum(go.seconds for go in gone) + between, _mean([go.parts for go in gone]))


def _mean(gone: list[tuple[Timed, ...]]) -> tuple[Timed, ...]:
    return tuple(
        Timed(sum(go.seconds for go in goes) / len(goes), _mean([go.parts for go in goes]))
        for goes in zip(*gone, strict=True)
    )


def way_back(items: Sequence[Item], athlete: Athlete) -> float:
    """Seconds from the last item to the first, for the next round."""
    return way(items[-1], items[0], athlete) if items else 0.0


def way(before: Item, after: Item, athlete: Athlete) -> float:
    """Seconds from one item to the next; a rest beside them takes it in."""
    left, right = _edge(before, -1), _edge(after, 0)
    if not isinstance(left, Effort) or not isinstance(right, Effort):
        return 0.0
    return figures().seconds[_change(left, right)].at(athlete.end) * athlete.hurry


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
