"""Questions about a plan: another pace, another amount, without another talk."""

import re
from collections.abc import Callable, Iterable
from typing import Any

from cuewright.errors import CuewrightError
from cuewright.estimate.athletes import Given
from cuewright.estimate.effort import unit_of
from cuewright.movements.page import UnknownMovement, named
from cuewright.paces.rates import UNITS, rate
from cuewright_models.plan import Block, Effort, Item, Plan, Repeat, Rest, efforts

_UNIT = re.compile(r"(?P<count>[0-9]+(?:\.[0-9]+)?)? ?(?P<unit>km|mi|mile|m|rep|kcal|cal)s?")
_METRES = {"km": 1000.0, "mi": 1609.344, "mile": 1609.344, "m": 1.0}
_CLOCK = re.compile(
    r"(?:(?P<hours>[0-9]{1,2}):(?=[0-9]+:))?(?:(?P<minutes>[0-9]{1,3}):)?"
    r"(?P<seconds>[0-9]{1,5}(?:\.[0-9]{1,3})?)"
)
_MOST_ROUNDS = 1000


class BadQuestion(CuewrightError):
    """A pace or an amount that cannot be asked for."""


def paces_of(asked: Iterable[str], plan: Plan) -> dict[Given, float]:
    """Paces such as ``run=5:00/km``: seconds for 100 m, a rep or a kcal of a movement.

    Raises BadQuestion for what is no pace, for one faster than anybody, and for a movement
    that the plan does not have in that unit.
    """
    return dict(_pace(text, plan) for text in asked)


def _pace(text: str, plan: Plan) -> tuple[Given, float]:
    what, _, much = text.partition("=")
    time, _, per = much.partition("/")
    seconds, unit = _seconds(time), _UNIT.fullmatch(per.strip())
    if not what or seconds is None or unit is None:
        raise BadQuestion(
            f"{text!r} is no pace; give one such as run=5:00/km, row=2:05/500m or push-up=1.5/rep."
        )
    name, kind, many = _movement(what, plan), _kind(unit["unit"]), float(unit["count"] or 1)
    if kind == "m":
        many *= _METRES[unit["unit"]] / 100
    if not seconds or not many:
        raise BadQuestion(f"{text!r} is a pace of nothing; give a time above zero.")
    _check_used(name, kind, plan, text)
    _check_limit(name, kind, seconds / many)
    return (name, kind), seconds / many


def _kind(unit: str) -> str:
    return {"rep": "reps", "kcal": "kcal", "cal": "kcal"}.get(unit, "m")


def _movement(what: str, plan: Plan) -> str:
    """The movement's name in the plan: as it stands there, or as the catalogue has it."""
    there = {e.movement for block in plan.blocks for e in efforts(block.items)}
    try:
        return what if what in there else named(what).name
    except UnknownMovement as error:
        raise BadQuestion(str(error)) from None


def _check_used(name: str, kind: str, plan: Plan, text: str) -> None:
    units = {
        _rate_unit(e) for block in plan.blocks for e in efforts(block.items) if e.movement == name
    }
    if not units:
        raise BadQuestion(f"There is no {name} in this session, so {text} changes nothing.")
    if kind not in units:
        told = " and ".join(UNITS.get(unit, unit) for unit in sorted(units))
        raise BadQuestion(f"The {name} of this session goes by the {told}; give a pace for that.")


def _rate_unit(effort: Effort) -> str:
    """The unit that the effort's pace is for."""
    unit = unit_of(effort)
    known = rate(effort.movement, unit)
    return known.unit if known else unit


def _check_limit(name: str, kind: str, seconds: float) -> None:
    known = rate(name, kind)
    if known and seconds < known.limit:
        raise BadQuestion(
            f"{seconds:.3g} s a {UNITS[kind]} is faster than anybody does {name} "
            f"({known.limit:.3g} s); give a slower pace."
        )


