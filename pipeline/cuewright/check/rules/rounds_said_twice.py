"""Rounds, sets or amounts are restated with another number."""

from collections.abc import Iterator

from cuewright.check.leeway import apart
from cuewright.check.rule import Rule, union
from cuewright.check.sums import (
    Done,
    countable,
    done,
    exactly,
    ladders,
    product,
    repeats,
    slots,
    work_blocks,
)
from cuewright.check.wording import span
from cuewright_models.base import Evidence, Range
from cuewright_models.finding import Finding
from cuewright_models.plan import (
    Block,
    Claim,
    Effort,
    Every,
    Intervals,
    Item,
    Plan,
    Repeat,
    efforts,
)

COUNTS = {"rounds", "sets"}


def find(plan: Plan) -> Iterator[Finding]:
    """One finding a block whose rounds differ; otherwise one a movement."""
    amounts = [claim for claim in plan.claims if _restates_amount(claim)]
    for block in plan.blocks:
        mine = [claim for claim in amounts if _amount_differs(plan, block, claim)]
        wrong = [claim for claim in plan.claims if _rounds_differ(plan, block, claim)]
        if wrong:
            yield _about_rounds(block, wrong, mine)
        else:
            yield from _about_amounts(block, mine)


def _restates_amount(claim: Claim) -> bool:
    return claim.kind == "restated" and claim.unit not in COUNTS


def _rounds_differ(plan: Plan, block: Block, claim: Claim) -> bool:
    counts = claim.kind == "rounds" or (claim.kind == "restated" and claim.unit in COUNTS)
    if not counts or block not in _meant(plan, claim.about):
        return False
    allowed = _rounds(block)
    return bool(allowed) and all(apart(claim, each, "count") for each in allowed)


def _meant(plan: Plan, about: str) -> tuple[Block, ...]:
    """The one block that a claim can be about, or none when it may be any of several."""
    if about == "total":
        meant = [block for block in work_blocks(plan) if _rounds(block)]
    elif any(block.id == about for block in plan.blocks):
        meant = [block for block in plan.blocks if block.id == about]
    else:
        meant = [b for b in plan.blocks if any(e.movement == about for e in efforts(b.items))]
    return tuple(meant) if len(meant) == 1 else ()


def _rounds(block: Block) -> list[Range]:
    """Every number of rounds that the block can be said to have; none for a ladder."""
    if any(ladders(block.items)):
        return []
    found = [repeat.times for repeat in repeats(block.items)]
    found += list(_nested(block.items))
    structure = block.structure
    if isinstance(structure, (Intervals, Every)) and (times := countable(structure.times)):
        stations, cycle = sum(1 for _ in efforts(block.items)), slots(block)
        whole = isinstance(structure, Intervals)
        counts = (times, times * stations) if whole else (times, times / cycle, cycle)
        found += map(exactly, counts)
    return found


def _nested(items: tuple[Item, ...]) -> Iterator[Range]:
    for outer in repeats(items):
        for inner in repeats(outer.items):
            both = product(outer.times, inner.times)
            if both:
                yield both


def _amount_differs(plan: Plan, block: Block, claim: Claim) -> bool:
    if all(effort.movement != claim.about for effort in efforts(block.items)):
        return False
    efforts_of_it = [(b, each) for b in plan.blocks for each in done(b) if _is(each, claim)]
    known = [figure for b, each in efforts_of_it for figure in _figures(b, each)]
    complete = all(each.amount for _, each in efforts_of_it)
    return bool(known) and complete and all(apart(claim, k, "restated", claim.said) for k in known)


def _is(each: Done, claim: Claim) -> bool:
    effort = each.effort
    return effort.movement == claim.about and claim.unit in (None, effort.unit)


def _figures(block: Block, each: Done) -> list[Range]:
    """The amount of one set, of all, of one side, of both, and of each rung."""
    sides = (0.5, 1, 2) if each.effort.per_side else (1,)
    steps = [rung for ladder in ladders(block.items) for rung in ladder.rungs]
    rungs = [exactly(rung) for rung in map(countable, steps) if rung is not None]
    figures = [each.amount, each.total, *rungs]
    scaled = [product(figure, exactly(side)) for figure in figures for side in sides]
    return [figure for figure in scaled if figure]


def _about_rounds(block: Block, wrong: list[Claim], amounts: list[Claim]) -> Finding:
    claim = wrong[0]
    unit = claim.unit or "rounds"
    stated = span(_rounds(block)[0], unit)
    return RULE.finding(
        block.id,
        f"Block {block.id} is prescribed with {stated} and restated with {span(claim, unit)}.",
        expected=stated,
        found=span(claim, unit),
        said=union(_prescribed(block), *(each.said for each in (*wrong, *amounts))),
        suggestion="Say which number holds; the first full statement stands in the plan.",
    )


def _prescribed(block: Block) -> Evidence:
    counted: list[Repeat] = list(repeats(block.items))
    return union(*(repeat.said for repeat in counted)) or block.said


def _about_amounts(block: Block, claims: list[Claim]) -> Iterator[Finding]:
    for about in dict.fromkeys(claim.about for claim in claims):
        mine = [claim for claim in claims if claim.about == about]
        effort = next(e for e in efforts(block.items) if e.movement == about)
        stated, restated = (
            span(_said_amount(effort), effort.unit),
            span(mine[0], mine[0].unit or effort.unit),
        )
        yield RULE.finding(
            about,
            f"{effort.as_said.capitalize()} is prescribed as {stated} and restated as {restated}.",
            expected=stated,
            found=restated,
            said=union(effort.said, *(claim.said for claim in mine)),
            suggestion="Say which amount holds; the first full statement stands in the plan.",
        )


def _said_amount(effort: Effort) -> Range:
    return Range(low=effort.low, high=effort.high)


RULE = Rule(
    code="rounds-said-twice",
    severity="error",
    question="Is work that is said again said with the same numbers?",
    why="A coach who repeats a block with another number leaves half the room on the old one.",
    fires=(
        "Five rounds of this. … So, six rounds of run, press, lunge and row.",
        "Two sets of dead bugs and side planks. … And then the core three times.",
        "Twelve step-ups. … Run, then fifteen step-ups.",
    ),
    silent=(
        "Four rounds. … When your fourth round is done, out you go again.",
        "Ten, sorry, twelve push-ups.",
        "Eight each leg. … So sixteen lunges, alternating.",
    ),
    leaves_alone=(
        "Self-corrections; amounts said for all rounds, for one side or for both; rung lists, "
        "which ladder-vs-rounds compares; movements done in several amounts, if one agrees."
    ),
    find=find,
)
