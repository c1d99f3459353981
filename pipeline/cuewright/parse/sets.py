"""Sets of one movement: "five sets of five", "front squats, 5 by 3"."""

from collections.abc import Sequence
from dataclasses import replace

from cuewright.parse.board import NEAR, Board
from cuewright.parse.drafts import Draft, Group, Work
from cuewright.parse.efforts import Bound
from cuewright.parse.ground import covered
from cuewright.parse.orphans import sides
from cuewright.parse.rounds import of_that, wrap
from cuewright.parse.structures import Mark
from cuewright_models.base import Range
from cuewright_models.tokens import Amount

_CLOCKS = ("every", "amrap", "intervals")
_SIDE = 4
"""Tokens after sets within which "each side" is said."""


def sets(board: Board, mark: Mark, bound: Sequence[Bound]) -> None:
    """Open sets around the movement of the statement, or close them over the one before."""
    draft = board.draft
    if _leave(board, mark, bound):
        draft = board.start(Draft(draft.section, "accessory"))
    elif not bound and draft.clock is not None and _bare_last(draft) and draft.filled:
        draft = board.start(
            Draft(draft.section, "accessory", top=Group(items=[draft.top.items.pop()]))
        )
    draft.sets = True
    if draft.rest_s is None:
        draft.rest_s, draft.loose_rest = draft.loose_rest, None
    times = _times(mark.amounts[0])
    around = _around(mark, bound)
    if around is not None:
        if not _waiting(draft, times):
            single = around.start <= mark.start or mark.kind == "by"
            draft.add(Group("repeat", times, single=single))
    elif mark.kind == "by" and draft.open is None and _bare_last(draft):
        work = draft.top.items.pop()
        if isinstance(work, Work) and work.bound is not None:
            work.amount = each_set(mark)
            after = board.row(mark.end, mark.end + _SIDE)
            sided = sides(after) and "both" not in [span.word for span in after.spans]
            work.bound = replace(work.bound, per_side=work.bound.per_side or sided)
        draft.add_closed(Group("repeat", times, items=[work]))
    elif not draft.line.items or any(b.first >= mark.end for b in bound):
        if not _waiting(draft, times):
            draft.add(Group("repeat", times))
        if mark.kind == "by" and (way := covered(board, mark)) is not None and draft.open:
            draft.open.items.append(Work(way, each_set(mark)))
            draft.open = None
    elif draft.open is None and of_that(board, mark):
        wrap(draft, times)
    elif draft.open is None and isinstance(draft.top.items[-1], Work):
        draft.add(Group("repeat", times, items=[draft.top.items.pop()]))


def _leave(board: Board, mark: Mark, bound: Sequence[Bound]) -> bool:
    """Whether the sets are no part of the piece against a clock, or the ladder, before them."""
    draft = board.draft
    if bound or (mark.kind == "by" and covered(board, mark) is not None):
        return bool((draft.clock and draft.filled) or draft.rungs)
    return draft.clock in _CLOCKS and draft.filled and _strange(board, mark)


def _strange(board: Board, mark: Mark) -> bool:
    """Whether a movement that the block does not have follows soon."""
    near = board.named(mark.end, mark.end + NEAR)
    return bool(near) and near[0].name not in board.draft.movements


def one_set(board: Board, mark: Mark) -> None:
    """ "A set of ten, then a set of eight": the last movement again, with another amount."""
    draft, amount = board.draft, mark.amounts[0]
    last = draft.line.items[-1] if draft.line.items else None
    if not isinstance(last, Work) or last.bound is None or draft.rungs:
        return
    if last.bare:
        last.amount, draft.sets = amount, True
    elif draft.sets and draft.open is None and last.amount and last.amount.low != amount.low:
        draft.line.items.append(Work(replace(last.bound, first=mark.start, last=mark.end), amount))


def front(mark: Mark, bound: Sequence[Bound]) -> int:
    """The token at which a mark takes effect: sets between a movement and its reps come first."""
    if mark.kind not in ("sets", "by"):
        return mark.start
    for b in bound:
        if b.first <= mark.start < b.last:
            return b.first
    before = next((b.first for b in reversed(bound) if b.last <= mark.start), mark.start)
    return before if mark.kind == "by" else mark.start


def each_set(mark: Mark) -> Amount:
    """The work of each set in "5 x 3" or "five sets of three"."""
    last = mark.amounts[-1]
    return Amount(last.start, last.end, last.low, last.high, last.unit)


def _times(amount: Amount) -> Range:
    if amount.shape == "by":
        return Range(low=amount.values[0], high=amount.values[0])
    return Range(low=amount.low, high=amount.high)


def _around(mark: Mark, bound: Sequence[Bound]) -> Bound | None:
    """The effort that the sets are said inside of; for a "by" form, else the nearest."""
    inside = next((b for b in bound if b.first <= mark.start < b.last), None)
    if inside is not None or mark.kind != "by":
        return inside
    before = next((b for b in reversed(bound) if b.last <= mark.start), None)
    return before or next((b for b in bound if b.first >= mark.end), None)


def _waiting(draft: Draft, times: Range) -> bool:
    """Whether these very sets are open and still have no work."""
    return draft.open is not None and not draft.open.items and draft.open.times == times


def _bare_last(draft: Draft) -> bool:
    """Whether the block's own line ends with a movement that has no amount."""
    last = draft.top.items[-1] if draft.top.items else None
    return isinstance(last, Work) and last.bare