def _seconds(text: str) -> float | None:
    """``1:30`` or ``90`` as seconds."""
    found = _CLOCK.fullmatch(text.strip())
    if found is None:
        return None
    hours, minutes = float(found["hours"] or 0), float(found["minutes"] or 0)
    return 3600 * hours + 60 * minutes + float(found["seconds"])


def changed(plan: Plan, asked: Iterable[str]) -> Plan:
    """The plan with amounts such as ``b3.rounds=4`` or ``b2.burpee=10`` in place of its own.

    Raises BadQuestion for a block or a thing in it that the plan does not have, and for an
    amount that cannot be.
    """
    for text in asked:
        plan = _set(plan, text)
    return plan


def _set(plan: Plan, text: str) -> Plan:
    found = re.fullmatch(r"([^.=]+)\.([^=]+)=(.+)", text)
    if not found:
        raise BadQuestion(f"{text!r} changes nothing; give an amount such as b3.rounds=4.")
    where, what, much = (part.strip() for part in found.groups())
    blocks = [block.id for block in plan.blocks]
    if where not in blocks:
        told = f"its blocks are {', '.join(blocks)}" if blocks else "it has none"
        raise BadQuestion(f"There is no block {where:.40} in this plan; {told}.")
    value = _seconds(much)
    if value is None or value <= 0:
        raise BadQuestion(f"{text!r}: {much:.40} is no amount; give a number above zero.")
    made = tuple(_block(b, what, value, text) if b.id == where else b for b in plan.blocks)
    return plan.model_copy(update={"blocks": made})


_FIELDS = {
    "rounds": "times",
    "cap": "cap_s",
    "rest": "rest_s",
    "work": "work_s",
    "every": "every_s",
    "duration": "duration_s",
}
"""What a block's structure has, by the name it is asked for."""


def _block(block: Block, what: str, value: float, text: str) -> Block:
    if what == "rounds" and (value != int(value) or value > _MOST_ROUNDS):
        raise BadQuestion(f"{text!r}: rounds are whole, {_MOST_ROUNDS} at most.")
    field = _FIELDS.get(what)
    if field and field in type(block.structure).model_fields:
        number = int(value) if field == "times" else value
        shape = block.structure.model_copy(update={field: number})
        return block.model_copy(update={"structure": shape})
    if what == "rounds":
        return _changed(block, text, _is_repeat, {"times": {"low": value, "high": value}})
    if what == "rest":
        return _changed(block, text, _is_repeat, {"rest_s": value})
    if field:
        raise BadQuestion(f"Block {block.id} has no {what}, so {text} changes nothing.")
    name = _named_in(block, what)
    amount = {"low": value, "high": value, "max": False}
    return _changed(block, text, lambda item: _is_of(item, name), amount)


def _is_repeat(item: Item) -> bool:
    return isinstance(item, Repeat)


def _is_of(item: Item, name: str) -> bool:
    return isinstance(item, Effort) and item.movement == name


def _named_in(block: Block, what: str) -> str:
    if any(effort.movement == what for effort in efforts(block.items)):
        return what
    try:
        return named(what).name
    except UnknownMovement as error:
        raise BadQuestion(str(error)) from None


def _changed(
    block: Block, text: str, wanted: Callable[[Item], bool], fields: dict[str, Any]
) -> Block:
    """The block with the fields changed in every item that is wanted."""
    items = tuple(_within(item, wanted, fields) for item in block.items)
    if items == block.items and not any(map(wanted, _all(block.items))):
        raise BadQuestion(f"Block {block.id} has nothing that {text} would change.")
    return block.model_copy(update={"items": items})


def _within(item: Item, wanted: Callable[[Item], bool], fields: dict[str, Any]) -> Item:
    if wanted(item):
        return type(item).model_validate(item.model_dump() | fields)
    if isinstance(item, Effort | Rest):
        return item
    return item.model_copy(
        update={"items": tuple(_within(one, wanted, fields) for one in item.items)}
    )


def _all(items: Iterable[Item]) -> Iterable[Item]:
    for item in items:
        yield item
        if not isinstance(item, Effort | Rest):
            yield from _all(item.items)
