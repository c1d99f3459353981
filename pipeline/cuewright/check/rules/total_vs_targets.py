"""The coach's own station targets, multiplied out, do not fit the stated total."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from cuewright.check.leeway import apart, speaks_of
from cuewright.check.rule import Rule, union
from cuewright.check.sums import ONCE, product, stated_lengths, work_blocks
from cuewright.check.wording import duration, span
from cuewright.check.wording import times as multiplied
from cuewright_models.base import Evidence, Range
from cuewright_models.finding import Finding
from cuewright_models.plan import (
    Amrap,
    Block,
    Claim,
    Effort,
    ForTime,
    Intervals,
    Item,
    Plan,
    Repeat,
    Rest,
    StatedTime,
    Target,
    efforts,
)

Stated = Sequence[Target | Claim | StatedTime]


@dataclass
class Stations:
    """The targets of one block added up, in seconds."""

    likely: float = 0
    """Mid-points; stations without a target count nothing, so this is a lower bound."""
    longest: float = 0
    """High ends and rests; means something only when ``complete``."""
    complete: bool = True
    terms: list[str] = field(default_factory=list)
    said: list[Evidence] = field(default_factory=list)

    def add(self, target: Target | None, rounds: Range) -> None:
        """One station done ``rounds`` times."""
        if target is None or target.high is None:
            self.complete = False
        if target is None:
            return
        self.longest += (rounds.high or 0) * (target.high or 0)
        middle = _middle(target)
        if middle is not None:
            self.likely += (rounds.low or 0) * middle
            self.terms.append(multiplied(rounds.low, duration(middle)))
            self.said.append(target.said)


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for each main piece done for time."""
    pieces = [b for b in work_blocks(plan) if b.kind == "conditioning"]
    pieces = [block for block in pieces if isinstance(block.structure, ForTime)]
    lengths = stated_lengths(plan)
    for block in pieces:
        wanted = _wanted(plan, block, lengths[block.id], about_total=len(pieces) == 1)
        stated = wanted or _session(plan)
        sums = _added(plan, block)
        if not stated or not sums.terms:
            continue
        most, least = _most(stated), _least(stated)
        alone = bool(wanted) and (len(work_blocks(plan)) == 1 or _of_the_piece(wanted))
        if most is not None and sums.likely > most:
            yield _finding(sums, stated, duration(sums.likely), "more")
        elif alone and sums.complete and least is not None and sums.longest < least:
            yield _finding(sums, stated, f"at most {duration(sums.longest)}", "less")


def _wanted(
    plan: Plan, block: Block, lengths: Sequence[StatedTime | Claim], *, about_total: bool
) -> Stated:
    """What was said of the piece; a total is its own when no other piece is for time."""
    about = {block.id, "total"} if about_total else {block.id}
    targets = [t for t in plan.targets if t.about in about and t.unit == "s"]
    return [*targets, *lengths]


def _of_the_piece(stated: Stated) -> bool:
    """Whether the coach called it the time of one piece, not of the session around it."""
    return all(speaks_of("piece", each.said) for each in stated)


def _session(plan: Plan) -> Stated:
    return [c for c in plan.claims if c.kind == "total-time" and c.about == "total"]


def _most(stated: Stated) -> float | None:
    highs = [each.high for each in stated]
    return None if None in highs else max(high for high in highs if high is not None)


def _least(stated: Stated) -> float | None:
    lows = [each.low for each in stated]
    return None if None in lows else min(low for low in lows if low is not None)


def _middle(target: Target) -> float | None:
    """The mid-point; none of "under two minutes", which any shorter time meets."""
    if target.low is None or target.high is None:
        return target.low
    return (target.low + target.high) / 2


def _added(plan: Plan, block: Block) -> Stations:
    sums = Stations()
    covered = _round_target(plan, block)
    own = _by_effort(plan, block, bool(covered))
    _walk(block.items, ONCE, sums, covered, own)
    return sums


def _walk(
    items: tuple[Item, ...],
    times: Range,
    sums: Stations,
    covered: Target | None,
    own: dict[str, list[Target | None]],
) -> None:
    for item in items:
        if isinstance(item, Effort):
            sums.add(own[item.movement].pop(0), times)
        elif isinstance(item, Rest):
            sums.longest += (times.high or 0) * item.high
        elif isinstance(item, Repeat):
            rounds = product(times, item.times) or ONCE
            sums.longest += (rounds.high or 0) * (item.rest_s or 0)
            if covered:
                sums.add(covered, rounds)
            else:
                _walk(item.items, rounds, sums, None, own)
        else:  # the rounds of a ladder differ, so no one target fits them
            sums.complete = False


