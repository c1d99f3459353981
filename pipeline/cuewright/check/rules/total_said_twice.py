"""How long the session or one block takes is said twice and does not agree."""

from collections.abc import Iterator, Sequence

from cuewright.check.leeway import apart
from cuewright.check.rule import Rule, union
from cuewright.check.sums import countable, stated_lengths
from cuewright.check.wording import span, subject
from cuewright_models.finding import Finding
from cuewright_models.plan import Amrap, Block, Claim, Plan, StatedTime


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for the session, one for each block with two lengths."""
    totals = [claim for claim in plan.claims if claim.kind == "total-time"]
    yield from _disagree("total", [c for c in totals if c.about == "total"], "session-time")
    stated = stated_lengths(plan)
    for block in plan.blocks:
        yield from _disagree(block.id, (*_clock(block), *stated[block.id]), "block-time")


def _clock(block: Block) -> tuple[StatedTime, ...]:
    """What the clock of an open-ended block was set to; it is a length as any other."""
    structure = block.structure
    if not isinstance(structure, Amrap) or not countable(structure.duration_s):
        return ()
    return (StatedTime(low=structure.duration_s, high=structure.duration_s, said=block.said),)


def _disagree(about: str, stated: Sequence[Claim | StatedTime], leeway: str) -> Iterator[Finding]:
    for position, first in enumerate(stated):
        for second in stated[position + 1 :]:
            said = union(first.said, second.said)
            if apart(first, second, leeway, said):
                one, other = span(first, "s"), span(second, "s")
                yield RULE.finding(
                    about,
                    f"{subject(about)} is said to take {one}, and elsewhere {other}.",
                    expected=one,
                    found=other,
                    said=union(*(each.said for each in stated)),
                    suggestion="Keep the length that is right and correct the other.",
                )
                return


RULE = Rule(
    code="total-said-twice",
    severity="error",
    question="Do two stated lengths of the same thing agree?",
    why="People plan their evening by the length they heard, and they hear only one of them.",
    fires=(
        "It's a fifty minute session, start to finish. … All in, it's an hour and a quarter.",
        "That block is twelve minutes. … So that's twenty minutes on the ergs.",
    ),
    silent=(
        "It's about an hour. … You'll be done in fifty-five minutes.",
        "The session is an hour. … I want the main piece done in 25 minutes.",
    ),
    leaves_alone=(
        "Lengths within a tenth or two minutes of each other, a fifth when one is called rough; "
        "wanted times of a piece; time caps."
    ),
    find=find,
)
