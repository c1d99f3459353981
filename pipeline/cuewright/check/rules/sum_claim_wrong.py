"""A stated total of reps or distance is not what the plan adds up to."""

from collections.abc import Callable, Iterator
from functools import cache
from typing import NamedTuple

from cuewright.check.kinship import alike
from cuewright.check.leeway import apart
from cuewright.check.rule import Rule, union
from cuewright.check.sums import Done, done, work_blocks
from cuewright.check.wording import span, spoken, subject, times
from cuewright.movements.catalogue import catalogue
from cuewright_models.base import Evidence, Range, tidy
from cuewright_models.finding import Finding
from cuewright_models.plan import Amrap, Block, Claim, Effort, Plan

UNITS = {"total-reps": "reps", "total-distance": "m"}

Work = dict[str, tuple[Done, ...]]
"""What is done in each block, by its id."""


class Sum(NamedTuple):
    """What some efforts add up to, how, and where they were said."""

    total: Range
    working: str
    said: Evidence


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for each claimed sum that no sensible way of counting gives."""
    claims = [claim for claim in plan.claims if claim.kind in UNITS]
    work = {block.id: tuple(done(block)) for block in plan.blocks} if claims else {}
    main = cache(lambda about, unit: _main_sum(plan, work, about, unit))
    others = cache(lambda about, unit: frozenset(_other_sums(plan, work, about, unit)))
    for claim in claims:
        unit = UNITS[claim.kind]
        counted = main(claim.about, unit)
        leeway = "sum" if counted and " " in counted.working else "restated"
        if not counted or not apart(claim, counted.total, leeway, claim.said):
            continue
        if all(apart(claim, total, leeway, claim.said) for total in others(claim.about, unit)):
            yield _finding(claim, unit, counted)


def _main_sum(plan: Plan, work: Work, about: str, unit: str) -> Sum | None:
    """The sum over the working blocks; for a movement in none of them, over the session."""
    wanted = _wanted(about, unit)
    scope, whole = _efforts(_scope(plan, about), work), _efforts(plan.blocks, work)
    return _sum(scope, wanted, unit) or _sum(whole, wanted, unit)


def _efforts(blocks: tuple[Block, ...], work: Work) -> list[Done]:
    return [each for block in blocks for each in work[block.id]]


def _scope(plan: Plan, about: str) -> tuple[Block, ...]:
    """The block named; for all reps or metres, the work that has a known end."""
    named = tuple(block for block in plan.blocks if block.id == about)
    if named or about in catalogue():
        return named or work_blocks(plan)
    return tuple(b for b in work_blocks(plan) if not isinstance(b.structure, Amrap))


def _wanted(about: str, unit: str) -> Callable[[Effort], bool]:
    if about in catalogue():
        return lambda effort: effort.movement == about
    return lambda effort: _counts_in(effort, unit)


def _counts_in(effort: Effort, unit: str) -> bool:
    """Efforts without an amount count where their movement is usually counted so."""
    row = catalogue().get(effort.movement)
    usual = row.counted_in[0] if row else unit
    return effort.unit == unit or (effort.unit == "none" and usual == unit)


def _sum(work: list[Done], wanted: Callable[[Effort], bool], unit: str) -> Sum | None:
    """``None`` when nothing matches or any match has no known total in ``unit``."""
    found = [each for each in work if wanted(each.effort)]
    totals = [each.total for each in found if each.effort.unit == unit]
    if not found or len(totals) < len(found) or None in totals:
        return None
    return Sum(
        total=_added([total for total in totals if total]),
        working=_working(found),
        said=union(*(each.effort.said for each in found)),
    )


def _added(totals: list[Range]) -> Range:
    return Range(low=sum(t.low or 0 for t in totals), high=sum(t.high or 0 for t in totals))


def _working(found: list[Done]) -> str:
    """``4 x 250``, or ``150 + 80 + 70``."""
    terms = ((each.times, each.amount) for each in found)
    return " + ".join(times(often.low, _plain(much)) for often, much in terms if often and much)


def _plain(value: Range) -> str:
    ends = dict.fromkeys(f"{tidy(end):,}" for end in (value.low, value.high) if end is not None)
    return " to ".join(ends)


def _other_sums(plan: Plan, work: Work, about: str, unit: str) -> Iterator[Range]:
    """Other sums that a coach may mean: one block, one round, both sides, the whole session."""
    wanted, kin = _wanted(about, unit), alike(about)
    scopes = [*((block,) for block in plan.blocks), _scope(plan, about), plan.blocks]
    for blocks in scopes:
        counted = [each for each in _efforts(blocks, work) if each.effort.unit == unit]
        for wants in (wanted, lambda effort: effort.movement in kin):
            yield from _ways([each for each in counted if wants(each.effort)])


def _ways(found: list[Done]) -> Iterator[Range]:
    """All rounds or one, each side counted or both."""
    for per_round in (False, True):
        for sides in (1, 2):
            parts = [_part(each, per_round, sides) for each in found]
            if parts and None not in parts:
                yield _added([part for part in parts if part])


def _part(each: Done, per_round: bool, sides: int) -> Range | None:
    figure = each.amount if per_round else each.total
    if figure is None or figure.low is None or figure.high is None:
        return None
    factor = sides if each.effort.per_side else 1
    return Range(low=figure.low * factor, high=figure.high * factor)


def _finding(claim: Claim, unit: str, counted: Sum) -> Finding:
    stated, total = span(claim, unit), span(counted.total, unit)
    return RULE.finding(
        claim.about,
        f"{subject(claim.about)} is said to come to {stated}, but the plan adds up to {total}.",
        expected=f"{counted.working} = {total}" if " " in counted.working else total,
        found=stated,
        said=union(counted.said, claim.said),
        suggestion="Correct the sum, or the amount or rounds that it was made from.",
        say=f"{spoken(claim.about).capitalize()} comes to {total} in all.",
    )


RULE = Rule(
    code="sum-claim-wrong",
    severity="error",
    question="Is a stated total of reps or metres what the plan adds up to?",
    why="A wrong sum means that the sum or the plan is wrong, and athletes count by both.",
    fires=(
        "Warm-up, ten squats. Main piece, five rounds for time: 250 metres on the rower, "
        "fifteen push-ups. Your rowing total is 1,500 metres.",
        "Skip two minutes. Main piece, for time: 30 thrusters, 25 pull-ups, 20 burpees. "
        "Eighty-five reps in total, no hiding.",
    ),
    silent=(
        "Warm-up, ten squats. Main piece, four rounds for time: 250 metres on the rower, "
        "fifteen push-ups. Your rowing total is a kilometre.",
        "Jog two minutes. Main piece, three rounds for time: ten lunges each leg and a 400 "
        "metre run. It means sixty lunges in total, both legs counted.",
        "Jog three minutes. Main piece, as many rounds as you can in ten minutes: ten "
        "thrusters, 200 metre run. Most of you will end up with fifty thrusters.",
    ),
    leaves_alone=(
        "Sums with an unknown part, such as as-many-as-possible work or an amount not said; any "
        "total that one round, one block, one side or the whole session would give; two per "
        "cent of rounding, a twentieth when the coach calls the figure rough."
    ),
    find=find,
)
