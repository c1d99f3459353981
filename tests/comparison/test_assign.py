"""The assignment is the best of all, by trying all."""

from itertools import permutations

from hypothesis import given
from hypothesis import strategies as st

from cuewright.comparison.assign import assigned

TABLES = st.integers(1, 4).flatmap(
    lambda width: st.lists(
        st.lists(st.integers(-3, 9), min_size=width, max_size=width), min_size=1, max_size=4
    )
)


@given(TABLES)
def test_no_other_assignment_is_worth_more(worth: list[list[int]]) -> None:
    pairs = assigned(worth)
    size = max(len(worth), len(worth[0]))
    whole = [
        [max(0, worth[r][c]) if r < len(worth) and c < len(worth[0]) else 0 for c in range(size)]
        for r in range(size)
    ]
    best = max(sum(whole[r][c] for r, c in enumerate(way)) for way in permutations(range(size)))
    assert sum(worth[row][column] for row, column in pairs) == best


@given(TABLES)
def test_nothing_is_assigned_twice_or_for_nothing(worth: list[list[int]]) -> None:
    pairs = assigned(worth)
    assert len({row for row, _ in pairs}) == len(pairs) == len({column for _, column in pairs})
    assert all(worth[row][column] > 0 for row, column in pairs)


def test_nothing_has_no_pairs() -> None:
    assert assigned([]) == assigned([[]]) == []
