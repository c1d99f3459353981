"""What a statement only says again: recaps and lists of work that stands on the board already."""

from collections.abc import Sequence
from itertools import dropwhile

from cuewright.parse.board import Board
from cuewright.parse.efforts import Bound
from cuewright.parse.likeness import akin, head
from cuewright.parse.statements import Statement
from cuewright_models.divided import Clause, Section

_AFTERWARDS: frozenset[Section] = frozenset(("cues", "scaling", "pacing", "recap"))
_MOST = 0.75
"""Share of a list that stands in the block from which it is said again."""
_HEADS = ("header-work", "onward", "header-warm-up", "header-cool-down")
_CONTENT = ("prescribes", "structures", "clock", "lifts")


def comes_back(board: Board, run: Sequence[Clause]) -> bool:
    """Whether a run comes back to the work after the talk had gone on to other things."""
    since = dropwhile(lambda clause: clause.section != "work", board.clauses)
    before = {clause.section for clause in since if clause.start < run[0].start}
    if before.isdisjoint(_AFTERWARDS) or run[0].section != "work":
        return False
    return not any(_says(clause, _HEADS) for clause in run[:3])


def passed_over(board: Board, said: Statement, *, late: bool) -> bool:
    """Whether a statement is the order of the day, or comes back to what is known."""
    clause = said.clause
    if clause.has("agenda") and not _says(clause, _CONTENT):
        return True
    if not late or _says(clause, (*_HEADS, "clock")):
        return False
    there = {movement for draft in board.drafts for movement in draft.movements}
    return all(mention.name in there for mention in board.named(clause.start, clause.end))


def echoes(board: Board, said: Statement) -> bool:
    """Whether a clause only lists what the block has: "so bike, lunges, push ups, pull ups"."""
    bound = said.efforts
    if len(bound) < 2:
        return False
    if len(bound) > 2 and sum(_stands(board, b) for b in bound) >= _MOST * len(bound):
        return True
    if board.norm(said.start) not in ("so", "and"):
        return False
    if len(bound) > 2 and _shuffled(board, bound):
        return True
    bare = sum(b.amount is None and not b.max for b in bound)
    return bare * 2 > len(bound) and all(akin(b.movement, board.draft.movements) for b in bound)


def _shuffled(board: Board, bound: Sequence[Bound]) -> bool:
    """ "So swings fifteen, push ups ten, squats twelve": known work with its own numbers."""
    known = {work.amount.low for work in board.draft.efforts if work.amount is not None}
    told = {b.amount.low for b in bound if b.amount is not None}
    return told <= known and all(akin(b.movement, board.draft.movements) for b in bound)


def _stands(board: Board, bound: Bound) -> bool:
    """Whether the block has an effort with this head word and this very amount."""
    return bound.amount is not None and any(
        work.amount is not None
        and work.amount.low == bound.amount.low
        and head(work.movement) == head(bound.movement)
        for work in board.draft.efforts
    )


def _says(clause: Clause, labels: Sequence[str]) -> bool:
    return any(clause.has(label) for label in labels)
