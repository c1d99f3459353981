"""How long each rule takes on one plan, warm: median and worst over the talks, in milliseconds.

    python tests/bench/rules.py

The plans are those of every talk of tests/corpus and tests/talks, and of the talk of 1,100
words of speed.py, whose column is the one that the limit is about.
"""

import statistics
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parents[1]))

from accuracy.robustness import talks
from bench.speed import ONE_TALK, captions

from cuewright.check import RULES, check
from cuewright.flow import plan_of, read_plan
from cuewright_models.plan import Plan

TIMES = 40


def milliseconds(work: Callable[[], object]) -> float:
    """Median of a run, after one that is not counted."""
    work()
    took = []
    for _ in range(TIMES):
        start = perf_counter()
        work()
        took.append(1000 * (perf_counter() - start))
    return statistics.median(took)


def plans() -> tuple[Plan, list[Plan]]:
    """The plan of the long talk, and those of both sets of talks."""
    with TemporaryDirectory() as made:
        talk = Path(made) / "talk.vtt"
        talk.write_text(captions(ONE_TALK), "utf-8")
        return read_plan(talk), [plan_of(talk.heard) for talk in talks()]


def main() -> None:
    long, others = plans()
    every: dict[str, Callable[[Plan], object]] = {"all rules": check}
    for rule in RULES:
        every[rule.code] = lambda plan, rule=rule: list(rule.find(plan))
    print(
        f"{'':22}{f'{ONE_TALK:,} words':>12}{'median':>9}{'worst':>9}  of {len(others)} talks, ms"
    )
    for name, work in every.items():
        took = [milliseconds(lambda plan=plan, work=work: work(plan)) for plan in others]
        whole = milliseconds(lambda work=work: work(long))
        print(f"{name:22}{whole:12.3f}{statistics.median(took):9.3f}{max(took):9.3f}", flush=True)


if __name__ == "__main__":
    main()
