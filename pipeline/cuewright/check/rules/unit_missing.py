"""A number with no unit, of a movement that nobody counts in repetitions."""

from collections.abc import Iterator

from cuewright.check.leeway import speaks_of
from cuewright.check.rule import Rule, union
from cuewright.check.wording import listed, sentence
from cuewright.movements.catalogue import catalogue
from cuewright_models.base import tidy
from cuewright_models.finding import Finding
from cuewright_models.plan import Effort, Plan, efforts

UNITS = {"m": "metres", "kcal": "calories", "s": "seconds"}
FEW = 5
"""Below this a number counts times: "two runs"."""


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for the session."""
    bare = [
        effort
        for block in plan.blocks
        if not speaks_of("counted", block.said)
        for effort in efforts(block.items)
        if _bare(effort)
    ]
    if bare:
        yield _finding(bare)


def _bare(effort: Effort) -> bool:
    row = catalogue().get(effort.movement)
    if row is None or "reps" in row.counted_in or effort.unit not in ("reps", "none"):
        return False
    if effort.low is None or effort.low < FEW or effort.per_side or effort.max:
        return False
    return _told_with_it(effort) and not _counted(effort)


def _told_with_it(effort: Effort) -> bool:
    """Whether the quote has name and number, so that neither was carried over from elsewhere."""
    heard = " ".join(said.quote for said in effort.said).lower()
    name = effort.as_said.lower().strip(" ,.;:?!")
    return name in heard and len(heard.split()) > len(name.split())


def _counted(effort: Effort) -> bool:
    """Whether the word is a plural, "ten sprints", or another is counted: "ten strokes"."""
    name = effort.as_said.lower().strip(" ,.;:?!")
    plural = name.endswith("s") and not name.endswith("ss")
    return plural or speaks_of("counted", effort.said)


def _finding(bare: list[Effort]) -> Finding:
    first = bare[0]
    about = dict.fromkeys(effort.movement for effort in bare)
    plain, number = first.movement.replace("-", " "), tidy(first.low or 0)
    units = [UNITS[unit] for unit in catalogue()[first.movement].counted_in if unit in UNITS]
    return RULE.finding(
        first.movement,
        f"{sentence(listed(about))}: the number has no unit.",
        expected=f"{number} {' or '.join(units)}",
        found=f"{number} of what?",
        said=union(*(effort.said for effort in bare)),
        suggestion=f"Say what is counted: {' or '.join(units)}.",
        say=f"The {plain} is {number} ….",
    )


RULE = Rule(
    code="unit-missing",
    severity="note",
    question="Has every number its unit where the movement needs one?",
    why="Twenty on the rower is a minute and a half in calories, and five seconds in metres.",
    fires=(
        "Jog two minutes. Main piece, three rounds for time: row twenty, ten burpees, fifteen "
        "lunges.",
        "Jog three minutes. Main piece, five rounds for time: ski 15, 20 lunges, 10 press-ups.",
    ),
    silent=(
        "Jog two minutes. Main piece, three rounds for time: row twenty calories, ten burpees, "
        "fifteen lunges.",
        "Jog three minutes. Main piece, five rounds for time: a 400 run, 20 lunges, 10 press- ups.",
        "Warm-up, march two minutes. Main piece: ten sprints, walk back each time, then fifteen "
        "squats.",
    ),
    leaves_alone=(
        "Distances that are usual enough to be plain (a 400, a 500 row); plurals, which are "
        "counted; strokes, steps and lengths; numbers below five."
    ),
    find=find,
)
