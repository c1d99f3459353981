"""Hard work is prescribed and no warm-up is, here or elsewhere."""

from collections.abc import Iterator
from itertools import takewhile

from cuewright.check.preparing import PREPARES, clocked, elsewhere
from cuewright.check.rule import Rule, union
from cuewright.movements.catalogue import catalogue
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, Effort, Item, Plan, Repeat, efforts

MOBILE = {"mobility", "stretch"}
EASY = {"jog", "march", "walk"}


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for the session."""
    hard = [block for block in plan.blocks if _is_hard(block)]
    if hard and not _prepared(plan, hard[0]):
        yield RULE.finding(
            "total",
            "The session has hard work and no warm-up, and sends nobody to one elsewhere.",
            expected="a warm-up before the hard work",
            found=f"hard work in {', '.join(block.id for block in hard)}, no warm-up",
            said=union(*(block.said for block in hard))[::-1],
            suggestion="Add five to ten easy minutes that rehearse the movements to come.",
            say="Warm up first: five to ten easy minutes of the movements to come.",
        )


def _is_hard(block: Block) -> bool:
    if block.kind == "strength":
        return any(effort.load for effort in efforts(block.items))
    return clocked(block)


def _prepared(plan: Plan, hard: Block) -> bool:
    here = any(block.kind in PREPARES for block in plan.blocks)
    return here or elsewhere(plan) or _starts_easy(hard)


def _starts_easy(block: Block) -> bool:
    """Whether a block opens easily, so the warm-up was told as part of it.

    With a mobility drill, or with a drill or a jog once before rounds of something else.
    """
    first = next(efforts(block.items), None)
    if first is not None and _mobile(first):
        return True
    rounds = any(isinstance(item, Repeat) for item in block.items)
    once = [item for item in takewhile(_is_effort, block.items) if isinstance(item, Effort)]
    return rounds and any(each.movement in EASY or _mobile(each) for each in once)


def _is_effort(item: Item) -> bool:
    return isinstance(item, Effort)


def _mobile(effort: Effort) -> bool:
    row = catalogue().get(effort.movement)
    return row is not None and set(row.patterns) <= MOBILE


RULE = Rule(
    code="warm-up-missing",
    severity="note",
    question="Does a session with hard work prescribe or mention a warm-up?",
    why="Five to ten easy minutes first are usual practice (ACSM guidelines, from memory).",
    fires=(
        "Right, straight in: three rounds for time, twenty push-ups, fifteen squats, ten "
        "burpees. That's all there is.",
        "clock's running every minute on the minute for ten minutes fifteen kettlebell swings",
    ),
    silent=(
        "Three minutes of easy jogging to warm up. Then three rounds for time: twenty push- "
        "ups, fifteen squats.",
        "After your usual warm-up: three rounds for time, twenty push-ups, fifteen squats, "
        "ten burpees.",
        "Nothing hard today. Three easy rounds at your own pace: ten sit-ups, ten glute "
        "bridges, a minute of child's pose.",
    ),
    leaves_alone=(
        "Easy sessions, strength without load, and talks that send the athlete to a warm-up "
        "elsewhere; a first block that opens with a mobility drill or an easy jog; whether the "
        "warm-up fits the work is not asked here."
    ),
    find=find,
)
