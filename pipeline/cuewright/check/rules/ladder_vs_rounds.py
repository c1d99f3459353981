"""A rung list is longer or shorter than the stated number of rounds."""

from collections.abc import Iterator

from cuewright.check.leeway import apart
from cuewright.check.rule import Rule, union
from cuewright.check.sums import exactly, ladders, repeats
from cuewright.check.wording import amount, span
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, Claim, Ladder, Plan, Sets


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for each block whose single ladder differs from its stated rounds."""
    for block in plan.blocks:
        rungs = list(ladders(block.items))
        if len(rungs) != 1 or any(repeats(block.items)):
            continue
        claims = [claim for claim in plan.claims if _counts_rounds(claim, block)]
        wrong = [c for c in claims if apart(c, exactly(len(rungs[0].rungs)), "count")]
        if wrong:
            yield _finding(block, rungs[0], wrong)


def _counts_rounds(claim: Claim, block: Block) -> bool:
    if claim.about != block.id:
        return False
    return claim.kind == "rounds" or (claim.kind == "restated" and claim.unit == "rounds")


def _finding(block: Block, ladder: Ladder, wrong: list[Claim]) -> Finding:
    count, listed = len(ladder.rungs), ", ".join(map(str, ladder.rungs))
    turns = "sets" if isinstance(block.structure, Sets) else "rounds"
    return RULE.finding(
        block.id,
        f"{span(wrong[0], turns).capitalize()} are stated, but {listed} has {count} rungs.",
        expected=span(wrong[0], turns),
        found=f"{listed}: {count} {turns}",
        said=union(ladder.said or block.said, *(claim.said for claim in wrong)),
        suggestion=f"Add the missing rung, or correct the number of {turns}.",
        say=f"{listed}: that is {amount(count, turns)}.",
    )


RULE = Rule(
    code="ladder-vs-rounds",
    severity="error",
    question="Does a rung list have as many rungs as rounds or sets are stated?",
    why="A rung was forgotten, or the rounds were miscounted: the athlete cannot tell which.",
    fires=(
        "Jog two minutes to get warm. It's a ladder for time, four rounds: twenty-one, "
        "fifteen, nine. Thrusters and burpees.",
        "Jog three minutes. For time, swings and air squats: 25, 20, 15, 10, 5. So that's "
        "four rounds altogether.",
    ),
    silent=(
        "Jog two minutes to get warm. It's a ladder for time, three rounds: twenty-one, "
        "fifteen, nine. Thrusters and burpees.",
        "Warm-up: star jumps, one minute. For time, burpees and sit-ups: 18, 15, 12, 9. If "
        "that's too much, do two rounds less, so 12 and 9 and done.",
    ),
    leaves_alone="Ladders that are repeated, and blocks with more than one ladder.",
    find=find,
)
