"""How long the session or one block takes is said twice and does not agree."""

from collections.abc import Iterator, Sequence

from cuewright.check.leeway import apart
from cuewright.check.rule import Rule, union
from cuewright.check.sums import countable, stated_lengths
from cuewright.check.wording import span, spoken, subject
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
                    say=f"{spoken(about).capitalize()} takes … in all.",
                )
                return


RULE = Rule(
    code="total-said-twice",
    severity="error",
    question="Do two stated lengths of the same thing agree?",
    why="People plan their evening by the length they heard, and they hear only one of them.",
    fires=(
        "It's a fifty minute session, start to finish. Jog three minutes to warm up. Then "
        "four rounds for time: fifteen push-ups and a 200 metre run. So the lot of it, "
        "stretching counted, comes to an hour and a quarter.",
        "it's forty minutes today from hello to goodbye first we jog for four minutes to get "
        "warm then it's five rounds for time of ten burpees and twenty air squats and you'll be "
        "on your way home after an hour and a quarter",
    ),
    silent=(
        "About an hour for the whole lot. Skip two minutes to warm up. Then three rounds for "
        "time: twenty push-ups, twenty squats. All told you're looking at fifty-five minutes.",
        "The session is an hour. Jog three minutes to warm up. Then four rounds for time: ten "
        "burpees and a 200 metre run. I want the main piece done in 25 minutes.",
    ),
    leaves_alone=(
        "Lengths within a tenth or two minutes of each other, a fifth when one is called rough; "
        "wanted times of a piece; time caps."
    ),
    find=find,
)