def _round_target(plan: Plan, block: Block) -> Target | None:
    """The target of a round, when only one thing in the session has rounds."""
    targets = _different([t for t in plan.targets if t.about == "round" and t.unit == "s"])
    rounds = [each for each in work_blocks(plan) if _has_rounds(each)]
    repeats = [item for item in block.items if isinstance(item, Repeat)]
    if len(targets) == 1 and rounds == [block] and len(repeats) == 1:
        return targets[0]
    return None


def _has_rounds(block: Block) -> bool:
    if isinstance(block.structure, (Amrap, Intervals)):
        return True
    repeated = any(isinstance(item, Repeat) for item in block.items)
    return repeated and isinstance(block.structure, ForTime)


def _different(targets: list[Target]) -> list[Target]:
    kept: list[Target] = []
    for new in targets:
        if all(apart(old, new, "target-time") for old in kept):
            kept.append(new)
    return kept


def _by_effort(plan: Plan, block: Block, covered: bool) -> dict[str, list[Target | None]]:
    """The target of each effort that no round target covers, a queue for each movement."""
    items = tuple(i for i in block.items if not (covered and isinstance(i, Repeat)))
    mine = list(efforts(items))
    elsewhere = Counter(e.movement for b in work_blocks(plan) for e in efforts(b.items))
    elsewhere.subtract(e.movement for e in efforts(block.items))
    queues: dict[str, list[Target | None]] = {}
    for movement in {effort.movement for effort in mine}:
        same = [effort for effort in mine if effort.movement == movement]
        targets = [t for t in plan.targets if t.about == movement and t.unit == "s"]
        queues[movement] = [None] * len(same) if elsewhere[movement] else _match(same, targets)
    return queues


def _match(same: list[Effort], targets: list[Target]) -> list[Target | None]:
    """First target to first effort; one target serves all efforts of the same amount."""
    if len(targets) != len(same):
        targets = _different(targets)
    if len(targets) == 1 and len({(each.low, each.high) for each in same}) == 1:
        return [targets[0] for _ in same]
    if len(targets) > len(same):
        targets = sorted(targets, key=lambda target: target.low or 0)[: len(same)]
    return [*targets, *[None] * (len(same) - len(targets))]


def _finding(sums: Stations, stated: Stated, total: str, how: str) -> Finding:
    wanted = " or ".join(dict.fromkeys(span(each, "s") for each in stated))
    working = " + ".join(sums.terms)
    return RULE.finding(
        "total",
        f"The station targets come to {total}, {how} than the stated {wanted}.",
        expected=wanted,
        found=working if working == total else f"{working} = {total}",
        said=union(*sums.said, *(each.said for each in stated)),
        suggestion="Correct the total, or cut the targets, the rounds or the work to fit it.",
        say=f"Put together, the stations take {total}.",
    )


RULE = Rule(
    code="total-vs-targets",
    severity="error",
    question="Do the coach's own station targets add up to the stated total?",
    why="Nobody can keep to both, and the stations alone already use up the whole time.",
    fires=(
        "Jog two minutes. Main piece, for time: run 400 metres, then four rounds of 20 step- "
        "ups and 15 push-ups. The run should take two minutes. Each round should take five "
        "minutes. I want the whole piece done in 14 to 16 minutes.",
        "Jog two minutes. Main piece, five rounds for time: 400 metre run and 20 burpees. The "
        "run should take two minutes. The burpees should take two minutes. The whole piece in "
        "15 minutes.",
    ),
    silent=(
        "Jog two minutes. Main piece, five rounds for time: 400 metre run and 20 burpees. The "
        "run should take two minutes. The burpees should take a minute. The whole piece in 15 "
        "minutes.",
        "Warm up with ten inchworms. Six rounds for time: 200 metre run, ten burpees. A round "
        "should take about three minutes. The whole class is 45 minutes.",
    ),
    leaves_alone=(
        "Targets in sets or effort; stations without a target, which count nothing; changeovers; "
        'ladders; "under" as a lower bound; a session length as a lower limit of one piece; '
        "round targets when several pieces have rounds; time caps."
    ),
    find=find,
)
