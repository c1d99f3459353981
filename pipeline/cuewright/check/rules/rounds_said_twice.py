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
from cuewright.check.wording import span, spoken
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
    amounts, rounds = _wrong_amounts(plan), _wrong_rounds(plan)
    for block in plan.blocks:
        movements = dict.fromkeys(effort.movement for effort in efforts(block.items))
        mine = [claim for movement in movements for claim in amounts.get(movement, ())]
        wrong = rounds.get(block.id)
        if wrong:
            yield _about_rounds(block, wrong, mine)
        else:
            yield from _about_amounts(block, mine)


def _restates_amount(claim: Claim) -> bool:
    return claim.kind == "restated" and claim.unit not in COUNTS


def _counts(claim: Claim) -> bool:
    return claim.kind == "rounds" or (claim.kind == "restated" and claim.unit in COUNTS)


def _wrong_rounds(plan: Plan) -> dict[str, list[Claim]]:
    """The claims of rounds that no count of their block gives, by the block's id."""
    found: dict[str, list[Claim]] = {}
    meant: dict[str, Block | None] = {}
    for claim in plan.claims:
        if not _counts(claim):
            continue
        if claim.about not in meant:
            meant[claim.about] = _meant(plan, claim.about)
        block = meant[claim.about]
        if block is not None and _rounds_differ(block, claim):
            found.setdefault(block.id, []).append(claim)
    return found


def _rounds_differ(block: Block, claim: Claim) -> bool:
    allowed = _allowed(block, claim.about)
    differs = bool(allowed) and all(apart(claim, each, "count") for each in allowed)
    return differs and not _told_with(block, claim)


def _allowed(block: Block, about: str) -> list[Range]:
    """The rounds of the block, or those of the one movement that a claim is about."""
    if about in (block.id, "total"):
        return _rounds(block)
    structure = block.structure
    if isinstance(structure, Every):
        times = countable(structure.times)
        return [exactly(times / slots(block))] if times else []
    mine = tuple(item for item in block.items if _holds(item, about))
    return _rounds(block.model_copy(update={"items": mine}))


def _holds(item: Item, movement: str) -> bool:
    return any(effort.movement == movement for effort in efforts((item,)))


def _told_with(block: Block, claim: Claim) -> bool:
    """Whether the block was prescribed in these very words too: it holds two pieces, then.

    What is restated in the block's own words always stands in them.
    """
    if claim.kind == "restated":
        return False
    quotes = {said.quote.lower().strip(" .,") for said in claim.said}
    return any(quote in said.quote.lower() for quote in quotes for said in block.said)


def _meant(plan: Plan, about: str) -> Block | None:
    """The one block that a claim can be about; ``None`` when it may be any of several."""
    if about == "total":
        meant = [block for block in work_blocks(plan) if _rounds(block)]
    elif any(block.id == about for block in plan.blocks):
        meant = [block for block in plan.blocks if block.id == about]
    else:
        meant = [b for b in plan.blocks if any(e.movement == about for e in efforts(b.items))]
    return meant[0] if len(meant) == 1 else None


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


def _wrong_amounts(plan: Plan) -> dict[str, list[Claim]]:
    """The claims of amounts that no effort of their movement has, by the movement."""
    claims = [claim for claim in plan.claims if _restates_amount(claim)]
    told: dict[str, list[tuple[Block, Done]]] = {claim.about: [] for claim in claims}
    for block in plan.blocks if claims else ():
        for each in done(block):
            if each.effort.movement in told:
                told[each.effort.movement].append((block, each))
    found: dict[str, list[Claim]] = {}
    figures: dict[tuple[str, str | None], frozenset[Range]] = {}
    for claim in claims:
        key = (claim.about, claim.unit)
        if key not in figures:
            figures[key] = _known(told[claim.about], claim)
        known = figures[key]
        if known and all(apart(claim, each, "restated", claim.said) for each in known):
            found.setdefault(claim.about, []).append(claim)
    return found


def _known(told: list[tuple[Block, Done]], claim: Claim) -> frozenset[Range]:
    """Every amount that a movement can be said to have; none when one of them is open."""
    mine = [(block, each) for block, each in told if _is(each, claim.about, claim.unit)]
    if not all(each.amount for _, each in mine):
        return frozenset()
    return frozenset(figure for block, each in mine for figure in _figures(block, each))


def _is(each: Done, about: str, unit: str | None) -> bool:
    effort = each.effort
    return effort.movement == about and unit in (None, effort.unit)


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
    stated = span(_allowed(block, claim.about)[0], unit)
    return RULE.finding(
        block.id,
        f"Block {block.id} is prescribed with {stated} and restated with {span(claim, unit)}.",
        expected=stated,
        found=span(claim, unit),
        said=union(_prescribed(block), *(each.said for each in (*amounts, *wrong))),
        suggestion="Say which number holds; the first full statement stands in the plan.",
        say=f"It is {stated}.",
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
            say=f"For {spoken(about)} it is {stated}.",
        )


def _said_amount(effort: Effort) -> Range:
    return Range(low=effort.low, high=effort.high)


RULE = Rule(
    code="rounds-said-twice",
    severity="error",
    question="Is work that is said again said with the same numbers?",
    why="A coach who repeats a block with another number leaves half the room on the old one.",
    fires=(
        "Warm up, ten squats. Strength: five sets of five back squats, two minutes between. "
        "Then the stretch, a minute each side for the hips. Recap for the late ones: warm-up, "
        "four sets of squats, stretch.",
        "Jog three minutes. Main piece, three rounds for time: 20 push-ups and a 200 metre "
        "run. I repeat for the gentlemen in the corner: three rounds, 25 push-ups, 200 metre "
        "run.",
    ),
    silent=(
        "Jog three minutes. Main piece, five rounds for time: 20 push-ups and a 200 metre "
        "run. After three rounds have a look at the clock. The last two rounds are the ones I "
        "care about.",
        "Jog two minutes. Main piece, four rounds for time: ten, sorry, twelve push-ups and a "
        "200 metre run. So that's four rounds, twelve push-ups.",
        "March a minute. Six rounds for time: 8 burpees and 12 squats. If six sounds too "
        "much, four rounds is a good day.",
    ),
    leaves_alone=(
        "Self-corrections; amounts said for all rounds, for one side or for both; rung lists, "
        "which ladder-vs-rounds compares; movements done in several amounts, if one agrees; "
        "numbers that the block itself was prescribed with."
    ),
    find=find,
)
