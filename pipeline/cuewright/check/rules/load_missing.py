"""A loaded movement with no load, and no word on how to choose one."""

from collections.abc import Iterator

from cuewright.check.care import worst_first
from cuewright.check.leeway import speaks_of
from cuewright.check.mentions import mentioned
from cuewright.check.rule import Rule, union
from cuewright.check.sums import session_efforts, work_blocks
from cuewright.check.wording import listed, sentence
from cuewright.movements.catalogue import catalogue
from cuewright_models.finding import Finding
from cuewright_models.movement import Movement
from cuewright_models.plan import Advice, Block, Cue, Effort, Option, Plan, Target, efforts

BAR = "barbell"
HANDS = {"dumbbell", "kettlebell"}
LIFT = 2
"""The skill from which a load held in the hands matters enough to ask."""
EFFORT = {"rpe", "%"}


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding, about the movement that wants most care."""
    blocks = [block for block in work_blocks(plan) if block.kind != "skill"]
    loaded = [effort for effort in session_efforts(plan) if effort.load]
    bare = [e for block in blocks for e in efforts(block.items) if _bare(e, block, plan, loaded)]
    if bare:
        yield _finding(bare, loaded)


def _bare(effort: Effort, block: Block, plan: Plan, loaded: list[Effort]) -> bool:
    """Whether a load is missed: others were told, or it is a lift with the bar in sets."""
    row = catalogue().get(effort.movement)
    if row is None or "loaded" not in row.flags or effort.load or not _chosen(row):
        return False
    if not loaded and not (BAR in row.kit and block.structure.kind == "sets"):
        return False
    return not _same_kit(effort, block, loaded) and not _guided(effort, block, plan)


def _chosen(row: Movement) -> bool:
    """Whether the load has to be chosen: a bar, or a lift of some skill."""
    return BAR in row.kit or (row.skill >= LIFT and not HANDS.isdisjoint(row.kit))


def _same_kit(effort: Effort, block: Block, loaded: list[Effort]) -> bool:
    """Whether a load told beside will be taken for this too: one bell for all, one bar here."""
    here = tuple(efforts(block.items))
    kit = set(catalogue()[effort.movement].kit)
    for other in loaded:
        row = catalogue().get(other.movement)
        shared = kit & set(row.kit if row else ())
        if other.movement == effort.movement or (shared and (other in here or BAR not in shared)):
            return True
    return False


def _guided(effort: Effort, block: Block, plan: Plan) -> bool:
    """Whether something said of it, its block or all helps to choose."""
    topics = {effort.movement, *effort.alternatives, block.id, "total", "round"}
    if any(target.about in topics and target.unit in EFFORT for target in plan.targets):
        return True
    options = [option for option in plan.options if option.about in topics]
    if any(option.kind == "lighter" for option in options):
        return True
    told: list[Advice | Cue | Option | Target] = [*plan.advice, *plan.cues, *plan.options]
    told += plan.targets
    kit = [claim.said for claim in plan.claims if claim.kind == "equipment"]
    near = [e.said for e in told if e.about in topics or mentioned(effort, [e.said])]
    return any(speaks_of("load", said) for said in (effort.said, block.said, *near, *kit))


def _finding(bare: list[Effort], loaded: list[Effort]) -> Finding:
    about = worst_first(effort.movement for effort in bare)
    first, several = about[0].replace("-", " "), len(about) > 1
    return RULE.finding(
        about[0],
        f"{sentence(listed(about))} {'have' if several else 'has'} no load, "
        "and no word on how to choose one.",
        expected="a load, a share of a best, or how heavy it should feel",
        found=f"none for {listed(about)}",
        said=union(*(effort.said for effort in bare), *(effort.said for effort in loaded[:1])),
        suggestion="Say a load for each, or what it should feel like.",
        say=f"For the {first}, take … kilos.",
    )


RULE = Rule(
    code="load-missing",
    severity="note",
    question="Is there a load, or a way to choose one, for everything that is loaded?",
    why="Half the room takes too much, and the piece is another one for them.",
    fires=(
        "Jog two minutes. Strength: five sets of five back squats, two minutes rest.",
        "Jog two minutes. Strength: front squats, five sets of three at 60 kilos. Accessory, "
        "three sets: twelve hip thrusts, ninety seconds between.",
    ),
    silent=(
        "Jog two minutes. Strength: five sets of five back squats at 70 kilos, two minutes rest.",
        "Jog two minutes. Strength: front squats, five sets of three at 60 kilos. Accessory, "
        "three sets: twelve hip thrusts, ninety seconds between. On the hip thrusts, pick a "
        "weight that leaves two reps in the tank.",
        "Jog three minutes. Main piece, four rounds for time: ten kettlebell swings, ten goblet "
        "squats, two hundred metre run.",
    ),
    leaves_alone=(
        "Sessions in which no load is told, other than sets with the barbell; kit that has a "
        "load elsewhere; skill work and warm-ups; what is scaled lighter."
    ),
    find=find,
)
