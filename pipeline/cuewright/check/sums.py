"""Arithmetic on a plan: how often each effort is done, and what the work adds up to."""

from collections.abc import Iterator
from typing import NamedTuple

from cuewright_models.base import Range
from cuewright_models.plan import (
    Amrap,
    Block,
    Claim,
    Effort,
    Every,
    Intervals,
    Item,
    Ladder,
    Plan,
    Repeat,
    Rest,
    Slot,
    StatedTime,
    efforts,
)

TOO_MANY = 1e9  # the models take any number; beyond this it is no amount of work
ONCE = Range(low=1, high=1)
EASY = {"warm-up", "mobility", "cool-down"}


class Done(NamedTuple):
    """An effort with its amount and how often the session asks for it; ``None`` is unknown."""

    effort: Effort
    amount: Range | None
    times: Range | None

    @property
    def total(self) -> Range | None:
        """Amount times rounds, one side counted."""
        return product(self.amount, self.times)


def exactly(number: float) -> Range:
    """A range of one number."""
    return Range(low=number, high=number)


def countable(number: float | None) -> float | None:
    """The number if it can be reckoned with: said, and of a size that a plan can hold."""
    return number if number is not None and abs(number) < TOO_MANY else None


def product(one: Range | None, other: Range | None) -> Range | None:
    """End by end; ``None`` when any end is open."""
    if one is None or other is None:
        return None
    if one.low is None or one.high is None or other.low is None or other.high is None:
        return None
    return Range(low=one.low * other.low, high=one.high * other.high)


def work_blocks(plan: Plan) -> tuple[Block, ...]:
    """The blocks that are neither preparation nor winding down."""
    return tuple(block for block in plan.blocks if block.kind not in EASY)


def stated_lengths(plan: Plan) -> dict[str, tuple[StatedTime | Claim, ...]]:
    """Every time that the coach said how long a block takes, by the block's id."""
    found: dict[str, list[StatedTime | Claim]] = {b.id: [*b.stated_time] for b in plan.blocks}
    for claim in plan.claims:
        if claim.kind == "total-time" and claim.about in found:
            found[claim.about].append(claim)
    return {block: tuple(lengths) for block, lengths in found.items()}


def session_efforts(plan: Plan) -> Iterator[Effort]:
    """Every effort of the session, repeats not multiplied."""
    for block in plan.blocks:
        yield from efforts(block.items)


def done(block: Block) -> Iterator[Done]:
    """Every effort of a block with the number of times it is done."""
    yield from _walk(block.items, _outer(block))


def _outer(block: Block) -> Range | None:
    structure = block.structure
    if isinstance(structure, Amrap):
        return None
    if not isinstance(structure, (Every, Intervals)):
        return ONCE
    times = countable(structure.times)
    return exactly(times / slots(block)) if times else None


def slots(block: Block) -> int:
    """How many different intervals an ``every`` block cycles through."""
    return max([1, *(item.index for item in block.items if isinstance(item, Slot))])


def _walk(items: tuple[Item, ...], times: Range | None) -> Iterator[Done]:
    for item in items:
        if isinstance(item, Effort):
            yield Done(item, _amount(item), times)
        elif isinstance(item, Repeat):
            yield from _walk(item.items, product(times, item.times))
        elif isinstance(item, Ladder):
            yield from _climb(item, times)
        elif isinstance(item, Slot):
            yield from _walk(item.items, times)


def _climb(ladder: Ladder, times: Range | None) -> Iterator[Done]:
    rungs = exactly(len(ladder.rungs))
    for each in _walk(ladder.items, times):
        if each.effort.low is None and each.effort.unit == "reps" and not each.effort.max:
            total = countable(sum(ladder.rungs))
            yield each._replace(amount=None if total is None else exactly(total))
        else:
            yield each._replace(times=product(times, rungs))


def _amount(effort: Effort) -> Range | None:
    if effort.max or effort.low is None or effort.high is None:
        return None
    return Range(low=effort.low, high=effort.high)


def repeats(items: tuple[Item, ...]) -> Iterator[Repeat]:
    """Every repeat below ``items``, outer ones first."""
    for item in items:
        if isinstance(item, Repeat):
            yield item
        if not isinstance(item, (Effort, Rest)):
            yield from repeats(item.items)


def ladders(items: tuple[Item, ...]) -> Iterator[Ladder]:
    """Every ladder below ``items``."""
    for item in items:
        if isinstance(item, Ladder):
            yield item
        if not isinstance(item, (Effort, Rest)):
            yield from ladders(item.items)
