"""How long the time model takes: processor time of this process, warm, median of many.

    python tests/bench/draws.py

The session has five blocks; each draw is an athlete of each of the three profiles. The second
table shows how the time grows with items and draws.
"""

import statistics
import sys
from collections.abc import Callable
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from sessions import block, held, metres, plan, repeat, reps

from cuewright.estimate import estimate

FIVE_BLOCKS = plan(
    block("quality", repeat(2, reps("air-squat", 10), reps("inchworm", 5)), kind="warm-up"),
    block("sets", repeat(5, reps("back-squat", 5)), kind="strength", id="b2", rest_s=120),
    block(
        "for-time",
        metres("run", 800),
        repeat(4, reps("burpee", 12), reps("kettlebell-swing", 15), metres("row", 250)),
        metres("run", 400),
        id="b3",
        cap_s=1500,
    ),
    block("every", reps("pull-up", 5), reps("push-up", 10), id="b4", every_s=60, times=10),
    block("quality", held("walk", 120), held("pigeon-stretch", 45), kind="cool-down", id="b5"),
)
DRAWS = (1_000, 10_000, 20_000)
NAMES = ("air-squat", "push-up", "sit-up", "kettlebell-swing", "burpee", "wall-ball", "box-jump")


def milliseconds(work: Callable[[], object], times: int = 25) -> float:
    """Median processor time of a run, after one that is not counted."""
    work()
    took = []
    for _ in range(times):
        start = process_time()
        work()
        took.append(1000 * (process_time() - start))
    return statistics.median(took)


def main() -> None:
    for draws in (1_000, 10_000, 30_000):
        took = milliseconds(lambda draws=draws: estimate(FIVE_BLOCKS, draws=draws))
        print(f"five blocks, {draws:6,} draws of three profiles {took:8.1f} ms")
    print("\nitems  1,000 draws  10,000 draws  20,000 draws, ms")
    for items in (10, 20, 40, 80):
        work = (reps(NAMES[nth % len(NAMES)], 12) for nth in range(items))
        long = plan(block("for-time", *work))
        row = (milliseconds(lambda n=n, of=long: estimate(of, draws=n)) for n in DRAWS)
        print(f"{items:5}" + "".join(f"{took:13.1f}" for took in row))


if __name__ == "__main__":
    main()
