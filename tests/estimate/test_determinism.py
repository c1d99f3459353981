"""The same plan gives the same bytes, in any process."""

import os
import subprocess
import sys

import pytest
from sessions import block, metres, plan, repeat, reps

from cuewright.estimate import estimate

SESSION = plan(
    block("quality", repeat(2, reps("air-squat", 10), reps("inchworm", 5)), kind="warm-up"),
    block("for-time", metres("run", 800), repeat(4, reps("burpee", 12), reps("oar-twirl", 9))),
)
PROGRAM = """
import sys
from cuewright.estimate import estimate
from cuewright_models.plan import Plan
print(estimate(Plan.model_validate_json(sys.stdin.read())).model_dump_json())
"""


@pytest.mark.parametrize("seed", ["1", "2"])
def test_another_process_gives_the_same_bytes(seed: str) -> None:
    answered = subprocess.run(
        [sys.executable, "-c", PROGRAM],
        input=SESSION.model_dump_json(),
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONHASHSEED": seed},
    )
    assert answered.stdout.splitlines() == [estimate(SESSION).model_dump_json()]


def test_another_seed_gives_other_draws_of_the_same_athletes() -> None:
    ours, other = estimate(SESSION), estimate(SESSION, seed=1)
    assert (other.basis.seed, other.basis.draws) == (1, 10_000)
    assert other.total != ours.total
    assert other.total.regular.likely_s == pytest.approx(ours.total.regular.likely_s, rel=0.02)
    assert other.total.regular.high_s == pytest.approx(ours.total.regular.high_s, rel=0.02)


def test_one_more_movement_leaves_the_draws_of_the_others_as_they_were() -> None:
    alone = estimate(plan(SESSION.blocks[0])).blocks[0]
    assert estimate(SESSION).blocks[0] == alone
