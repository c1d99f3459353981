"""What even the best on record cannot beat: the floor under every time."""

from collections.abc import Iterable
from functools import cache

from pydantic import Field

from cuewright.check.wording import duration
from cuewright.movements.catalogue import catalogue
from cuewright.paces.rates import pace_row, record_s
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.finding import Severity
from cuewright_models.plan import Effort, Item, Ladder, Repeat, Rest


class Floor(Value):
    """A row of fastest.toml: seconds for ``each`` of the unit."""

    name: str
    each: float = Field(gt=0)
    source: str = Field(min_length=1)


@cache
def _floors(unit: str) -> dict[str, Floor]:
    return validated(raw("cuewright.check", "fastest.toml")[unit], Floor, where="fastest.toml")


def beyond(least: float, limit_s: float) -> tuple[Severity | None, str]:
    """An error, and a sentence that says why, where not even the records keep to the limit."""
    if least <= limit_s:
        return None, ""
    return "error", f" Not even records are faster than {duration(least)}."


def least_s(items: Iterable[Item]) -> float:
    """Seconds that nobody beats for the items one after the other; ways cost nothing."""
    return sum(map(_item_s, items))


def _item_s(item: Item) -> float:
    if isinstance(item, Effort):
        return fastest_s(item, item.low)
    if isinstance(item, Rest):
        return item.low
    if isinstance(item, Ladder):
        return sum(_rung_s(item, rung) for rung in item.rungs)
    inside = least_s(item.items)
    if not isinstance(item, Repeat):
        return inside
    rounds = item.times.low or 1
    return rounds * inside + max(rounds - 1, 0) * (item.rest_s or 0)


def _rung_s(ladder: Ladder, rung: int) -> float:
    """One rung; an effort without an amount of its own takes the rung's."""
    bare = [e for e in ladder.items if isinstance(e, Effort) and e.low is None and not e.max]
    others = [item for item in ladder.items if item not in bare]
    return least_s(others) + sum(fastest_s(effort, rung) for effort in bare)


def fastest_s(effort: Effort, amount: float | None) -> float:
    """Seconds that nobody beats for the amount, one side counted; 0 where nothing is known.

    Timed work takes its time. Facts: fastest.toml, and the records of pace.toml.
    """
    if amount is None or effort.unit == "none":
        return 0.0
    if effort.unit == "s":
        return amount
    row = pace_row(effort.movement)
    if effort.unit == "m" and row and row.records:
        return record_s(row, amount)
    return amount * _each(effort.movement, effort.unit)


def _each(name: str, unit: str) -> float:
    rows, movement = _floors(unit), catalogue().get(name)
    patterns = movement.patterns if movement else ()
    return max([rows[p].each for p in patterns if p in rows], default=rows["any"].each)
