"""Amounts without a movement: for the effort still bare, for each side, or the same way again."""

import re
from dataclasses import replace

from cuewright.movements.catalogue import catalogue
from cuewright.parse.board import NEAR, Board
from cuewright.parse.drafts import Group, Work
from cuewright.parse.ground import covers_ground, out_and_back
from cuewright.parse.spans import Row
from cuewright.parse.statements import Statement
from cuewright.parse.words import words
from cuewright_models.base import Range
from cuewright_models.tokens import Amount

_FIRST = 3
"""Tokens from the start of a statement within which an amount is what it is about."""
_LONG_S = 1800.0
_COUNTS = ("rounds", "sets", "turns")
"""Marks beside which a lone amount may still be that of the effort before."""
_EACH_SIDE = re.compile("H[Oe]{0,2}D")
_GIVES = words("orphans", "gives")
_POINTS = words("orphans", "points")
_BOUNDS = words("orphans", "bounds")
_WHOLES = words("orphans", "wholes")


def adopt(board: Board, said: Statement) -> None:
    """Find the effort that a lone amount is for; a shared amount takes no more."""
    works = board.draft.efforts
    if works and not said.efforts and "x" in said.row.letters:
        _as_long_as_possible(works[-1])
        return
    amount = _lone(board, said)
    if amount is None or board.draft.share:
        return
    if {amount.low, amount.high} & set(board.draft.rungs):  # "and so on, up to ten"
        return
    if works and _complete(works[-1], amount, said.row):
        return
    if works and _goes_so_far(board, works[-1], amount):
        return
    if amount.unit == "m" and board.norm(amount.start - 1) in _POINTS:
        way = next((work for work in reversed(works) if covers_ground(work)), None)
        if way is not None and way.bound is not None:
            start, end = said.row.start, amount.end
            here = replace(way.bound, start=start, end=amount.start, first=start, last=end)
            board.draft.line.items.append(Work(here, amount))


def _as_long_as_possible(work: Work) -> None:
    """ "One plank. And you hold it as long as you can"."""
    single = work.amount is not None and work.amount.unit is None and work.amount.low == 1
    if work.bound is not None and (work.bare or single):
        work.bound, work.amount = replace(work.bound, max=True), None


def _goes_so_far(board: Board, work: Work, amount: Amount) -> bool:
    """ "Five hill sprints. That's sixty metres": so often, so far."""
    line = board.draft.line
    counted = work.amount is not None and work.amount.unit is None and amount.unit == "m"
    if not counted or work not in line.items or board.norm(amount.start - 1) not in _POINTS:
        return False
    if work.bound is None or "m" not in catalogue()[work.movement].counted_in[:1]:
        return False
    often = Range(low=work.amount.low, high=work.amount.high) if work.amount else None
    work.amount = amount
    line.items[line.items.index(work)] = Group("repeat", often, items=[work])
    return True


def _complete(work: Work, amount: Amount, row: Row) -> bool:
    """Whether an amount says something of the last effort, and was given to it."""
    if work.bound is None:
        return False
    if work.amount and work.amount.low == amount.low and sides(row):
        work.bound = replace(work.bound, per_side=True)
    elif work.bare and _fits(amount, work) and amount.start - work.bound.last < NEAR:
        work.amount = amount
        sided = "H" in row.letters and sides(row)
        work.bound = replace(work.bound, per_side=work.bound.per_side or sided)
    elif amount.unit == "m" and out_and_back(row) and covers_ground(work):
        work.amount = amount
    else:
        return False
    return True


def _lone(board: Board, said: Statement) -> Amount | None:
    """The one amount of a statement that has no effort and no structure but a rest."""
    if said.efforts or any(mark.kind not in ("rest", *_COUNTS) for mark in said.marks):
        return None
    if any(mark.kind in _COUNTS for mark in said.marks) and not _waits(board):
        return None
    used = {at for mark in said.marks for at in range(mark.start, mark.end)}
    left = [
        span.amount
        for span in said.row.spans
        if span.letter in "ntdc" and span.start not in used and span.amount
    ]
    if any(board.norm(amount.start - 1) in _BOUNDS for amount in left):
        return None
    if any(_of_the_whole(board, said, amount) for amount in left):
        return None
    left = [
        amount
        for amount in left
        if amount.start - said.row.start <= _FIRST or board.norm(amount.start - 1) in _GIVES
    ]
    return left[0] if len({amount.low for amount in left}) == 1 else None


def _of_the_whole(board: Board, said: Statement, amount: Amount) -> bool:
    """ "The whole practice is fifty minutes": the length of everything is nobody's work."""
    before = board.norms(said.start, amount.start)
    return amount.unit == "s" and not _WHOLES.isdisjoint(before)


def _waits(board: Board) -> bool:
    """Whether the last effort has no amount, and no rungs give it one."""
    works = board.draft.efforts
    return bool(works) and works[-1].bare and not board.draft.rungs and not board.draft.clock


def _fits(amount: Amount, work: Work) -> bool:
    """Whether the movement is counted in the amount's unit, and can be done for so long.

    Half an hour and more that stands alone is the length of the session, unless the
    movement is one that is kept up, such as running or rowing.
    """
    row = catalogue()[work.movement]
    if amount.unit == "s" and (amount.low or 0) >= _LONG_S and "m" not in row.counted_in:
        return False
    return amount.unit is None or amount.unit in row.counted_in


def sides(row: Row) -> bool:
    """Whether the row says "each side"."""
    said = {span.word for span in row.spans}
    words_said = [span.word for span in row.spans]
    if ("in", "each", "hand") in zip(words_said, words_said[1:], words_said[2:], strict=False):
        return False
    return (
        _EACH_SIDE.search(row.letters) is not None
        or {"right", "left"} <= said
        or {"a", "side"} <= said
    )
