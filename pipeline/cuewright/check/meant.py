"""What a target in seconds may be about, with the time that each of these takes."""

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from cuewright.check.kinship import short_for
from cuewright.check.modelled import Station, answers, clocked, intervals, known
from cuewright.check.sums import EASY
from cuewright.movements.catalogue import catalogue
from cuewright_models.base import Evidence
from cuewright_models.estimate import BlockEstimate, ItemEstimate, Profiles, Seconds
from cuewright_models.plan import (
    Amrap,
    Block,
    Effort,
    Every,
    ForTime,
    Intervals,
    Item,
    Plan,
    Repeat,
    Sets,
    efforts,
)
from cuewright_models.profile import PROFILES


class Meant(NamedTuple):
    """What a target may be about."""

    block: Block
    items: tuple[Item, ...]
    answer: Profiles | BlockEstimate
    least_s: float
    """What one in ten advanced athletes stay under, of one side or length."""
    most_s: float
    """What nine in ten newcomers stay under."""
    said: Evidence


def meant(plan: Plan, about: str, each: Sequence[Station]) -> list[Meant]:
    """All that ``about`` may mean; nothing when the model knows one of them only by guess."""
    if about == "round":
        return _rounds(plan, each)
    pieces = [(b, a) for b, a in answers(plan) if about in (b.id, _total(b))]
    if pieces:
        guessed = any(clocked(b) or not known(plan, b) for b, _ in pieces)
        return [] if guessed else [_block(*piece) for piece in pieces]
    untimed = [s for s in each if s.done.effort.unit != "s"]
    mine = [s for s in untimed if short_for(about, s.done.effort.movement)]
    mine = [s for s in mine if s.block.kind not in EASY] or mine
    return [_station(s) for s in mine] if all(s.known for s in mine) else []


def _total(block: Block) -> str | None:
    """The total, when the block is one for time: a piece, whose time is counted."""
    return "total" if isinstance(block.structure, ForTime) and block.kind not in EASY else None


def _block(block: Block, answer: BlockEstimate) -> Meant:
    ends = answer.advanced.low_s, answer.newcomer.high_s
    return Meant(block, block.items, answer, *ends, block.said)


def _station(station: Station) -> Meant:
    effort = station.done.effort
    least = station.seconds.advanced.low_s / _parts(effort)
    most = station.seconds.newcomer.high_s
    return Meant(station.block, (effort,), station.seconds, least, most, effort.said)


def _parts(effort: Effort) -> float:
    """What a target may be for one of: a side, or a length of the way there."""
    row = catalogue().get(effort.movement)
    lengths = effort.unit == "reps" and row is not None and row.counted_in[0] == "m"
    return (2 if effort.per_side else 1) * (max(effort.low or 1, 1) if lengths else 1)


def _rounds(plan: Plan, each: Sequence[Station]) -> list[Meant]:
    """The rounds of the blocks against the clock, or else of the other blocks of work."""
    work = [pair for pair in answers(plan) if pair[0].kind not in EASY]
    if any(isinstance(block.structure, Intervals) for block, _ in work):
        return []  # a round by the clock may be any of them
    pressed = [pair for pair in work if isinstance(pair[0].structure, ForTime | Amrap | Every)]
    found = _rounds_of(pressed) or _rounds_of(work)
    unknown = {id(station.done.effort) for station in each if not station.known}
    guessed = any(id(e) in unknown for one in found for e in efforts(one.items))
    return [] if guessed else found


def _rounds_of(pairs: Sequence[tuple[Block, BlockEstimate]]) -> list[Meant]:
    return [one for block, answer in pairs for one in _in_rounds(block, answer)]


def _in_rounds(block: Block, answer: BlockEstimate) -> list[Meant]:
    if isinstance(block.structure, Amrap):
        return [_round(block, block.items, answer.items)]
    if isinstance(block.structure, Every):
        return [_round(block, items, parts) for items, parts in intervals(block, answer)]
    pairs = zip(block.items, answer.items, strict=True)
    rested = block.structure.rest_s or inf if isinstance(block.structure, Sets) else 0.0
    return [
        _round(block, item.items, part.items, item.rest_s or rested)
        for item, part in pairs
        if isinstance(item, Repeat)
    ]


def _round(
    block: Block, items: tuple[Item, ...], parts: Sequence[ItemEstimate], rest_s: float = 0.0
) -> Meant:
    """One round without its ways, which only makes it shorter; its rest may be meant too."""
    answer = Profiles(**{profile: _added(parts, profile) for profile in PROFILES})
    ends = answer.advanced.low_s, answer.newcomer.high_s + rest_s
    return Meant(block, items, answer, *ends, block.said)


def _added(parts: Sequence[ItemEstimate], profile: str) -> Seconds:
    each = [getattr(part, profile) for part in parts]
    ends = {end: sum(getattr(s, end) for s in each) for end in ("low_s", "likely_s", "high_s")}
    return Seconds(**ends)
