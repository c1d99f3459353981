"""Lines and sentences of a written session that ask for no work: options, kit, targets, notes."""

from cuewright.parse.board import Board
from cuewright.parse.written.lines import Piece, Stated
from cuewright.parse.written.words import listed

_HEAD = 6
"""Words of a heading, or before a colon, that say what stands there."""


def heads_aside(board: Board, said: Stated) -> bool:
    """Whether a heading is of notes, not of work."""
    if said.kind is not None or said.efforts or said.line.kind not in ("heading", "item", "text"):
        return False
    if said.line.kind != "heading" and (said.end - said.start > _HEAD or len(said.pieces) > 1):
        return False
    norms = board.norms(said.start, min(said.end, said.start + _HEAD))
    return not listed("aside").isdisjoint(norms)


def without_asides(board: Board, said: Stated) -> tuple[Piece, ...]:
    """The sentences that ask for work; from the first aside on, none of the line does."""
    kept = []
    for piece in said.pieces:
        if _is_aside(board, piece, said):
            break
        kept.append(piece)
    return tuple(kept)


def _is_aside(board: Board, piece: Piece, said: Stated) -> bool:
    norms = _outside_brackets(board, piece, said)
    if listed("unasked").isdisjoint(norms):
        lead = board.norms(said.start, said.start + 2)
        opens = said.line.kind == "text" and not listed("aside").isdisjoint(lead)
        return opens and said.kind is None
    return True


def _outside_brackets(board: Board, piece: Piece, said: Stated) -> list[str]:
    """The words of a sentence less its notes: "10 burpees (step back if you like)"."""
    tokens = board.reading.tokens[piece.start : piece.end]
    notes = said.line.brackets
    return [t.norm for t in tokens if not any(a <= t.first < b for a, b in notes)]


def is_intro(board: Board, said: Stated) -> bool:
    """Whether a line before the first block only introduces the session."""
    if said.line.kind != "text" or said.kind is not None:
        return False
    first = board.norm(said.start)
    counted = any(mark.kind not in ("cap", "no-cap") for mark in said.marks)
    return not (first[:1].isdigit() or counted or any(b.amount for b in said.efforts))
