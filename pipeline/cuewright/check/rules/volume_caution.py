"""A total of one kind of work that usual practice treats with care."""

from collections.abc import Iterator
from functools import cache
from typing import Literal, NamedTuple

from cuewright.check.rule import Rule, union
from cuewright.check.sums import EASY, TOO_MANY, Done, done, exactly, product
from cuewright.check.wording import amount, heard, listed
from cuewright.movements.catalogue import catalogue, derived
from cuewright.tables import raw, validated
from cuewright_models.base import Range, Value
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, Effort, Plan

LESS = {"fewer", "shorter", "easier", "substitute"}


class Volume(Value):
    """A row of volumes.toml."""

    name: str
    unit: Literal["reps", "m"]
    at_least: float
    movements: tuple[str, ...] = ()
    patterns: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()
    impact: Literal["none", "low", "high"] | None = None
    never: tuple[str, ...] = ()
    short: str
    source: str


class Part(NamedTuple):
    """One effort's total; ``reckoned`` when its rounds are not said but the time model's."""

    effort: Effort
    total: float
    reckoned: bool


class Much(NamedTuple):
    """What of a session falls under a row."""

    volume: Volume
    parts: list[Part]

    @property
    def total(self) -> float:
        """All parts together, in the row's unit."""
        return sum(part.total for part in self.parts)


@cache
def _volumes() -> tuple[Volume, ...]:
    table = raw("cuewright.check", "volumes.toml")
    return tuple(validated(table, Volume, where="volumes.toml").values())


@derived
def _counted(movement: str) -> tuple[Volume, ...]:
    """The rows under which a movement is added up."""
    return tuple(volume for volume in _volumes() if _falls(movement, volume))


def _falls(movement: str, volume: Volume) -> bool:
    row = catalogue().get(movement)
    marked = bool(volume.patterns or volume.flags)
    if row is None or movement in volume.movements or not marked:
        return row is not None and movement in volume.movements
    given = (({*volume.patterns}, {*row.patterns}), ({*volume.flags}, {*row.flags}))
    return (
        all(not wanted or wanted & has for wanted, has in given)
        and volume.impact in (None, row.impact)
        and not {*volume.never} & {*row.patterns}
    )


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for the session, on what lies furthest above its row."""
    much = [each for each in _added(plan) if each.volume.at_least <= each.total < TOO_MANY]
    much = [each for each in much if not _eased(plan, each)]
    if much:
        yield _finding(max(much, key=lambda each: each.total / each.volume.at_least))


def _added(plan: Plan) -> list[Much]:
    """What the work comes to, row by row."""
    found: dict[Volume, list[Part]] = {}
    for part in _parts(plan):
        for volume in _counted(part.effort.movement):
            if part.effort.unit == volume.unit:
                found.setdefault(volume, []).append(part)
    return [Much(volume, parts) for volume, parts in found.items()]


def _parts(plan: Plan) -> Iterator[Part]:
    """Every effort of the work with its total: the least of a range, one side of two."""
    for block in plan.blocks:
        if block.kind in EASY:
            continue
        rounds, work = _rounds(plan, block), list(done(block))
        sums = _sums(work)
        for each in work:
            total = each.total or product(each.amount, rounds)
            if total and total.low and (each.effort.movement, each.amount) not in sums:
                yield Part(each.effort, total.low, reckoned=each.total is None)


def _sums(work: list[Done]) -> set[tuple[str, Range | None]]:
    """What rounds and sides come to: work of that very amount is a sum that was taken for work."""
    found: set[tuple[str, Range | None]] = set()
    for each in work:
        for sides in (1, 2) if each.effort.per_side else (1,):
            total = product(each.total, exactly(sides))
            if total != each.amount:
                found.add((each.effort.movement, total))
    return found


def _rounds(plan: Plan, block: Block) -> Range | None:
    """The rounds of as-many-as-possible work that nine in ten regular athletes get through."""
    blocks = plan.estimate.blocks if plan.estimate else ()
    mine = [each.regular.rounds for each in blocks if each.id == block.id]
    return exactly(mine[0].low // 1) if mine and mine[0] else None


def _eased(plan: Plan, much: Much) -> bool:
    """Whether the coach offers a way to do less of it."""
    names = {part.effort.movement for part in much.parts}
    offered = {option.about for option in plan.options if option.kind in LESS}
    return "total" in offered or "round" in offered or names <= offered


def _finding(much: Much) -> Finding:
    volume, efforts = much.volume, [part.effort for part in much.parts]
    about = "at least " if any(part.reckoned for part in much.parts) else ""
    total = about + amount(round(much.total), volume.unit)
    named = list(dict.fromkeys(heard(effort.as_said) for effort in efforts))
    return RULE.finding(
        efforts[0].movement,
        f"{total.capitalize()} of {listed(named)} in one session is a lot for anybody not used to "
        f"it: {volume.short}.",
        expected=f"a way to do less, from {amount(volume.at_least, volume.unit)} on",
        found=f"{total} of {listed(named)}",
        said=union(*(effort.said for effort in efforts)),
        suggestion="Say how newer people do less, or spread the work over several sessions.",
        say=f"If you are new to this, do half of the {named[0]}.",
    )


RULE = Rule(
    code="volume-caution",
    severity="note",
    question="Does so much of one thing come with a way to do less?",
    why=(
        "One hard session that a body is not used to can end in hospital (exertional "
        "rhabdomyolysis: University of Maryland emergency-medicine note, 2024)."
    ),
    fires=(
        "Warm up first: jog for three minutes and ten scapular pull-ups. Then ten rounds for "
        "time: twelve pull-ups and twenty air squats.",
        "jog for five minutes to warm up then its eight rounds for time twenty box jumps and a "
        "two hundred metre run",
    ),
    silent=(
        "Warm up first: jog for three minutes and ten scapular pull-ups. Then five rounds for "
        "time: eight pull-ups and twenty air squats.",
        "Warm up first: jog for three minutes and ten scapular pull-ups. Then ten rounds for "
        "time: twelve pull-ups and twenty air squats. If you're new, do five rounds instead of "
        "ten.",
    ),
    leaves_alone=(
        "Amounts for which the coach offers fewer rounds or reps, or an easier form; work "
        "for a time, whose reps nobody knows; warm-ups and cool-downs; ropes and other light "
        "hops; burpees; what a week adds up to."
    ),
    find=find,
)
