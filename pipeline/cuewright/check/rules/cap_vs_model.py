"""A time cap that nobody meets, or everybody by far."""

from collections.abc import Iterator
from math import ceil

from cuewright.check.fastest import beyond, least_s
from cuewright.check.leeway import apart
from cuewright.check.modelled import answers, known, not_understood, quickest_s
from cuewright.check.rule import Rule, union
from cuewright.check.shares import takes, tenths, told, up
from cuewright.check.sums import exactly
from cuewright.check.wording import duration
from cuewright_models.estimate import BlockEstimate
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, ForTime, Plan

FEW = 0.1  # of the advanced inside the cap: nobody, for a coach
BY_FAR = 0.5  # of the cap, in which nine in ten newcomers are done
# both: common practice, no source


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for each block with a cap."""
    for block, answer in answers(plan):
        shape = block.structure
        cap = shape.cap_s if isinstance(shape, ForTime) else None
        if not cap or answer.advanced.finish is None or not known(plan, block):
            continue
        if answer.advanced.finish < FEW and _clearly(cap, quickest_s(answer)):
            yield _nobody(block, answer, cap)
        elif _clearly(answer.newcomer.high_s, BY_FAR * cap) and not _more_to_it(plan, block):
            yield _everybody(block, answer, cap)


def _clearly(less: float, more: float) -> bool:
    """Whether the one is less, and by more than the model may be out."""
    return less < more and apart(exactly(less), exactly(more), "model")


def _more_to_it(plan: Plan, block: Block) -> bool:
    """Whether the coach says how long the piece takes, and so means the cap as a far end, or
    words were not understood, which may have been work."""
    about = {block.id, "total", "round"}
    targets = any(target.about in about and target.unit == "s" for target in plan.targets)
    claims = any(claim.kind == "total-time" and claim.about == block.id for claim in plan.claims)
    return targets or claims or bool(block.stated_time) or not_understood(plan, block)


def _nobody(block: Block, answer: BlockEstimate, cap: float) -> Finding:
    severity, why = beyond(least_s(block.items), cap)
    who = told(lambda seconds: tenths(getattr(seconds, "finish", None) or 0.0), answer)
    return RULE.finding(
        block.id,
        f"The cap is {duration(cap)}, and {who} finish inside it.{why}",
        expected=f"a cap of {duration(cap)}",
        found=f"{tenths(answer.advanced.finish or 0.0)} advanced athletes inside it",
        said=union(block.said),
        suggestion="Raise the cap, or cut the work so that some finish.",
        severity=severity,
        say="The cap is … minutes; stop there wherever you are.",
    )


def _everybody(block: Block, answer: BlockEstimate, cap: float) -> Finding:
    needs, slowest = takes(answer), up(answer.newcomer.high_s)
    return RULE.finding(
        block.id,
        f"The cap is {duration(cap)}, and nine in ten newcomers are done in {duration(slowest)}.",
        expected=f"a cap of {duration(cap)}",
        found=f"{needs} for most regular athletes",
        said=union(block.said),
        suggestion="Lower the cap to what the slowest need, or check that all the work was said.",
        say=f"The cap is {ceil(slowest / 60)} minutes.",
    )


RULE = Rule(
    code="cap-vs-model",
    severity="warning",
    question="Is the time cap one that some meet and that ends the work for others?",
    why="A cap that nobody meets is no finish line, and one that all meet by far ends nothing.",
    fires=(
        "Warm-up, jog two minutes. For time, 100 burpees, then a five kilometre run, with a "
        "cap of ten minutes.",
        "Warm-up, jog two minutes. For time, ten burpees and ten air squats, with a cap of 20"
        " minutes.",
    ),
    silent=(
        "Warm-up, jog two minutes. Five rounds for time: 400 metre run, 15 burpees. There's a"
        " cap of 25 minutes.",
        "Warm-up, jog two minutes. For time, ten burpees and ten air squats, with a cap of 20"
        " minutes. I want you done with the whole piece in two minutes.",
    ),
    leaves_alone=(
        "Caps that one in ten of the advanced meet, or would if they were a seventh quicker; "
        "generous caps of a piece whose time the coach says too, or in which some words were not "
        "understood; amounts that were not said and movements without a pace."
    ),
    find=find,
)
