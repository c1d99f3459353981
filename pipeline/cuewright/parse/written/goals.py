"""A written list of targets: what each line is about, a colon, and what is wanted of it."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from cuewright.parse.build import Quote
from cuewright.parse.names import Names
from cuewright.parse.written.labels import about, colon
from cuewright.parse.written.lines import Stated
from cuewright_models.plan import Block, Target
from cuewright_models.tokens import Amount, Reading, norm_at, starting_in

_UNITS = {"set": "sets", "sets": "sets", "round": "rounds", "rounds": "rounds"}
_EFFORT = ("effort", "rpe", "feel", "intensity")
_BEFORE = 3
"""Tokens before a mark out of ten in which effort is named, at most."""


class _Wanted(NamedTuple):
    unit: str
    low: float | None
    high: float | None


def with_listed(
    told: Sequence[Target],
    lines: Sequence[Stated],
    reading: Reading,
    names: Names,
    blocks: Sequence[Block],
    quote: Quote,
) -> tuple[Target, ...]:
    """The targets of a list as its lines have them; those ``told`` where there is no list."""
    found: list[Target] = []
    for said in lines:
        subject = about(said, reading, names, blocks)
        if subject is not None:
            place = quote(said.start, said.end)
            found += [
                Target.model_validate({"about": subject, "said": (place,), **wanted._asdict()})
                for wanted in _figures(said, reading)
            ]
    return tuple(found) or tuple(told)


def _figures(said: Stated, reading: Reading) -> Iterator[_Wanted]:
    """Every amount after the colon, with its unit as targets have it."""
    start = colon(said, reading) or said.end
    for amount in starting_in(reading.amounts, start, said.end):
        unit = _unit(amount, reading)
        if unit is not None:
            yield _Wanted(unit, amount.low, amount.high)


def _unit(amount: Amount, reading: Reading) -> str | None:
    if amount.unit == "s":
        return "s"
    if amount.unit == "%":
        return "%"
    if amount.unit is not None:
        return None
    if norm_at(reading.tokens, amount.start - 1) == "of":
        return None  # "effort 7 of 10"
    after = norm_at(reading.tokens, amount.end)
    before = {norm_at(reading.tokens, at) for at in range(amount.start - _BEFORE, amount.start)}
    if after in _UNITS:
        return _UNITS[after]
    return "rpe" if not before.isdisjoint(_EFFORT) else None
