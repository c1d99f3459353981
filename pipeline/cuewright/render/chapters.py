"""When each part of a talk begins, as the list of chapters that a video site links."""

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from cuewright.render import words
from cuewright_models.base import Evidence
from cuewright_models.plan import Block, Plan, efforts

APART_S = 10.0
"""Between two chapters, at least. Common practice of video sites, no source."""
_FEWEST = 2
"""Things said in a row that make a part of the talk; a lone cue among the work is none."""
_OPENING = "Welcome"
_AND = " / "
_NAMED = 2
"""Movements that tell a block from another of its kind."""


class Chapter(NamedTuple):
    """Seconds from the beginning, and what begins there."""

    start_s: float
    name: str


def chapters(plan: Plan) -> tuple[Chapter, ...]:
    """In rising order, the first at 0 and all ``APART_S`` apart; none where no time is known."""
    blocks = sorted(_inside(plan, _blocks(plan)))
    if not blocks:
        return ()
    kept = _joined([Chapter(0.0, _OPENING), *blocks])
    for part in sorted(_inside(plan, _parts(plan))):
        if all(abs(part.start_s - other.start_s) >= APART_S for other in kept):
            kept.append(part)
    return tuple(sorted(kept))


def _inside(plan: Plan, found: Iterable[Chapter]) -> list[Chapter]:
    """Whole seconds, as they are shown, and none in the last moments of the recording."""
    end = plan.source.duration_s
    whole = (Chapter(float(int(each.start_s)), each.name) for each in found)
    return [each for each in whole if end is None or each.start_s + APART_S <= end]


def _joined(found: Iterable[Chapter]) -> list[Chapter]:
    """Chapters too near to the one before are told with it; a welcome gives way."""
    kept: list[Chapter] = []
    for each in found:
        if not kept or each.start_s - kept[-1].start_s >= APART_S:
            kept.append(each)
            continue
        names = [name for name in kept[-1].name.split(_AND) if name != _OPENING]
        together = dict.fromkeys((*names, each.name))
        kept[-1] = kept[-1]._replace(name=_AND.join(together))
    return kept


def _blocks(plan: Plan) -> Iterator[Chapter]:
    kinds = Counter(block.kind for block in plan.blocks)
    for block in plan.blocks:
        if (start := _start(block.said)) is not None:
            yield Chapter(start, _name(block, alone=kinds[block.kind] == 1))


def _name(block: Block, *, alone: bool) -> str:
    """``Conditioning: Low Water``; by its work where it has no name and is not ``alone``."""
    name = words.clean(block.name or "")
    if not (name or alone):
        done = dict.fromkeys(effort.movement for effort in efforts(block.items))
        name = ", ".join(words.movement(each) for each in [*done][:_NAMED])
    return f"{block.kind.capitalize()}: {name}" if name else block.kind.capitalize()


def _parts(plan: Plan) -> Iterator[Chapter]:
    """Where most of the targets, of the options and of the cues are said in a row."""
    told = [*_told("", plan.blocks), *_told("Targets", plan.targets)]
    told += [*_told("Scaling", plan.options), *_told("Points of performance", plan.cues)]
    runs = [list(run) for _, run in groupby(sorted(told), key=lambda each: each.name)]
    for name in dict.fromkeys(each.name for each in told if each.name):
        longest = max((run for run in runs if run[0].name == name), key=len)
        if len(longest) >= _FEWEST:
            yield longest[0]


def _told(name: str, things: Iterable[object]) -> Iterator[Chapter]:
    for thing in things:
        if (start := _start(getattr(thing, "said", ()))) is not None:
            yield Chapter(start, name)


def _start(said: Evidence) -> float | None:
    """The first second in which something is said."""
    return min((one.start_s for one in said if one.start_s is not None), default=None)
