"""A movement of the main piece gets no cue although most of the others do."""

from collections.abc import Iterator

from cuewright.check.care import care, worst_first
from cuewright.check.kinship import related
from cuewright.check.mentions import last_word, mentioned
from cuewright.check.rule import Rule, union
from cuewright.check.sums import work_blocks
from cuewright.check.wording import listed, sentence
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, Effort, Plan, efforts

COACHED = 2
"""So many other movements of the piece, and at least half of all, must be coached."""


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding, about the movement that wants most care."""
    bare = [each for block in work_blocks(plan) for each in _bare(block, plan)]
    if bare:
        yield _finding(plan, bare)


def _bare(block: Block, plan: Plan) -> list[Effort]:
    """The efforts that want a cue and have none, in a piece that is coached."""
    if block.kind == "skill":  # coached on the spot
        return []
    work = [effort for effort in efforts(block.items) if effort.known]
    coached = {effort.movement for effort in work if _coached(effort, plan)}
    if len(coached) < COACHED or len(coached) * 2 < len({effort.movement for effort in work}):
        return []
    bare = [each for each in work if each.movement not in coached and _wants_cue(each.movement)]
    quotes = [*(cue.said for cue in plan.cues), *(advice.said for advice in plan.advice)]
    return [effort for effort in bare if not mentioned(effort, quotes, coached)]


def _coached(effort: Effort, plan: Plan) -> bool:
    """Coached as such, or under a name that is near it."""
    spoken = {cue.about for cue in plan.cues}
    last = last_word(effort.movement)
    return bool(related(effort.movement) & spoken or {last_word(s) for s in spoken} & {last} - {""})


def _wants_cue(name: str) -> bool:
    """A jump, or skill; what anyone can pick up and carry is left out for good reason."""
    found = care(name)
    return found is not None and found.name != "load"


def _finding(plan: Plan, bare: list[Effort]) -> Finding:
    about = worst_first(effort.movement for effort in bare)
    beside = [cue for cue in plan.cues if _near(cue.about, bare, plan)] or plan.cues
    first, several = about[0].replace("-", " "), len(about) > 1
    return RULE.finding(
        about[0],
        f"{sentence(listed(about))} {'get' if several else 'gets'} no cue, "
        "and most of the movements beside get one.",
        expected="a point of performance, as the others have",
        found=f"none for {listed(about)}",
        said=union(*(effort.said for effort in bare), beside[0].said),
        suggestion="Say the one thing to hold on to in each that has no cue.",
        say=f"On the {first}, …",
    )


def _near(about: str, bare: list[Effort], plan: Plan) -> bool:
    """Whether it stands in a block with one that has no cue."""
    work = [tuple(efforts(block.items)) for block in work_blocks(plan)]
    blocks = [each for each in work if any(effort in bare for effort in each)]
    spoken = related(about)
    return any(effort.movement in spoken for each in blocks for effort in each)


RULE = Rule(
    code="work-without-cue",
    severity="note",
    question="Is every movement of a coached piece coached?",
    why="Athletes take it that what is not spoken of needs no care.",
    fires=(
        "Jog two minutes. Main piece, three rounds for time: ten thrusters, fifteen push-ups, "
        "twelve kettlebell swings, 200 metre run. Points of performance. Thrusters, elbows "
        "high, drive through your heels. Push-ups, elbows in, body in one line.",
    ),
    silent=(
        "Jog two minutes. Main piece, three rounds for time: ten thrusters, fifteen push-ups, "
        "twelve kettlebell swings. Points of performance. Thrusters, elbows high, drive through "
        "your heels. Push-ups, elbows in, body in one line. Swings, snap your hips.",
        "Jog two minutes. Main piece, three rounds for time: ten deadlifts, ten burpees, ten "
        "pull-ups.",
    ),
    leaves_alone=(
        "Pieces in which fewer than two movements, or fewer than half, are coached; warm-ups, "
        "cool-downs and skill work; movements without jump or skill to them; movements "
        "coached under a name that is near theirs."
    ),
    find=find,
)
