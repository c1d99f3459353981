"""A one-sided movement with no "each side", and a number that does not share out."""

from collections.abc import Iterator

from cuewright.check.care import worst_first
from cuewright.check.leeway import speaks_of, words
from cuewright.check.rule import Rule, union
from cuewright.check.sums import session_efforts
from cuewright.check.wording import listed, sentence, span
from cuewright.movements.catalogue import catalogue
from cuewright_models.base import Evidence, Range, Said
from cuewright_models.finding import Finding
from cuewright_models.plan import Advice, Cue, Effort, Option, Plan

FEW = 2
"""Below this nothing is shared out."""


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for the session."""
    told = [effort for effort in session_efforts(plan) if effort.per_side]
    bare = [each for each in session_efforts(plan) if _one_sided(each) and not each.per_side]
    bare = [each for each in bare if _unshared(each, told) and not _sides_told(each, plan)]
    if bare:
        yield _finding(bare, told)


def _one_sided(effort: Effort) -> bool:
    row = catalogue().get(effort.movement)
    return bool(row and row.one_sided) and effort.movement not in words("both-at-once")


def _unshared(effort: Effort, told: list[Effort]) -> bool:
    """Whether a reader must ask: an odd number, or one beside others told for each side.

    The second only of what is not done left and right in turn.
    """
    if effort.unit != "reps" or effort.low != effort.high or (effort.low or 0) < FEW:
        return False
    in_turn = effort.movement in words("alternating")
    return (effort.low or 0) % 2 == 1 or (bool(told) and not in_turn)


def _sides_told(effort: Effort, plan: Plan) -> bool:
    """Whether any words about it speak of sides."""
    told: list[Cue | Advice | Option] = [*plan.cues, *plan.advice, *plan.options]
    spoken = [each.said for each in told if each.about == effort.movement]
    return any(speaks_of("side", said) for said in (*spoken, _beside_its_name(effort)))


def _beside_its_name(effort: Effort) -> Evidence:
    """The quotes without the name, which has words for sides of its own: "single-leg"."""
    name = effort.as_said.strip(" ,.;:?!")
    return tuple(Said(quote=said.quote.replace(name, "")) for said in effort.said)


def _finding(bare: list[Effort], told: list[Effort]) -> Finding:
    about = worst_first(effort.movement for effort in bare)
    first = next(effort for effort in bare if effort.movement == about[0])
    number = span(Range(low=first.low, high=first.high), first.unit)
    return RULE.finding(
        first.movement,
        f"{sentence(listed(about))}: nobody can tell whether the number is for each side or both.",
        expected='"each side", or an even number for both together',
        found=f"{number} of {first.movement.replace('-', ' ')}, no side said",
        said=union(*(effort.said for effort in bare), *(effort.said for effort in told[:1])),
        suggestion="Say each side, or how many on the left and how many on the right.",
        say=f"{sentence(number)} of {first.movement.replace('-', ' ')} on each side.",
    )


RULE = Rule(
    code="side-missing",
    severity="note",
    question="Is it clear whether a one-sided movement is counted for each side?",
    why="It is twice the work, and twice the time, one way.",
    fires=(
        "Jog two minutes. Main piece, four rounds for time: seven single-leg deadlifts, ten "
        "push-ups, twenty squats.",
    ),
    silent=(
        "Jog two minutes. Main piece, four rounds for time: seven single-leg deadlifts on each "
        "leg, ten push-ups, twenty squats.",
        "Jog two minutes. Main piece, five rounds for time: 8 pistol squats, 14 sit-ups, 200 "
        "metre run.",
        "Warm-up, jog two minutes. Main piece, four rounds for time: eleven curtsy lunges, ten "
        "burpees, twenty sit-ups. Technique. Curtsy lunges: long step behind you, and swap legs "
        "every rep.",
    ),
    leaves_alone=(
        "Even numbers of what is done left and right in turn; even numbers of anything where "
        "nothing else is told for each side; times and distances; one of anything."
    ),
    find=find,
)
