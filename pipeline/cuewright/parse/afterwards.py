"""What can only be settled once the whole talk is on the board."""

from collections.abc import Sequence

from cuewright.parse.board import NEAR, Board
from cuewright.parse.clocks import cap_s, first_time, goes_into
from cuewright.parse.cooling import wound_down
from cuewright.parse.drafts import Draft, rest_after
from cuewright.parse.likeness import loosens_up
from cuewright.parse.rungs import completed
from cuewright.parse.slots import divided_up
from cuewright.parse.structures import marks
from cuewright_models.tokens import starting_in

_OPENING = ("header-warm-up", "start", "before-all")
"""Labels of clauses that open a session."""
_NAMES = ("header-work", "onward", "onward-work", "first-work", "for-work")
"""Labels of clauses that name a piece of the work."""
_FEWEST = 4
"""Intervals that a length told late has at least."""


def settled(board: Board) -> list[Draft]:
    """The drafts that hold something, with late lengths and caps, a warm-up and a cool-down."""
    drafts = [draft for draft in board.drafts if not draft.empty]
    for draft in drafts:
        if draft.clock == "every" and draft.every_s and not (draft.times or draft.duration_s):
            draft.duration_s = _late_length(board, draft, draft.every_s)
        divided_up(board, draft)
        draft.rungs = completed(draft.rungs)
        if draft.sets and draft.clock is None and draft.rest_s is None:
            draft.rest_s = _late_rest(board, draft)
        if draft.clock == "intervals" and draft.times is None:
            draft.times = _late_turns(board, draft)
    _cap_late(board, drafts)
    _open_with_warm_up(board, drafts)
    return wound_down(drafts)


def _late_length(board: Board, draft: Draft, every_s: float) -> float | None:
    """The length of a clock that was only given in the sum at the end."""
    if not draft.places:
        return None
    first, last = draft.places[0][0], draft.places[-1][1] + NEAR
    for amount in board.reading.amounts:
        told = first <= amount.start < last and amount.start not in board.without
        if told and goes_into(every_s, amount, at_least=_FEWEST):
            return amount.low
    return None


def _late_turns(board: Board, draft: Draft) -> int | None:
    """How often intervals are gone through, where that is only told in summing up."""
    if not draft.places:
        return None
    first, last = draft.places[0][0], draft.places[-1][1] + NEAR
    for clause in board.clauses:
        if first <= clause.start < last and clause.role in ("restatement", "claim"):
            for mark in marks(board.row(clause.start, clause.end), board.reading.tokens):
                if mark.kind in ("rounds", "turns"):
                    return int(mark.amounts[0].low or 0) or None
    return None


def _late_rest(board: Board, draft: Draft) -> float | None:
    """The rest between sets, where it is only told among the targets."""
    if not draft.places or rest_after(draft.top.items) is not None:
        return None
    first, last = draft.places[0][0], draft.places[-1][1] + NEAR // 2
    for clause in board.clauses:
        if first <= clause.start < last and clause.role == "target":
            for mark in marks(board.row(clause.start, clause.end), board.reading.tokens):
                if mark.kind == "rest" and mark.between == "set":
                    return mark.amounts[0].low
    return None


def _cap_late(board: Board, drafts: Sequence[Draft]) -> None:
    """A cap that is only told with the targets belongs to the first work for time."""
    open_ended = [d for d in drafts if d.clock == "for-time" and d.cap_s is None]
    for clause in board.clauses if open_ended else ():
        if clause.role == "prescription":
            continue
        calls = starting_in(board.phrases, clause.start, clause.end)
        called = clause.role != "target" and any(call.name == "cap" for call in calls)
        seconds = first_time(board.row(clause.start, clause.end)) if called else None
        if seconds is not None:
            open_ended[0].cap_s = seconds
            return
        if clause.role == "example":
            continue
        for mark in marks(board.row(clause.start, clause.end), board.reading.tokens):
            if mark.kind == "cap" and mark.amounts:
                open_ended[0].cap_s = cap_s(mark.amounts[0])
                return


def _open_with_warm_up(board: Board, drafts: Sequence[Draft]) -> None:
    """The first easy block is the warm-up, or the first that its own clauses call one."""
    if len(drafts) < 2 or any(draft.section == "warm-up" for draft in drafts):
        return
    if _before_the_work(board, drafts):
        drafts[0].section, drafts[0].kind = "warm-up", "warm-up"
        return
    for draft in drafts[:2]:
        easy = draft is drafts[0] and len(drafts) > 2 and _easy(draft)
        if draft.clock is None and not draft.sets and (easy or _opens(board, draft)):
            draft.section, draft.kind = "warm-up", "warm-up"
            return


def _before_the_work(board: Board, drafts: Sequence[Draft]) -> bool:
    """Whether the first block runs on no clock, and the work is only named after it."""
    first, second = drafts[:2]
    if first.clock is not None or first.sets or first.rungs or second.section != "work":
        return False
    return _named(board, second) and not _named(board, first)


def _named(board: Board, draft: Draft) -> bool:
    """Whether the first clauses of a block name a piece of the work."""
    heads = [c for c in board.clauses if any(a <= c.start < b for a, b in draft.places)]
    return any(clause.has(label) for clause in heads[:2] for label in _NAMES)


def _opens(board: Board, draft: Draft) -> bool:
    """Whether a clause of the block opens the session."""
    return any(
        clause.has(label)
        for clause in board.clauses
        if any(start <= clause.start < end for start, end in draft.places)
        for label in _OPENING
    )


def _easy(draft: Draft) -> bool:
    """Whether most of a block only loosens up or moves about."""
    named = [work.movement for work in draft.efforts]
    return bool(named) and sum(map(loosens_up, named)) * 2 >= len(named)
