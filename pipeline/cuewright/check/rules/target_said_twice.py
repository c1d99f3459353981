"""A station is given two targets that cannot both hold."""

import re
from collections.abc import Iterator

from cuewright.check.leeway import apart, partial
from cuewright.check.rule import Rule, union
from cuewright.check.sums import ladders, repeats, work_blocks
from cuewright.check.wording import span, spoken, subject
from cuewright_models.finding import Finding
from cuewright_models.plan import Amrap, Block, Effort, Intervals, Plan, Target, efforts

# Effort may rightly differ from round to round, but not for one whole part of the session.
LEEWAY = {"s": "target-time", "sets": "count", "rounds": "count", "rpe": "effort"}


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for each station with more different targets than it has efforts."""
    groups: dict[tuple[str, str], list[Target]] = {}
    for target in plan.targets:
        part = target.unit != "rpe" or re.fullmatch(r"b\d+", target.about)
        if target.unit in LEEWAY and part and not partial(target.said):
            groups.setdefault((target.about, target.unit), []).append(target)
    for (about, unit), targets in groups.items():
        different = _different(targets)
        if len(different) > _room(plan, about, different):
            one, other = span(different[0], unit), span(different[1], unit)
            yield RULE.finding(
                about,
                f"{subject(about)} is to take {one}, and elsewhere {other}.",
                expected=one,
                found=other,
                said=union(*(target.said for target in targets)),
                suggestion="Give one target, or say which effort each of them is for.",
                say=f"For {spoken(about)}, aim for … .",
            )


def _different(targets: list[Target]) -> list[Target]:
    """The targets that no earlier one agrees with."""
    kept: list[Target] = []
    for new in targets:
        if all(apart(old, new, LEEWAY[new.unit], union(old.said, new.said)) for old in kept):
            kept.append(new)
    return kept


def _room(plan: Plan, about: str, targets: list[Target]) -> int:
    """How many different targets ``about`` may rightly have."""
    if about == "total":
        return max(1, len(work_blocks(plan)))
    if about == "round":
        return max(1, sum(map(_rounds, plan.blocks)))
    if re.fullmatch(r"b\d+", about):
        return 1
    same = [e for b in work_blocks(plan) for e in efforts(b.items) if e.movement == about]
    same = [e for e in same if e.unit != targets[0].unit]  # what is done by time needs no time
    named = any(all(_names(t, effort) for t in targets) for effort in same)
    return 1 if named else max(1, len(same))


def _names(target: Target, effort: Effort) -> bool:
    """Whether the target is told by the effort's amount, as in "each 50"."""
    if effort.low is None:
        return False
    amount = re.compile(rf"\b{effort.low:g}s?\b")
    return any(amount.search(place.quote.replace(",", "")) for place in target.said)


def _rounds(block: Block) -> int:
    """How many kinds of round a block has: each rung of a ladder is one of its own."""
    rungs = sum(len(ladder.rungs) for ladder in ladders(block.items))
    clocked = isinstance(block.structure, (Amrap, Intervals))
    return rungs or int(clocked or any(repeats(block.items)))


RULE = Rule(
    code="target-said-twice",
    severity="error",
    question="Does each station have one target?",
    why="An athlete who heard the other target paces for another session.",
    fires=(
        "Jog two minutes. Three rounds for time: 500 metre row, 20 push-ups. The row should "
        "take you two minutes. I'd like the row done in under ninety seconds.",
        "skip two minutes then four rounds for time of fifteen wall balls and a three hundred "
        "metre row the wall balls should be done in one set and later you'll hear me shout "
        "that the wall balls should be in four sets",
    ),
    silent=(
        "Warm-up, ten squats. Main piece, three rounds for time: 400 metre run and 15 "
        "burpees. Two minutes for the first run. The last run can be three minutes.",
        "Jog two minutes. Four rounds for time: 300 metre row and ten push-ups. The women "
        "about 75 seconds for each row, the men about 65.",
    ),
    leaves_alone=(
        "Targets of effort, which may grow from round to round, unless both are for one "
        "whole block and lie more than a mark apart; targets for some of the rounds or "
        "people; as many different targets as the session has efforts of that movement, unless "
        "all are told by the same amount; ranges that touch."
    ),
    find=find,
)
