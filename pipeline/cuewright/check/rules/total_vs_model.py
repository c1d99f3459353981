"""No kind of athlete is likely to finish within the stated total."""

from collections.abc import Iterator, Sequence
from math import inf
from typing import NamedTuple

from cuewright.check.fastest import beyond, least_s
from cuewright.check.leeway import apart
from cuewright.check.modelled import answers, clocked, known, quickest_s
from cuewright.check.rule import Rule, union
from cuewright.check.rules import cap_vs_model, total_vs_targets
from cuewright.check.shares import aloud, needing_more, takes, told
from cuewright.check.sums import exactly, repeats, stated_lengths, work_blocks
from cuewright.check.wording import duration, sentence, span
from cuewright_models.estimate import BlockEstimate, Profiles
from cuewright_models.finding import Finding
from cuewright_models.plan import (
    Block,
    Claim,
    ForTime,
    Intervals,
    Plan,
    Sets,
    StatedTime,
    Target,
)

Stated = Sequence[Claim | StatedTime | Target]


class Work(NamedTuple):
    """What a stated time may be about: its estimate, and the blocks in it."""

    name: str
    answer: Profiles | BlockEstimate
    blocks: tuple[Block, ...]

    @property
    def quickest_s(self) -> float:
        """What one in ten advanced athletes stay under."""
        if isinstance(self.answer, BlockEstimate):
            return quickest_s(self.answer)
        return self.answer.advanced.low_s

    @property
    def least_s(self) -> float:
        """Seconds that nobody beats; blocks by the clock are left out."""
        return least_s(item for b in self.blocks if not clocked(b) for item in b.items)


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for the first stated total that is too short, by the session or by a block."""
    for about, stated, works in _stated(plan):
        short = bool(stated and works) and all(_too_short(work, stated) for work in works)
        if short and _known(plan, works):
            if not _told_already(plan):
                yield _finding(about, min(works, key=lambda w: w.quickest_s), stated)
            return


def _told_already(plan: Plan) -> bool:
    """Whether the coach's own targets or the cap already show that the work is too much."""
    return any(total_vs_targets.find(plan)) or any(cap_vs_model.find(plan))


def _stated(plan: Plan) -> Iterator[tuple[str, Stated, list[Work]]]:
    """What is stated about what, with all that it may mean."""
    blocks = _blocks(plan)
    pieces = [work for work in blocks if isinstance(work.blocks[0].structure, ForTime)]
    unclocked = [work for work in blocks if not clocked(work.blocks[0])]
    wanted = [t for t in plan.targets if t.about == "total" and t.unit == "s"]
    whole = [Work("total", plan.estimate.total, plan.blocks)] if plan.estimate else []
    yield "total", wanted, pieces or [*blocks, *whole]
    yield "total", _session(plan), whole
    lengths = stated_lengths(plan)
    for work in unclocked:
        targets = [t for t in plan.targets if t.about == work.name and t.unit == "s"]
        own = [each for each in lengths[work.name] if each.high not in _rests(work.blocks[0])]
        yield work.name, [*targets, *own], [work]


def _blocks(plan: Plan) -> list[Work]:
    """The blocks of work."""
    mine = {block.id for block in work_blocks(plan)}
    return [Work(b.id, answer, (b,)) for b, answer in answers(plan) if b.id in mine]


def _known(plan: Plan, works: list[Work]) -> bool:
    """Whether the model had to guess nothing in any of the works."""
    blocks = (block for work in works for block in work.blocks)
    return all(clocked(block) or known(plan, block) for block in blocks)


def _session(plan: Plan) -> list[Claim]:
    """How long the session is said to be, but for words that a part's target is told in."""
    claims = [c for c in plan.claims if c.kind == "total-time" and c.about == "total"]
    parts = [said.quote for t in plan.targets if t.about != "total" for said in t.said]
    return [c for c in claims if not any(_within(said.quote, parts) for said in c.said)]


def _within(quote: str, others: Sequence[str]) -> bool:
    return any(quote in other or other in quote for other in others if other)


def _rests(block: Block) -> set[float | None]:
    """Seconds of the block's rests, which are easily heard as its length."""
    own = block.structure.rest_s if isinstance(block.structure, Sets | Intervals) else None
    return {own, *(each.rest_s for each in repeats(block.items))} - {None}


def _too_short(work: Work, stated: Stated) -> bool:
    if work.quickest_s <= _most(stated):
        return False
    kind = "session-time" if work.name == "total" else "model"
    said = union(*(each.said for each in stated))
    return apart(exactly(_most(stated)), exactly(work.quickest_s), kind, said)


def _most(stated: Stated) -> float:
    return max(inf if each.high is None else each.high for each in stated)


def _finding(about: str, work: Work, stated: Stated) -> Finding:
    most, needs = _most(stated), takes(work.answer)
    severity, why = beyond(work.least_s, most)
    who = told(lambda seconds: needing_more(seconds, most), work.answer)
    places = (block.said for block in work.blocks if block.kind == "conditioning")
    return RULE.finding(
        about,
        sentence(f"{who} need more than the stated {duration(most)}.{why}"),
        expected=" or ".join(dict.fromkeys(span(each, "s") for each in stated)),
        found=f"{needs} for most regular athletes",
        said=union(*(each.said for each in stated), *places),
        suggestion="Correct the total, or cut the rounds or the work to fit it.",
        severity=severity,
        say=f"{_called(about, work)} takes {aloud(work.answer)}.",
    )


def _called(about: str, work: Work) -> str:
    if about != "total":
        return "This part"
    return "The whole session" if work.name == "total" else "The whole piece"


RULE = Rule(
    code="total-vs-model",
    severity="warning",
    question="Can anybody finish within the stated total?",
    why="Whoever paces for a time that nobody reaches starts too fast, and the hall is booked.",
    fires=(
        "Warm-up, jog two minutes. Five rounds for time: 400 metre run, 30 burpees. I want "
        "the whole piece done in twelve minutes.",
        "Jog two minutes to get warm. Main piece: run ten kilometres, then a 2000 metre row. "
        "The whole session is twenty minutes.",
    ),
    silent=(
        "Warm-up, jog two minutes. Five rounds for time: 400 metre run, 30 burpees. I want "
        "the whole piece done in under half an hour.",
        "Warm-up, jog two minutes. Three rounds for time: 400 metre run, ten push-ups. It's "
        "an hour with the chat and the stretch.",
    ),
    leaves_alone=(
        "Totals that only the slower profiles miss; work far shorter than its total, for the rest "
        "may be talk; work with an amount that was not said or a movement without a pace; blocks "
        "by the clock; totals that the coach's own targets or the cap already contradict; totals "
        "missed by less than a tenth for the session, a seventh for a block."
    ),
    find=find,
)
