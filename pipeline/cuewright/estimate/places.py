"""Where things stand in a plan, and the plan with one of them changed."""

from collections.abc import Iterator, Sequence
from typing import Any

from cuewright.estimate.blocks import Timing
from cuewright.estimate.timed import Timed
from cuewright_models.plan import Effort, Item, Plan, Rest

Place = tuple[int, ...]
"""A block's number, then the item's number in it, then in that, and so on."""


def within(plan: Plan, place: Place = ()) -> Iterator[tuple[Place, Item]]:
    """Every item below the place, in the order of performance, with where it stands."""
    if not place:
        for nth in range(len(plan.blocks)):
            yield from within(plan, (nth,))
        return
    for nth, item in enumerate(_inside(plan, place)):
        yield (*place, nth), item
        if not isinstance(item, Effort | Rest):
            yield from within(plan, (*place, nth))


def _inside(plan: Plan, place: Place) -> Sequence[Item]:
    items: Sequence[Item] = plan.blocks[place[0]].items
    for nth in place[1:]:
        item = items[nth]
        items = () if isinstance(item, Effort | Rest) else item.items
    return items


def at(plan: Plan, place: Place) -> Item:
    """The item that stands there."""
    return _inside(plan, place[:-1])[place[-1]]


def timed_at(timings: Sequence[Timing], place: Place) -> Timed:
    """What the item that stands there takes."""
    timed = timings[place[0]].parts[place[1]]
    for nth in place[2:]:
        timed = timed.parts[nth]
    return timed


def replaced(plan: Plan, place: Place, **fields: Any) -> Plan:
    """The plan with the fields of one item changed."""
    first, *rest = place
    block = plan.blocks[first]
    made = block.model_copy(update={"items": _replaced(block.items, rest, fields)})
    return plan.model_copy(update={"blocks": _at(plan.blocks, first, made)})


def _replaced(items: tuple[Any, ...], place: Sequence[int], fields: dict[str, Any]) -> Any:
    nth, *rest = place
    change = {"items": _replaced(items[nth].items, rest, fields)} if rest else fields
    return _at(items, nth, items[nth].model_copy(update=change))


def _at(things: tuple[Any, ...], nth: int, made: Any) -> tuple[Any, ...]:
    return (*things[:nth], made, *things[nth + 1 :])
