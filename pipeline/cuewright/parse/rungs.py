"""Rungs: whether numbers are a ladder, and the rung of one that was lost or changed places."""

from collections.abc import Sequence
from itertools import pairwise

_TOP = 5
"""The highest rung of a ladder is at least so high."""
_SURE = 4
"""Rungs from which even steps show where one is missing."""
_MOST = 60
"""From here a number is no rung."""


def is_ladder(rungs: Sequence[float]) -> bool:
    """Whether rungs rise, fall, or rise and fall again, high enough to be worked."""
    if len(rungs) < 3 or max(rungs) < _TOP:
        return False
    rises = [after > before for before, after in pairwise(rungs)]
    turns = [after for before, after in pairwise(rises) if before != after]
    level = any(before == after for before, after in pairwise(rungs))
    return not level and turns in ([], [False])


def in_order(values: Sequence[float]) -> tuple[float, ...]:
    """The rungs, with two neighbours put back where that alone makes the steps even."""
    given = tuple(values)
    if len(given) < _SURE or len(_steps(given)) == 1:
        return given
    for at in range(len(given) - 1):
        tried = (*given[:at], given[at + 1], given[at], *given[at + 2 :])
        if len({b - a for a, b in pairwise(tried)}) == 1:
            return tried
    return given


def _steps(rungs: Sequence[float]) -> set[float]:
    """How far the rungs are apart."""
    return {abs(after - before) for before, after in pairwise(rungs)}


def completed(rungs: Sequence[int]) -> tuple[int, ...]:
    """The rungs with one put in where all steps are even but one of twice the size."""
    given = tuple(rungs)
    steps = [abs(after - before) for before, after in pairwise(given)]
    if len(given) < _SURE or max(given) >= _MOST or not is_ladder(given):
        return given
    step = min(steps)
    if sorted(steps) != [step] * (len(steps) - 1) + [2 * step]:
        return given
    at = steps.index(2 * step)
    return (*given[: at + 1], (given[at] + given[at + 1]) // 2, *given[at + 1 :])
