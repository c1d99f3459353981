"""The time model inside every published range, and the table that says so."""

import pytest
import times
from sessions import block, plan, reps

from cuewright.estimate.crowd import middle
from cuewright.estimate.session import through


@pytest.mark.parametrize("check", times.CHECKS, ids=lambda check: check.what)
def test_ours_is_inside_the_published_range(check: times.Check) -> None:
    # Each source stands beside its range in tests/times.py.
    assert check.low * (1 - 1e-6) <= check.ours() <= check.high * (1 + 1e-6)


def test_the_table_is_current() -> None:
    assert times.TABLE.read_text("utf-8") == times.table(), "run python tests/times.py --write"


def test_push_ups_near_the_limit_are_broken_into_two_or_three() -> None:
    # A regular athlete breaks a set near the limit into two or three (common practice, no
    # source); 15 is what that athlete does before a break.
    def sets(count: int) -> float:
        (timing,), _ = through(plan(block("for-time", reps("push-up", count))), middle())
        return timing.parts[0].breaks[1, 0] + 1

    assert sets(14) == 1
    assert {sets(count) for count in (18, 20, 24, 26)} == {2, 3}
