"""Which effort of a description is which of the talk, whatever the order of the lines."""

from collections.abc import Sequence
from typing import NamedTuple

from cuewright.comparison.assign import assigned
from cuewright.comparison.equal import same, sided
from cuewright.comparison.kin import KIN, likeness
from cuewright.comparison.stations import Station

_GROUP = {"warm-up": 0, "mobility": 0, "cool-down": 2}
_AMOUNT, _UNIT, _PLACE, _ROUNDS, _DRIFT = 4.0, 1.0, 2.0, 1.0, 2.0
"""What else speaks for a pair, and how much a different place in the session against it."""


class Pair(NamedTuple):
    """An effort of the talk and the one of the description that says it."""

    talk: Station
    other: Station


class Alignment(NamedTuple):
    """What was paired, and what of either side has no partner."""

    pairs: tuple[Pair, ...]
    missing: tuple[Station, ...]
    extra: tuple[Station, ...]


def aligned(talk: Sequence[Station], other: Sequence[Station]) -> Alignment:
    """The pairs that are most alike in sum, in the order of the talk."""
    worth = [[_worth(a, b, len(talk), len(other)) for b in other] for a in talk]
    pairs = [(row, column) for rows, columns in _parts(worth) for row, column in _best(
        worth, rows, columns)]  # fmt: skip
    rows, columns = {row for row, _ in pairs}, {column for _, column in pairs}
    return Alignment(
        tuple(Pair(talk[row], other[column]) for row, column in sorted(pairs)),
        tuple(station for station in talk if station.at not in rows),
        tuple(station for station in other if station.at not in columns),
    )


def _worth(one: Station, two: Station, many: int, others: int) -> float:
    """How well two efforts fit; kin alone, with another amount, are two things."""
    movement = likeness(one.effort, two.effort)
    much = one.rungs == two.rungs if one.rungs or two.rungs else sided(one.effort, two.effort)
    place = _GROUP.get(one.block.kind, 1) == _GROUP.get(two.block.kind, 1)
    if not movement or (movement == KIN and not (much and place)):
        return 0.0
    drift = abs(one.at / many - two.at / others)
    unit = one.effort.unit == two.effort.unit
    rounds = same(one.low, two.low, "reps")
    more = _AMOUNT * much + _UNIT * unit + _PLACE * place + _ROUNDS * rounds - _DRIFT * drift
    return movement + more


def _parts(worth: Sequence[Sequence[float]]) -> list[tuple[list[int], list[int]]]:
    """Rows and columns that have to do with each other; most movements stand once."""
    parts: list[tuple[list[int], list[int]]] = []
    for row, values in enumerate(worth):
        columns = {column for column, value in enumerate(values) if value > 0}
        touching = [part for part in parts if columns.intersection(part[1])]
        parts = [part for part in parts if part not in touching]
        rows = [row, *(r for part in touching for r in part[0])]
        columns.update(c for part in touching for c in part[1])
        parts.append((sorted(rows), sorted(columns)))
    return parts


def _best(
    worth: Sequence[Sequence[float]], rows: list[int], columns: list[int]
) -> list[tuple[int, int]]:
    small = [[worth[row][column] for column in columns] for row in rows]
    return [(rows[row], columns[column]) for row, column in assigned(small)]
