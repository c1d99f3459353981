"""What the coach wants things to take, each with the efforts whose amounts decide it."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np

from cuewright.estimate.athletes import Some
from cuewright.estimate.blocks import Timing
from cuewright.estimate.places import Place, at, timed_at, within
from cuewright.estimate.stated import MAIN
from cuewright_models.plan import Effort, ForTime, Plan, Quality, Repeat, Sets, Target
from cuewright_models.profile import PROFILES, Profile

Measure = Callable[[Sequence[Timing], Some], Some]


@dataclass(frozen=True, slots=True)
class Wanted:
    """``low_s`` to ``high_s`` for what ``measure`` reads off; ``None`` for no low end."""

    about: str
    low_s: float | None
    high_s: float
    places: tuple[Place, ...]
    measure: Measure

    def seconds(self, timings: Sequence[Timing], total: Some, profile: Profile) -> float:
        """The profile's middle athlete's."""
        some = np.broadcast_to(self.measure(timings, total), (len(PROFILES), 1))
        return float(some[PROFILES.index(profile), 0])

    @property
    def aim_s(self) -> float:
        """The middle of the range; near the high end where there is no low one."""
        return 0.9 * self.high_s if self.low_s is None else (self.low_s + self.high_s) / 2

    def is_met(self, seconds: float, leeway: float) -> bool:
        """Whether the seconds are in the range, or within the leeway of its middle."""
        low = 0.0 if self.low_s is None else min(self.low_s, (1 - leeway) * self.aim_s)
        high = self.high_s if self.low_s is None else max(self.high_s, (1 + leeway) * self.aim_s)
        return low <= seconds <= high


def adjustable(plan: Plan, place: Place = ()) -> tuple[Place, ...]:
    """The efforts below the place that have an amount of reps, metres or kcal."""
    return tuple(where for where, item in within(plan, place) if _has_amount(item))


def _has_amount(item: object) -> bool:
    return (
        isinstance(item, Effort)
        and item.unit in ("reps", "m", "kcal")
        and bool(item.low or item.high)
        and not item.max
    )


def station_goals(plan: Plan) -> list[Wanted]:
    """The targets for stations, then for rounds, by the stations without one, then for blocks."""
    timed = [t for t in plan.targets if t.unit == "s" and (t.high or t.low)]
    return [*_stations(plan, timed), *_rounds(plan, timed), *_blocks(plan, timed)]


def _stations(plan: Plan, targets: list[Target]) -> Iterator[Wanted]:
    """Each place of a movement takes its own target where there are as many, else the first."""
    efforts = [(where, item) for where, item in within(plan) if isinstance(item, Effort)]
    many = Counter(item.movement for _, item in efforts)
    seen: Counter[str] = Counter()
    for where, item in efforts:
        mine = [target for target in targets if target.about == item.movement]
        if mine:
            nth = seen[item.movement] if len(mine) == many[item.movement] else 0
            seen[item.movement] += 1
            places = (where,) if _has_amount(item) else ()
            yield _wanted(mine[nth], places, partial(_item_s, where))


def _rounds(plan: Plan, targets: list[Target]) -> Iterator[Wanted]:
    """A round's target is for rounds against the clock, or else for the first in rounds."""
    named = {target.about for target in targets}
    for target in [target for target in targets if target.about == "round"][:1]:
        for where in _in_rounds(plan):
            free = tuple(p for p in adjustable(plan, where) if _name(plan, p) not in named)
            yield _wanted(target, free, partial(_round_s, where))


def _in_rounds(plan: Plan) -> list[Place]:
    found: list[Place] = [
        (nth, inner)
        for nth, block in enumerate(plan.blocks)
        for inner, item in enumerate(block.items)
        if block.kind in MAIN and isinstance(item, Repeat)
    ]
    pressed = [place for place in found if isinstance(plan.blocks[place[0]].structure, ForTime)]
    return pressed or found[:1]


def _name(plan: Plan, place: Place) -> str:
    item = at(plan, place)
    return item.movement if isinstance(item, Effort) else ""


def _item_s(where: Place, timings: Sequence[Timing], _: Some) -> Some:
    return timed_at(timings, where).seconds


def _round_s(where: Place, timings: Sequence[Timing], _: Some) -> Some:
    parts = timed_at(timings, where).parts
    return sum((part.seconds + part.way_s for part in parts), 0.0)


def _block_s(nth: int, timings: Sequence[Timing], _: Some) -> Some:
    return timings[nth].work_s


def _total_s(_: Sequence[Timing], total: Some) -> Some:
    return total


def _blocks(plan: Plan, targets: list[Target]) -> Iterator[Wanted]:
    for nth, block in enumerate(plan.blocks):
        for target in [target for target in targets if target.about == block.id][:1]:
            places = adjustable(plan, (nth,))
            yield _wanted(target, places, partial(_block_s, nth))


def _wanted(target: Target, places: tuple[Place, ...], measure: Measure) -> Wanted:
    high = target.low if target.high is None else target.high
    return Wanted(target.about, target.low, high or 0.0, places, measure)


def total_goal(plan: Plan, seconds: float) -> Wanted:
    """The whole session, by the main work that no clock bounds."""
    free = [
        where
        for where in adjustable(plan)
        if plan.blocks[where[0]].kind in MAIN
        and isinstance(plan.blocks[where[0]].structure, ForTime | Sets | Quality)
    ]
    return Wanted("total", seconds, seconds, tuple(free), _total_s)


def rounds_of(plan: Plan, places: Sequence[Place]) -> tuple[Place, ...]:
    """The repeats around the places, outermost, whose rounds are one number."""
    found = {place[:2] for place in places if len(place) > 2}
    return tuple(sorted(w for w in found if isinstance(at(plan, w), Repeat)))
