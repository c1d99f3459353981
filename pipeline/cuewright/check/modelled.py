"""The plan beside its estimate: what the time model knows of each block and effort."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from cuewright.check.sums import Done, done
from cuewright_models.base import Said
from cuewright_models.estimate import BlockEstimate, ItemEstimate
from cuewright_models.plan import (
    Amrap,
    Block,
    Effort,
    Every,
    Intervals,
    Item,
    Plan,
    Rest,
    Slot,
    efforts,
)


class Station(NamedTuple):
    """An effort, how often it is done, and the seconds of one go."""

    block: Block
    done: Done
    seconds: ItemEstimate
    known: bool
    """Whether the seconds come from an amount that was said and a pace that is known."""


def answers(plan: Plan) -> Iterator[tuple[Block, BlockEstimate]]:
    """Every block with its estimate; none where there is no estimate."""
    if plan.estimate is not None:
        yield from zip(plan.blocks, plan.estimate.blocks, strict=True)


def stations(plan: Plan) -> Iterator[Station]:
    """Every effort of the plan with its estimate; rungs of a ladder differ, so are not known."""
    for block, answer in answers(plan):
        goes = zip(done(block), _flat(block.items, answer.items), strict=True)
        for each, seconds in goes:
            said = each.amount is not None and each.effort.low is not None
            yield Station(block, each, seconds, said and paced(plan, each.effort))


def _flat(items: Sequence[Item], answer: Iterable[ItemEstimate]) -> Iterator[ItemEstimate]:
    for item, seconds in zip(items, answer, strict=True):
        if isinstance(item, Effort):
            yield seconds
        elif not isinstance(item, Rest):
            yield from _flat(item.items, seconds.items)


def paced(plan: Plan, effort: Effort) -> bool:
    """Whether the effort has a unit, and the model a pace for it."""
    unknown = plan.estimate.unknown_pace if plan.estimate else ()
    return effort.unit != "none" and effort.movement not in unknown


def known(plan: Plan, block: Block) -> bool:
    """Whether every effort of the block has an amount and a pace; a ladder's have its rungs."""
    each = list(done(block))
    return bool(each) and all(d.amount is not None and paced(plan, d.effort) for d in each)


def quickest_s(answer: BlockEstimate) -> float:
    """What one in ten advanced athletes stay under; as if there were no cap, which leaves
    out the ways between the items."""
    return max(answer.advanced.low_s, sum(part.advanced.low_s for part in answer.items))


def clocked(block: Block) -> bool:
    """Whether the block's own clock says how long it takes."""
    shape = block.structure
    if isinstance(shape, Amrap):
        return shape.duration_s is not None
    if isinstance(shape, Every):
        return shape.every_s is not None and (shape.times or shape.duration_s) is not None
    return isinstance(shape, Intervals) and shape.work_s is not None and shape.times is not None


def intervals(
    block: Block, answer: BlockEstimate
) -> list[tuple[tuple[Item, ...], tuple[ItemEstimate, ...]]]:
    """The work of each interval of an ``every`` block; none where slots and others mix."""
    found = [isinstance(item, Slot) for item in block.items]
    if not any(found):
        return [(block.items, answer.items)]
    pairs = zip(block.items, answer.items, strict=True)
    slots = [(item.items, part.items) for item, part in pairs if isinstance(item, Slot)]
    return slots if all(found) else []


def told_twice(items: tuple[Item, ...]) -> bool:
    """Whether a movement stands twice in the items, so that one may be the other again."""
    names = [effort.movement for effort in efforts(items)]
    return len(set(names)) < len(names)


def not_understood(plan: Plan, block: Block) -> bool:
    """Whether words inside the block look like work and are in no table."""
    return any(
        _inside(word, place) for u in plan.unknown for word in u.said for place in block.said
    )


def _inside(word: Said, place: Said) -> bool:
    if word.start_s is None or place.start_s is None or place.end_s is None:
        return word.quote in place.quote
    return place.start_s <= word.start_s <= place.end_s
