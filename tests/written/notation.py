"""A plan's work in one short line a block, to be compared and read by people.

conditioning for-time 480: run 400 m; 3x(burpee 12, row 15-20 kcal) rest 60; ladder 21-15-9(...)
"""

from collections.abc import Iterable

from cuewright_models.base import tidy
from cuewright_models.plan import (
    Amrap,
    Block,
    Effort,
    Every,
    ForTime,
    Intervals,
    Item,
    Ladder,
    Load,
    Plan,
    Repeat,
    Rest,
    Sets,
)


def blocks(plan: Plan) -> list[str]:
    """One line for each block."""
    return [f"{block.kind} {_structure(block)}: {_items(block.items)}" for block in plan.blocks]


def _structure(block: Block) -> str:
    match block.structure:
        case ForTime(cap_s=cap):
            return "for-time" if cap is None else f"for-time {tidy(cap)}"
        case Amrap(duration_s=long):
            return f"amrap {_number(long)}"
        case Every(every_s=every, times=times):
            return f"every {_number(every)} x{times}"
        case Intervals(work_s=work, rest_s=rest, times=times):
            return f"intervals {_number(work)}/{_number(rest)} x{times}"
        case Sets(rest_s=rest):
            return "sets" if rest is None else f"sets rest {tidy(rest)}"
    return "quality"


def _items(items: Iterable[Item]) -> str:
    return ", ".join(map(_item, items))


def _item(item: Item) -> str:
    match item:
        case Rest():
            return f"rest {tidy(item.low)}"
        case Repeat():
            rest = "" if item.rest_s is None else f" rest {tidy(item.rest_s)}"
            return f"{_range(item.times.low, item.times.high)}x({_items(item.items)}){rest}"
        case Ladder():
            return f"{'-'.join(map(str, item.rungs))}({_items(item.items)})"
        case Effort():
            return _effort(item)
    return f"#{item.index}({_items(item.items)})"


def _effort(effort: Effort) -> str:
    amount = "max" if effort.max else _range(effort.low, effort.high)
    unit = "" if effort.unit in ("reps", "none") else effort.unit
    words = (effort.movement, amount, unit, "each" if effort.per_side else "", _loads(effort.load))
    other = "".join(f" or {name}" for name in effort.alternatives)
    return " ".join(filter(None, words)) + other


def _loads(loads: tuple[Load, ...]) -> str:
    return " ".join(f"@{_range(x.low, x.high)}{x.unit}{(x.who or '')[:1]}" for x in loads)


def _range(low: float | None, high: float | None) -> str:
    if low is None:
        return ""
    return _number(low) if low == high or high is None else f"{tidy(low)}-{tidy(high)}"


def _number(value: float | None) -> str:
    return "?" if value is None else str(tidy(value))
