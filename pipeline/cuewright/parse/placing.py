"""Which block a statement belongs to, and of what kind that block is."""

from collections.abc import Sequence
from itertools import pairwise
from typing import get_args

from cuewright.parse.board import Board
from cuewright.parse.drafts import Draft, Group, Work
from cuewright.parse.ground import ON_FOOT
from cuewright.parse.likeness import stretches
from cuewright.parse.statements import Statement
from cuewright.parse.words import words
from cuewright_models.divided import Clause, Section
from cuewright_models.plan import BlockKind
from cuewright_models.tokens import starting_in

_EARLY = 3
"""Tokens from the start of a clause within which a name is its subject."""
_KINDS: dict[str, BlockKind] = {kind: kind for kind in get_args(BlockKind)}
_AROUND = frozenset(("warm-up", "cool-down", "mobility"))
"""Kinds of block that stand before and after the work."""
_WORK = frozenset(("strength", "conditioning", "accessory", "skill"))
_ANY = frozenset(("any", "soft"))
"""Phrases that start a block without saying of what kind."""
_PIECES = words("placing", "pieces")
_CHUNKS = words("placing", "chunks")
_NUMBERS = words("placing", "numbers")
_SMALL = words("placing", "small")


def place(board: Board, said: Statement) -> None:
    """Start a new block where the talk moves on to one, and settle its kind."""
    named = _named(board, said)
    section = _section(board, said, named)
    if not board.drafts or board.draft.section != section:
        board.start(Draft(section, _usual(section), top=Group(items=_named_last(board, said))))
    elif _opens(board, said, named):
        board.start(Draft(section, _usual(section)))
    elif not board.draft.empty and _counted_off(board, said.clause):
        board.start(Draft(section, board.draft.kind))
    for kind in named:
        if kind not in _ANY and (section == "work") != (kind in _AROUND):
            board.draft.kind = _KINDS[kind]


def _named(board: Board, said: Statement) -> list[str]:
    """The kinds of block that a statement names, less words that only pass by."""
    return [
        kind.name
        for kind in said.kinds
        if (kind.name != "any" or _early(said, kind.start) or board.norm(kind.start) in _PIECES)
        and (kind.name != "soft" or not _names(board, said.clause))
        and (kind.name != "skill" or _is_work(said.clause))
    ]


def _is_work(clause: Clause) -> bool:
    """Whether drills are a piece of work of their own, not part of a warm-up."""
    return clause.section != "warm-up" or clause.has("header-work")


def _section(board: Board, said: Statement, named: Sequence[str]) -> Section:
    """Warm-up, work or cool-down; a block named at the start of a clause settles it."""
    section = said.clause.section
    early = any(
        _early(said, kind.start - _EARLY) and (kind.name != "skill" or _is_work(said.clause))
        for kind in said.kinds
    )
    if early and section in ("warm-up", "work"):
        board.overruled = None if _WORK.isdisjoint(named) else section
    if board.overruled == section or _comes_last(board, said):
        return "work"
    board.overruled = None
    return section if section in ("warm-up", "cool-down") else "work"


def _comes_last(board: Board, said: Statement) -> bool:
    """Whether the end of the rounds, not of the session, is told: "to finish, 500 metres"."""
    clause, draft = said.clause, board.drafts[-1] if board.drafts else None
    if clause.section != "cool-down" or clause.has("header-cool-down") or draft is None:
        return False
    if draft.section != "work" or draft.clock != "for-time" or not said.efforts:
        return False
    return all(
        bound.amount is not None
        and bound.amount.unit != "s"
        and not stretches(bound.movement)
        and bound.movement not in ON_FOOT
        for bound in said.efforts
    )


def _opens(board: Board, said: Statement, named: Sequence[str]) -> bool:
    """Whether another block of the same section begins."""
    draft = board.draft
    early = any(_early(said, kind.start) for kind in said.kinds)
    fresh = any(kind != draft.kind or kind in _ANY or (early and kind in _WORK) for kind in named)
    if fresh and not draft.empty:
        return True
    same = all(kind == draft.kind for kind in named)
    told = said.clause.has("header-work") and same and not _names(board, said.clause)
    rested = said.clause.has("piece-rest") and bool(said.efforts)
    return (told or rested) and draft.section == "work" and draft.given


def _counted_off(board: Board, clause: Clause) -> bool:
    """ "Second lift", "the fourth bit", "phase two": a part at the start of a clause."""
    norms = board.norms(clause.start, clause.start + _EARLY + 2)
    for noun, number in pairwise(norms[: _EARLY + 1]):
        if noun in _CHUNKS and (number in _NUMBERS or number.isdigit()):
            return True
    return "round" not in norms and any(
        amount.shape == "ordinal"
        and not _PIECES.isdisjoint((board.norm(amount.end), board.norm(amount.end + 1)))
        for amount in starting_in(board.reading.amounts, clause.start, clause.start + _EARLY)
    )


def _named_last(board: Board, said: Statement) -> list[Work | Group]:
    """A movement named just before the talk moves on is taken along, as its sets follow."""
    items = board.draft.line.items if board.drafts else []
    last = items[-1] if items else None
    if not isinstance(last, Work) or not last.bare or last.bound is None:
        return []
    if board.draft.rungs or board.draft.clock == "intervals" or said.clause.section == "cool-down":
        return []  # there the clock or the rungs give the amount
    return [items.pop()] if said.start - last.bound.last < _EARLY else []


def _usual(section: Section) -> BlockKind:
    return _KINDS.get(section, "conditioning")


def _early(said: Statement, at: int) -> bool:
    """Whether a token is among the first of a statement, small words before it left out."""
    small = 0
    for span in said.row.spans:
        if span.word not in _SMALL:
            break
        small += 1
    return at - said.start - small <= _EARLY


def _names(board: Board, clause: Clause) -> bool:
    """Whether a clause names a movement."""
    return bool(board.named(clause.start, clause.end))
