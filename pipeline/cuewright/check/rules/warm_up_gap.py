"""The warm-up readies nothing of what the main block loads hard."""

import re
from collections.abc import Iterator
from functools import cache
from itertools import takewhile

from cuewright.check.preparing import PREPARES, clocked, elsewhere
from cuewright.check.rule import Rule, union
from cuewright.check.wording import heard, listed
from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, Effort, Plan, efforts

HARD = {"loaded", "overhead", "inverted", "hang"}


class Area(Value):
    """A row of prepares.toml."""

    name: str
    called: str
    loaded_by: tuple[str, ...]
    sprints: tuple[str, ...] = ()
    readied_by: tuple[str, ...]
    also: tuple[str, ...]
    words: tuple[str, ...]


@cache
def _areas() -> tuple[Area, ...]:
    table = raw("cuewright.check", "prepares.toml")
    return tuple(validated(table, Area, where="prepares.toml").values())


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for the session, on the first block of which nothing was readied."""
    before = takewhile(lambda block: not clocked(block), plan.blocks)
    preparing = [block for block in before if block.kind in PREPARES]
    if not _understood(preparing) or plan.unknown or elsewhere(plan):
        return
    readied: set[str] = set()
    for block in plan.blocks:
        missed = _missed(block, readied) if clocked(block) else None
        if missed:
            yield _finding(block, *missed, preparing)
            return
        left = [area for area in _areas() if area.name not in readied]
        readied |= {area.name for area in left if _readied(block, area)}


def _missed(block: Block, readied: set[str]) -> tuple[Area, list[Effort]] | None:
    """The first area that a block loads hard and nothing before it readied, and by what."""
    for area in _areas():
        if area.name in readied:
            continue
        hard = [effort for effort in efforts(block.items) if _loads(effort, area)]
        if hard:
            return area, hard
    return None


def _understood(preparing: list[Block]) -> bool:
    """Whether it is known what every warm-up holds."""
    inside = [list(efforts(block.items)) for block in preparing]
    return bool(inside) and all(inside) and all(each.known for all_ in inside for each in all_)


def _loads(effort: Effort, area: Area) -> bool:
    row = catalogue().get(effort.movement)
    if row is None:
        return False
    hard = bool(effort.load) or row.impact == "high" or bool(HARD & {*row.flags})
    return effort.movement in area.sprints or (hard and bool({*row.patterns} & {*area.loaded_by}))


def _readied(block: Block, area: Area) -> bool:
    """Whether a block readies the area, or only speaks of it."""
    return any(_readies(effort, area) for effort in efforts(block.items)) or any(
        word in area.words
        for said in block.said
        for word in re.findall("[a-z]+", said.quote.lower())
    )


def _readies(effort: Effort, area: Area) -> bool:
    row = catalogue().get(effort.movement)
    listed = effort.movement in area.also
    return listed or (row is not None and bool({*row.patterns} & {*area.readied_by}))


def _finding(block: Block, area: Area, hard: list[Effort], preparing: list[Block]) -> Finding:
    named = list(dict.fromkeys(heard(effort.as_said) for effort in hard))
    done = dict.fromkeys(heard(e.as_said) for each in preparing for e in efforts(each.items))
    return RULE.finding(
        block.id,
        f"Nothing in the warm-up readies {area.called} for {listed(named)}.",
        expected=f"something easy for {area.called} before block {block.id}",
        found=f"a warm-up of {', '.join(done)}",
        said=union(*(each.said for each in preparing), *(effort.said for effort in hard)),
        suggestion=f"Add a light set of {named[0]}, or an easy drill for {area.called}.",
        say=f"Before the clock starts, do an easy set of {named[0]} to get ready.",
    )


RULE = Rule(
    code="warm-up-gap",
    severity="note",
    question="Does the warm-up touch what the main block loads hard?",
    why=(
        "The first hard repetitions are then the rehearsal, at full speed and with a load. "
        "Common practice, no source."
    ),
    fires=(
        "Warm-up: jog for three minutes, then twenty high knees. Main piece, four rounds for "
        "time: twelve push presses and a 200 metre run.",
        "warm up is arm swings for two minutes then its five rounds for time "
        "ten box jumps and ten deadlifts",
    ),
    silent=(
        "Warm-up: jog for three minutes, then ten arm circles. Main piece, four rounds for "
        "time: twelve push presses and a 200 metre run.",
        "Do your usual warm-up. Then four rounds for time: twelve push presses and a 200 metre "
        "run.",
    ),
    leaves_alone=(
        "Talks without a warm-up, of which warm-up-missing speaks, or with one elsewhere; "
        "warm-ups with a word that was not understood; sets against no clock, which people "
        "build up to; push-ups, trunk work, easy runs and carries; whether the warm-up is long "
        "enough."
    ),
    find=find,
)
