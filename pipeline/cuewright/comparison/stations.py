"""A plan as a flat list of efforts, each with where it stands and how often it is done."""

from collections.abc import Iterator
from dataclasses import dataclass

from cuewright_models.plan import Block, Effort, Intervals, Item, Ladder, Plan, Repeat, Rest, Slot


@dataclass(frozen=True, slots=True, eq=False)
class Station:
    """An effort: the ``at``-th of the plan, in the ``nth`` block, done ``low`` to ``high`` rounds.

    ``low`` and ``high`` are ``None`` where no number of rounds was said, or the clock decides.
    """

    effort: Effort
    block: Block
    nth: int
    at: int
    low: float | None
    high: float | None
    rungs: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class _Way:
    """What an effort inherits from what stands around it."""

    low: float | None = 1
    high: float | None = 1
    rungs: tuple[int, ...] = ()

    def into(self, item: Repeat | Ladder | Slot) -> "_Way":
        if isinstance(item, Ladder):
            return _Way(self.low, self.high, item.rungs)
        if isinstance(item, Repeat):
            low, high = item.times.low, item.times.high
            return _Way(_product(self.low, low), _product(self.high, high), self.rungs)
        return self


def _product(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one * other


def stations(plan: Plan) -> list[Station]:
    """Every effort of the plan in the order of performance."""
    out: list[Station] = []
    for nth, block in enumerate(plan.blocks):
        structure = block.structure
        times = structure.times if isinstance(structure, Intervals) else 1
        for effort, way in _efforts(block.items, _Way(times, times)):
            out.append(Station(effort, block, nth, len(out), way.low, way.high, way.rungs))
    return out


def _efforts(items: tuple[Item, ...], way: _Way) -> Iterator[tuple[Effort, _Way]]:
    for item in items:
        if isinstance(item, Effort):
            yield item, way
        elif not isinstance(item, Rest):
            yield from _efforts(item.items, way.into(item))
