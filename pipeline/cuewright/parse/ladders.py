"""Ladders and shared amounts: what is given once for several efforts."""

from collections.abc import Sequence
from itertools import pairwise

from cuewright.parse.board import NEAR, Board
from cuewright.parse.drafts import Draft, Group, Work
from cuewright.parse.efforts import Bound
from cuewright.parse.rungs import in_order
from cuewright.parse.structures import Mark
from cuewright_models.tokens import starting_in

_ECHOED = 0.7
"""Share of a list that was said as amounts before, from which the list only sums up."""
_FAR = 8
"""Tokens after some rungs within which the last is said."""
_LONGER = 4
"""Rungs by which a second list may outgrow the first and still go on with it."""


def share(draft: Draft, mark: Mark) -> None:
    """ "Thirty seconds each" for a list; "two of each, then four of each" climbs a ladder."""
    draft.climbed.append(mark.start)
    amount = mark.amounts[0]
    if draft.rungs and amount.low in draft.rungs:
        return
    named = [work for work in draft.line.works() if work.bound]
    waiting = bool(named) and all(work.bare for work in named)
    if waiting and amount.unit is None and (draft.share or draft.rungs):
        first = (int(draft.share.low or 0) if draft.share else 0,)
        draft.rungs = (*(draft.rungs or first), int(amount.low or 0))
        draft.share = None
    elif not draft.rungs:
        draft.share = amount


def ladder(board: Board, mark: Mark, bound: Sequence[Bound]) -> None:
    """The rungs that the bare efforts climb; a second list goes on from the first."""
    rungs = _to_the_end(board, mark, tuple(map(int, in_order(mark.amounts[0].values))))
    if mark.amounts[0].unit is not None or _summed(board.draft, rungs):
        return
    ahead = any(b.amount is None and not b.max and b.first >= mark.end for b in bound)
    draft = _climber(board, mark.start, ahead=ahead)
    draft.climbed.append(mark.start)
    if draft.share is not None and draft.share.unit is None:
        draft.rungs, draft.share = (int(draft.share.low or 0),), None
    if not draft.rungs or rungs[: len(draft.rungs)] == draft.rungs:
        draft.rungs = rungs
    elif _goes_on(draft.rungs, rungs) and len(rungs) < len(draft.rungs) + _LONGER:
        draft.rungs = (*draft.rungs, *rungs)


def _goes_on(rungs: tuple[int, ...], more: tuple[int, ...]) -> bool:
    """Whether more rungs go on from those before, up or down: "2 4 6 8 10" and then "8 6 4 2"."""
    falls, fall = rungs[0] > rungs[-1], more[0] > more[-1]
    if falls and fall and more[0] >= rungs[-1]:
        return False  # another ladder: "20 16 12 8 4" and then "last term it was ten nine eight"
    step = max(abs(rungs[-1] - rungs[-2]), 1) if len(rungs) > 1 else rungs[0]
    return more[0] not in rungs[:1] and abs(more[0] - rungs[-1]) <= 2 * step


def _to_the_end(board: Board, mark: Mark, rungs: tuple[int, ...]) -> tuple[int, ...]:
    """The rungs with those left out: "ten, nine, eight, all the way down to one"."""
    ahead = starting_in(board.reading.amounts, mark.end, mark.end + _FAR)
    if not ahead or ahead[0].low is None or ahead[0].low % 1:
        return rungs
    last = int(ahead[0].low)
    words_between = board.norms(mark.end, ahead[0].start)
    step = rungs[-1] - rungs[-2]
    level = all(b - a == step for a, b in pairwise(rungs))
    if not level or "to" not in words_between or (last - rungs[-1]) * step <= 0:
        return rungs
    return (*rungs, *range(rungs[-1] + step, last + (1 if step > 0 else -1), step))


def mirror(draft: Draft) -> None:
    """A ladder up to its top comes down the same rungs."""
    rungs = draft.rungs
    if rungs and rungs[-1] == max(rungs):
        draft.rungs = (*rungs, *reversed(rungs[:-1]))


def _summed(draft: Draft, rungs: tuple[int, ...]) -> bool:
    """Whether the list sums up what was just said."""
    said = [work.amount.low for work in draft.line.works() if work.amount is not None]
    return sum(float(rung) in said for rung in rungs) >= _ECHOED * len(rungs)


def _climber(board: Board, at: int, *, ahead: bool) -> Draft:
    """The draft of a ladder: a new one where a block has its work already.

    ``ahead`` is whether movements without amounts follow.
    """
    draft = board.draft
    items = draft.line.items
    kept = len(items)
    while kept and _waits(items[kept - 1], at):
        kept -= 1
    full = draft.clock in ("every", "amrap", "intervals") or (kept > 1 and draft.clock is None)
    if not (full and draft.given):
        return draft
    if kept == len(items) and (draft.sets or draft.rungs or not ahead):
        return draft
    loose = items[kept:]
    del items[kept:]
    fresh = Draft(draft.section, draft.kind, share=draft.share, top=Group(items=loose))
    draft.share = None
    return board.start(fresh)


def _waits(item: Work | Group, at: int) -> bool:
    """Whether an effort near ``at`` still waits for its amount."""
    if not isinstance(item, Work) or not item.bare or item.bound is None:
        return False
    return at - item.bound.last <= NEAR
