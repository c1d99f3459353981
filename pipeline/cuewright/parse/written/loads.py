"""Weights written as a pair, "24/16 kg": the heavier for men, the lighter for women.

Common practice, no source.
"""

from collections.abc import Iterator, Sequence

from cuewright_models.plan import Block, Effort, Item, Load, Rest
from cuewright_models.tokens import Reading

_Ends = tuple[float, float]


def parted(blocks: Sequence[Block], reading: Reading) -> tuple[Block, ...]:
    """The blocks with a load for each of a written pair."""
    pairs = {
        (min(amount.values), max(amount.values))
        for amount in reading.amounts
        if amount.shape == "pair" and len(amount.values) == 2
    }
    return tuple(
        block.model_copy(update={"items": tuple(_parted(item, pairs) for item in block.items)})
        for block in blocks
    )


def _parted(item: Item, pairs: set[_Ends]) -> Item:
    if isinstance(item, Rest):
        return item
    if isinstance(item, Effort):
        loads = tuple(each for load in item.load for each in _each(load, pairs))
        return item.model_copy(update={"load": loads})
    return item.model_copy(update={"items": tuple(_parted(inner, pairs) for inner in item.items)})


def _each(load: Load, pairs: set[_Ends]) -> Iterator[Load]:
    if load.who is not None or load.low == load.high or (load.low, load.high) not in pairs:
        yield load
        return
    yield load.model_copy(update={"low": load.high, "who": "men"})
    yield load.model_copy(update={"high": load.low, "who": "women"})
