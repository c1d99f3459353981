"""The rows of a written table as lines: each cell under its column's head."""

from dataclasses import replace

from cuewright.parse.board import Board
from cuewright.parse.structures import Mark
from cuewright.parse.written.lines import Stated, piece
from cuewright.parse.written.words import column_of
from cuewright_models.outline import Line
from cuewright_models.tokens import Amount, starting_in

Columns = dict[int, str]
"""What the head of each column says of its cells."""


def columns(board: Board, said: Stated) -> Columns:
    """The columns of a table by its head, empty for a movement or its amount."""
    out: Columns = {}
    for column, start, end in _cells(board, said.line, said.start, said.end):
        norms = board.norms(start, end) or ["#"]
        told = (column_of(norm) for norm in norms if "x" not in norms)  # "sets x reps"
        out[column] = next(filter(None, told), "")
    return out | {c: "index" for c in range(max(out, default=0)) if c not in out}


def row(board: Board, said: Stated, heads: Columns) -> Stated:
    """A row of a table as one line, with what its columns tell."""
    work: list[tuple[int, int]] = []
    found: list[Mark] = []
    for column, start, end in _cells(board, said.line, said.start, said.end):
        what = heads.get(column, "")
        count = _number(board, start, end)
        if what == "slot" and count is not None:
            found.append(Mark("slot", start, end, (count,)))
        elif what in ("sets", "rest") and count is not None:
            found.append(Mark("sets" if what == "sets" else "rest", start, end, (count,)))
        elif what not in ("index", "note", "slot"):
            work.append((start, end))
    if not work:
        return replace(said, pieces=())
    inside = {at for start, end in work for at in range(start, end)}
    start, end = work[0][0], work[-1][1]
    read = piece(board, start, end, without=frozenset(range(start, end)) - inside)
    marks = tuple(sorted((*read.marks, *found), key=lambda mark: mark.start))
    return replace(said, pieces=(replace(read, marks=marks),))


def _cells(board: Board, line: Line, start: int, end: int) -> list[tuple[int, int, int]]:
    """Each cell's column and tokens."""
    tokens = board.reading.tokens
    out = []
    for at, (part, column) in enumerate(zip(line.parts, line.columns, strict=True)):
        until = line.parts[at + 1] if at + 1 < len(line.parts) else line.last
        inside = [t for t in range(start, end) if part <= tokens[t].first < until]
        if inside:
            out.append((column, inside[0], inside[-1] + 1))
    return out


def _number(board: Board, start: int, end: int) -> Amount | None:
    return next(iter(starting_in(board.reading.amounts, start, end)), None)
