"""The assignment of rows to columns with the greatest sum."""

from collections.abc import Sequence
from math import inf


def assigned(worth: Sequence[Sequence[float]]) -> list[tuple[int, int]]:
    """Pairs of row and column, each at most once, whose worth has the greatest sum.

    A worth of 0 or less is no pair. The method is the Hungarian one with potentials
    (Kuhn 1955, Munkres 1957; this form from memory), cubic in the longer side.
    """
    if not worth or not worth[0]:
        return []
    size = max(len(worth), len(worth[0]))
    costs = [[0.0] * size for _ in range(size)]
    for at, row in enumerate(worth):
        for to, value in enumerate(row):
            costs[at][to] = -max(value, 0.0)
    owner = _owners(costs)
    pairs = ((row, column) for column, row in enumerate(owner))
    return sorted(
        (row, column)
        for row, column in pairs
        if row < len(worth) and column < len(worth[0]) and worth[row][column] > 0
    )


def _owners(costs: list[list[float]]) -> list[int]:
    """For each column the row that has it, at the least cost; rows come in one by one."""
    size = len(costs)
    rows, columns = [0.0] * (size + 1), [0.0] * (size + 1)
    owner = [size] * (size + 1)  # row ``size`` is nobody, column ``size`` the one that waits
    for row in range(size):
        owner[size] = row
        column, before = _path(costs, rows, columns, owner)
        while column != size:
            owner[column], column = owner[before[column]], before[column]
    return owner[:size]


def _path(
    costs: list[list[float]], rows: list[float], columns: list[float], owner: list[int]
) -> tuple[int, list[int]]:
    """The free column that costs least to reach, and for each column the one before it."""
    size = len(costs)
    best, before, done = [inf] * size, [size] * size, [False] * (size + 1)
    column = size
    while True:
        done[column] = True
        row = owner[column]
        for to in range(size):
            cost = costs[row][to] - rows[row] - columns[to]
            if not done[to] and cost < best[to]:
                best[to], before[to] = cost, column
        nearest = min((to for to in range(size) if not done[to]), key=best.__getitem__)
        step = best[nearest]
        for to in range(size + 1):
            if done[to]:
                rows[owner[to]] += step
                columns[to] -= step
            elif to < size:
                best[to] -= step
        column = nearest
        if owner[column] == size:
            return column, before
