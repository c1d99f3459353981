"""Rests: between sets, after rounds, or standing among the efforts."""

from cuewright.parse.board import Board
from cuewright.parse.drafts import Draft, Group, Work, rest_after
from cuewright.parse.structures import Mark


def rest(board: Board, mark: Mark) -> None:
    """Give a rest to the sets, the rounds or the line that it is said of."""
    seconds = mark.amounts[0].low
    if board.draft.clock is None and board.draft.section == "work":
        _part_sets(board, seconds)
    draft = board.draft
    if draft.clock == "intervals":
        return
    if draft.sets and (mark.between == "set" or draft.clock is None):
        draft.rest_s = draft.rest_s if draft.rest_s is not None else seconds
    elif (group := draft.latest) is not None and (mark.between or not group.items):
        group.rest_s = seconds
    elif draft.open is not None:
        draft.open.items.append(Work(None, mark.amounts[0]))
    elif draft.clock is None and draft.section == "work" and mark.between == "set":
        draft.sets, draft.rest_s = True, seconds
    else:
        draft.loose_rest = seconds


def _part_sets(board: Board, seconds: float | None) -> None:
    """Sets that get another rest than the sets before them are a block of their own."""
    draft = board.draft
    groups = draft.repeats
    before = draft.rest_s if draft.rest_s is not None else rest_after(groups[:-1])
    if len(groups) < 2 or groups[-1] is not draft.top.items[-1] or before in (None, seconds):
        return
    last = Group(items=[draft.top.items.pop()])
    board.start(Draft(draft.section, draft.kind, sets=draft.sets, top=last, open=draft.open))
    draft.open = None
