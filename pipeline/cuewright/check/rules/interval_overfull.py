"""The work of an interval does not fit before the next one begins."""

from collections.abc import Iterator

from cuewright.check.fastest import beyond, least_s
from cuewright.check.modelled import answers, intervals, known, told_twice
from cuewright.check.rule import Rule, union
from cuewright.check.shares import spoken, tenths, told, up
from cuewright.check.wording import duration
from cuewright_models.estimate import BlockEstimate, BlockSeconds, ItemEstimate, Seconds
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, Effort, Every, Item, Plan

HALF = 0.5  # common practice, no source: of the regular athletes, and of an interval

Work = list[tuple[tuple[Item, ...], tuple[ItemEstimate, ...]]]


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for each block of intervals."""
    for block, answer in answers(plan):
        every_s = block.structure.every_s if isinstance(block.structure, Every) else None
        behind = answer.regular.behind
        if not every_s or behind is None or behind <= HALF or not known(plan, block):
            continue
        work = intervals(block, answer)
        if work and not told_twice(block.items) and not _timed(block, every_s):
            yield _finding(block, answer, every_s, work)


def _timed(block: Block, every_s: float) -> bool:
    """Whether timed work takes half of every interval or more: as likely it stands alone."""
    timed = (e for e in block.items if isinstance(e, Effort) and e.unit == "s")
    return any(e.low is not None and e.low >= HALF * every_s for e in timed)


def _finding(block: Block, answer: BlockEstimate, every_s: float, work: Work) -> Finding:
    who = told(_behind, answer)
    highs = (sum(part.regular.high_s for part in parts) for _, parts in work)
    likely = every_s - (answer.regular.spare_s or 0.0)
    enough = spoken(up(max(likely, *highs, every_s)))
    severity, why = beyond(max(least_s(items) for items, _ in work), every_s)
    return RULE.finding(
        block.id,
        f"In the fullest interval {who} are still at it when the next one begins; "
        f"{_spare(answer)}.{why}",
        expected=f"work that fits in {duration(every_s)}",
        found=f"{duration(up(likely))} for the middle regular athlete",
        said=union(block.said),
        suggestion="Cut the work of the fullest interval, or let the intervals be longer.",
        severity=severity,
        say=f"A new one starts every {enough}.",
    )


def _behind(seconds: BlockSeconds | Seconds) -> str:
    return tenths(getattr(seconds, "behind", None) or 0.0)


def _spare(answer: BlockEstimate) -> str:
    """What the middle athlete of each profile has left or lacks."""
    each = {
        "newcomer": answer.newcomer.spare_s,
        "regular athlete": answer.regular.spare_s,
        "advanced athlete": answer.advanced.spare_s,
    }
    return ", ".join(
        f"the middle {who} {'has' if left >= 0 else 'lacks'} {duration(abs(left))}"
        for who, left in each.items()
        if left is not None
    )


RULE = Rule(
    code="interval-overfull",
    severity="warning",
    question="Does the work of each interval fit its interval?",
    why="Whoever is not done when the clock starts anew gets no rest and falls further behind.",
    fires=(
        "Warm-up, jog two minutes. Every minute on the minute for ten minutes: 15 burpees and"
        " 15 air squats.",
        "Warm-up, jog two minutes. Every ninety seconds, eight times: run 400 metres.",
    ),
    silent=(
        "Warm-up, jog two minutes. Every minute on the minute for ten minutes: eight burpees.",
        "Warm-up, jog two minutes. Every minute on the minute for ten minutes, as many "
        "burpees as you can.",
    ),
    leaves_alone=(
        "Intervals that more than half of the regular athletes finish; work with an amount that "
        "was not said or a movement without a pace; blocks in which one movement stands "
        "twice, for one may be the other said again; work timed "
        "to half of every interval or more, which may stand alone; work to the limit."
    ),
    find=find,
)
