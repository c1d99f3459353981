"""The work of an interval does not fit before the next one begins."""

from collections.abc import Iterator

from cuewright.check.fastest import least_s
from cuewright.check.modelled import answers, intervals, known, told_twice
from cuewright.check.rule import Rule, union
from cuewright.check.shares import tenths, told, up
from cuewright.check.wording import duration
from cuewright_models.estimate import BlockEstimate, BlockSeconds, Seconds
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, Every, Plan

HALF = 0.5


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for each block of intervals."""
    for block, answer in answers(plan):
        every_s = block.structure.every_s if isinstance(block.structure, Every) else None
        behind = answer.regular.behind
        if not every_s or behind is None or behind <= HALF or not known(plan, block):
            continue
        work = [items for items, _ in intervals(block, answer)]
        if work and not told_twice(block.items):
            yield _finding(block, answer, every_s, max(map(least_s, work)))


def _finding(block: Block, answer: BlockEstimate, every_s: float, least: float) -> Finding:
    who = told(_behind, answer)
    short = -(answer.regular.spare_s or 0.0)
    needed = up(every_s + short)
    return RULE.finding(
        block.id,
        f"In the fullest interval {who} are still at it when the next one begins; "
        f"{_spare(answer)}.",
        expected=f"work that fits in {duration(every_s)}",
        found=f"{duration(needed)} for the regular athlete",
        said=union(block.said),
        suggestion="Cut the work of the fullest interval, or let the intervals be longer.",
        severity="error" if least > every_s else None,
        say=f"A new one starts every {duration(needed)}.",
    )


def _behind(seconds: BlockSeconds | Seconds) -> str:
    return tenths(getattr(seconds, "behind", None) or 0.0)


def _spare(answer: BlockEstimate) -> str:
    """How much the middle newcomer, regular and advanced athlete have left or lack."""
    each = {
        "newcomer": answer.newcomer.spare_s,
        "regular": answer.regular.spare_s,
        "advanced": answer.advanced.spare_s,
    }
    return ", ".join(
        f"the middle {who} athlete {'has' if left >= 0 else 'lacks'} {duration(abs(left))}"
        for who, left in each.items()
        if left is not None
    )


RULE = Rule(
    code="interval-overfull",
    severity="warning",
    question="Does the work of each interval fit its interval?",
    why="Whoever is not done when the clock starts anew gets no rest and falls further behind.",
    fires=(
        "Every minute on the minute for ten minutes: 15 burpees and 15 air squats.",
        "Every ninety seconds, eight times: run 400 metres.",
    ),
    silent=(
        "Every minute on the minute for ten minutes: 8 burpees.",
        "Every minute for ten minutes, as many burpees as you can.",
    ),
    leaves_alone=(
        "Intervals that more than half of the regular athletes finish; work with an amount that "
        "was not said or a movement without a pace; blocks in which one movement stands "
        "twice, for one may be the other said again; work to the limit."
    ),
    find=find,
)
