"""Short ways to write a plan by hand in tests: ``plan(block("for-time", reps("burpee", 20)))``."""

from typing import Any

from cuewright_models.plan import Block, Effort, Item, Ladder, Plan, Repeat, Rest, Source


def effort(
    movement: str, unit: str, low: float | None, high: float | None = None, **fields: Any
) -> Effort:
    """``low`` to ``high`` of the unit; ``high`` is ``low`` unless given."""
    high = low if high is None else high
    return Effort(movement=movement, as_said=movement, unit=unit, low=low, high=high, **fields)


def reps(movement: str, low: float | None, high: float | None = None, **fields: Any) -> Effort:
    """So many of a movement."""
    return effort(movement, "reps", low, high, **fields)


def metres(movement: str, low: float, high: float | None = None) -> Effort:
    """So far."""
    return effort(movement, "m", low, high)


def held(movement: str, low: float, high: float | None = None, **fields: Any) -> Effort:
    """So many seconds."""
    return effort(movement, "s", low, high, **fields)


def rest(seconds: float) -> Rest:
    """Standing rest."""
    return Rest(low=seconds, high=seconds)


def repeat(times: float, *items: Item, rest_s: float | None = None) -> Repeat:
    """Rounds."""
    return Repeat(times={"low": times, "high": times}, items=items, rest_s=rest_s)


def ladder(rungs: tuple[int, ...], *items: Item) -> Ladder:
    """Rungs of the items."""
    return Ladder(rungs=rungs, items=items)


def block(
    structure: str, *items: Item, kind: str = "conditioning", id: str = "b1", **clock: Any
) -> Block:
    """A block under a structure with its clock."""
    return Block(id=id, kind=kind, structure={"kind": structure, **clock}, items=items)


def plan(*blocks: Block, **fields: Any) -> Plan:
    """A session."""
    return Plan(source=Source(name="talk", kind="text", sha256=""), blocks=blocks, **fields)
