"""The coach's own arithmetic: the total that was stated, and the targets multiplied out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cuewright.estimate.amounts import span, usable
from cuewright.estimate.blocks import interval_count
from cuewright_models.base import Range
from cuewright_models.estimate import FromTargets, StatedTotal
from cuewright_models.plan import (
    Amrap,
    Block,
    Effort,
    Every,
    Intervals,
    Item,
    Ladder,
    Plan,
    Repeat,
    Rest,
    Target,
    efforts,
)


def stated_total(plan: Plan) -> StatedTotal | None:
    """The session's stated length, from claims or else from targets for the total.

    The first statement and those that overlap it count. "Under an hour" starts at zero;
    "at least an hour" bounds nothing and is left out.
    """
    claims = [c for c in plan.claims if c.kind == "total-time" and c.about == "total"]
    targets = [t for t in plan.targets if t.about == "total" and t.unit == "s"]
    for statements in (claims, targets):
        bounds = [bound for said in statements if (bound := _bounds(said))]
        if bounds:
            return _agreeing(bounds)
    return None


def _bounds(said: Range) -> tuple[float, float] | None:
    if usable(said.high) is None:
        return None
    return span(said.low or 0.0, said.high)


def _agreeing(bounds: Sequence[tuple[float, float]]) -> StatedTotal:
    first = bounds[0]
    agree = [b for b in bounds if b[0] <= first[1] and b[1] >= first[0]]
    return StatedTotal(low_s=min(b[0] for b in agree), high_s=max(b[1] for b in agree))


@dataclass(frozen=True, slots=True)
class Sum:
    """Seconds from targets; ``used`` when any target went in, ``complete`` when nothing
    was left out for want of one."""

    low: float = 0.0
    high: float = 0.0
    used: bool = False
    complete: bool = True

    def plus(self, other: "Sum") -> "Sum":
        """Both, one after the other."""
        return Sum(
            self.low + other.low,
            self.high + other.high,
            self.used or other.used,
            self.complete and other.complete,
        )

    def times(self, low: float, high: float) -> "Sum":
        """This, ``low`` to ``high`` times over."""
        return Sum(self.low * low, self.high * high, self.used, self.complete)


MISSING = Sum(complete=False)
MAIN = {"skill", "strength", "conditioning", "accessory"}  # what "a round" may be about


def from_targets(plan: Plan) -> FromTargets | None:
    """Rounds x station targets, with the prescribed rests and timed work between them.

    A target about a round stands in where its stations have none; one about a block
    stands for the block. Blocks without any target add nothing and leave the sum
    incomplete. ``None`` when no target in seconds is about the work.
    """
    targets = _Targets(plan)
    total = Sum()
    for block in plan.blocks:
        added = targets.block(block)
        incomplete = Sum(complete=not any(efforts(block.items)))
        total = total.plus(added if added.used else incomplete)
    if not total.used:
        return None
    return FromTargets(low_s=total.low, high_s=total.high, complete=total.complete)


class _Targets:
    """The plan's targets in seconds, handed out as its efforts come by.

    Where a movement has as many targets as places in the plan, each place takes its
    own, in order; otherwise all take the first.
    """

    def __init__(self, plan: Plan) -> None:
        self.by_about: dict[str, list[Sum]] = {}
        for target in plan.targets:
            if target.unit == "s" and (sum_ := _target(target)):
                self.by_about.setdefault(target.about, []).append(sum_)
        everywhere = [e.movement for block in plan.blocks for e in efforts(block.items)]
        self.own_each = {
            about: len(found) > 1 and len(found) == everywhere.count(about)
            for about, found in self.by_about.items()
        }
        self.seen: dict[str, int] = {}

    def find(self, about: str) -> Sum | None:
        """The target about a movement, a round or a block, as the next place takes it."""
        found = self.by_about.get(about)
        if not found:
            return None
        place = self.seen.get(about, 0)
        self.seen[about] = place + 1
        return found[place] if self.own_each[about] else found[0]

    def block(self, block: Block) -> Sum:
        """The block's seconds from its targets, or from its clock if it has one."""
        inside = self.items(block.items, by_round=block.kind in MAIN)
        whole = self.find(block.id)
        if whole is not None:
            return whole
        clock = _clock(block)
        if clock is not None:
            return Sum(clock, clock, inside.used)
        if isinstance(block.structure, Amrap | Every | Intervals):
            return Sum(used=inside.used, complete=False)
        return inside

    def items(self, items: Iterable[Item], *, by_round: bool) -> Sum:
        """The items one after the other; ``by_round`` lets a round's target stand in."""
        total = Sum()
        for item in items:
            total = total.plus(self.item(item, by_round=by_round))
        return total

    def item(self, item: Item, *, by_round: bool) -> Sum:
        """One item, repeats and rungs multiplied out."""
        if isinstance(item, Effort):
            return self.effort(item)
        if isinstance(item, Rest):
            return _spanned(item.low, item.high) or Sum()
        inside = self.items(item.items, by_round=by_round)
        if isinstance(item, Repeat):
            a_round = self.find("round") if by_round and not inside.complete else None
            return _repeated(item, a_round or inside)
        rungs = len(item.rungs) if isinstance(item, Ladder) else 0
        return inside.times(rungs, rungs) if rungs else inside

    def effort(self, effort: Effort) -> Sum:
        """The station's target, or its own seconds when it is timed."""
        target = self.find(effort.movement)
        if target is not None:
            return target
        held = _spanned(effort.low, effort.high) if effort.unit == "s" else None
        sides = 2 if effort.per_side else 1
        return held.times(sides, sides) if held else MISSING


def _repeated(repeat: Repeat, a_round: Sum) -> Sum:
    """All rounds, with the prescribed rest between them."""
    times = _spanned(repeat.times.low, repeat.times.high) or Sum(1, 1)
    rest_s = usable(repeat.rest_s) or 0.0
    rests = Sum(rest_s * max(times.low - 1, 0), rest_s * max(times.high - 1, 0))
    return a_round.times(times.low, times.high).plus(rests)


def _spanned(low: float | None, high: float | None) -> Sum | None:
    ends = span(low, high)
    return Sum(*ends) if ends else None


def _target(target: Target) -> Sum | None:
    """The target as a sum: "under two minutes" is 0 to 120, "at least two" counts as two."""
    if target.low is None and target.high is not None:
        return Sum(0.0, usable(target.high) or 0.0, used=True)
    span = _spanned(target.low, target.high)
    return Sum(span.low, span.high, used=True) if span else None


def _clock(block: Block) -> float | None:
    shape = block.structure
    if isinstance(shape, Amrap):
        return usable(shape.duration_s)
    if isinstance(shape, Every):
        times, every_s = interval_count(shape), usable(shape.every_s)
        return None if times is None or every_s is None else times * every_s
    return None
