"""A target for a station, a round or a block that does not go with its amount."""

import re
from collections.abc import Iterator, Sequence
from math import inf
from typing import Literal, NamedTuple

from cuewright.check.fastest import beyond, least_s
from cuewright.check.leeway import apart, entire
from cuewright.check.meant import Meant, meant
from cuewright.check.modelled import answers, not_understood, stations
from cuewright.check.rule import Rule, union
from cuewright.check.shares import aloud, done_within, needing_more, takes, told
from cuewright.check.sums import EASY, exactly
from cuewright.check.wording import duration, span, subject
from cuewright_models.estimate import BlockEstimate, Profiles
from cuewright_models.finding import Finding
from cuewright_models.plan import Plan, Target

FRACTION = 3  # common practice, no source: a target of three times the need is for other work


class Misfit(NamedTuple):
    """A target, what it is about at best, and whether that needs more or less."""

    target: Target
    meant: Meant
    needs: Literal["more", "less"]


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for each block."""
    groups: dict[str, list[Target]] = {}
    for target in plan.targets:
        if target.unit == "s":
            groups.setdefault(target.about, []).append(target)
    each = list(stations(plan)) if groups else []
    spoken: set[str] = set()
    for about, targets in groups.items():
        for misfit in _misfits(plan, targets, meant(plan, about, each)):
            if misfit.meant.block.id not in spoken:
                spoken.add(misfit.meant.block.id)
                yield _finding(misfit)


def _misfits(plan: Plan, targets: Sequence[Target], works: Sequence[Meant]) -> list[Misfit]:
    """The targets that fit nothing that they may be about.

    Of more targets than there is work for, one that fits is enough: that they differ is
    another rule's to say.
    """
    found = [misfit for target in targets if works and (misfit := _misfit(plan, target, works))]
    spare = len(targets) > len(works) and len(found) < len(targets)
    return [] if spare else found


def _misfit(plan: Plan, target: Target, works: Sequence[Meant]) -> Misfit | None:
    quickest = min(works, key=lambda each: each.least_s)
    longest = max(works, key=lambda each: each.most_s)
    if target.high is not None and quickest.least_s > target.high:
        needs, wanted = exactly(quickest.least_s), exactly(target.high)
        too_much = apart(wanted, needs, "model", target.said) and not _is_whole(target)
        return Misfit(target, quickest, "more") if too_much else None
    if target.low is not None and FRACTION * longest.most_s < target.low:
        missing = not_understood(plan, longest.block)
        of_more = missing or entire(target.said) or _fits_a_part(plan, target)
        return None if of_more else Misfit(target, longest, "less")
    return None


def _is_whole(target: Target) -> bool:
    """A total or a block; that it is too short is for total-vs-model to say."""
    return target.about == "total" or bool(re.fullmatch(r"b\d+", target.about))


def _fits_a_part(plan: Plan, target: Target) -> bool:
    """Whether a block or the session takes that long, and may be what a round stands for;
    a movement is named by its own name."""
    if target.about != "round" and not _is_whole(target):
        return False
    parts: list[Profiles | BlockEstimate] = [a for b, a in answers(plan) if b.kind not in EASY]
    parts += [plan.estimate.total] if plan.estimate else []
    low, high = target.low or 0.0, inf if target.high is None else target.high
    return any(p.advanced.low_s <= high and p.newcomer.high_s >= low for p in parts)


def _finding(misfit: Misfit) -> Finding:
    target, work, how = misfit
    wanted, needs = span(target, "s"), takes(work.answer)
    name = "A round" if target.about == "round" else f"The {target.about.replace('-', ' ')}"
    spoken_of = "The whole piece" if _is_whole(target) else name
    name = subject(target.about) if _is_whole(target) else name
    limit = (target.high if how == "more" else target.low) or 0.0
    severity, why = beyond(least_s(work.items) if how == "more" else 0.0, limit)
    return RULE.finding(
        target.about,
        f"{name} is to take {wanted}, but {_who(work, limit, how)}.{why}",
        expected=wanted,
        found=f"{needs} for most regular athletes",
        said=union(target.said, work.said),
        suggestion="Correct the target, or change the amount to fit it.",
        severity=severity,
        say=f"{spoken_of} takes {aloud(work.answer)}.",
    )


def _who(work: Meant, limit: float, how: str) -> str:
    if how == "more":
        return f"{told(lambda s: needing_more(s, limit), work.answer)} need more"
    third = limit / FRACTION
    who = told(lambda s: done_within(s, third), work.answer)
    return f"{who} are done in {duration(third)}"


RULE = Rule(
    code="target-vs-model",
    severity="warning",
    question="Can a station, a round or a block be done in its target?",
    why="A target that the amount does not allow tells athletes that they have failed.",
    fires=(
        "Warm-up, jog two minutes. For time: 40 burpees, then a 400 metre run. The burpees "
        "should take thirty seconds.",
        "Warm-up, jog two minutes. Three rounds for time: 200 metre run, ten air squats. Each "
        "round should take fifteen minutes.",
    ),
    silent=(
        "Warm-up, jog two minutes. For time: 40 burpees, then a 400 metre run. The burpees "
        "should take two and a half minutes.",
        "Warm-up, jog two minutes. For time: run a mile, then burpees. The burpees should "
        "take thirty seconds.",
    ),
    leaves_alone=(
        "Targets that one in ten of the advanced meet; targets less than three times what "
        "newcomers need, or that a block or the session takes, which may be meant; amounts "
        "that were not said, ladders and movements without a pace; wholes that need more, which "
        "is total-vs-model; targets missed by less than a seventh, a quarter when called rough."
    ),
    find=find,
)
