"""Efforts on their way to the board, less those that stand there already."""

from collections.abc import Sequence
from itertools import takewhile

from cuewright.parse.board import NEAR, Board
from cuewright.parse.drafts import Draft, Work
from cuewright.parse.efforts import Bound
from cuewright.parse.ground import goes_back, half_way, way_out
from cuewright.parse.likeness import akin, named_first, same, stretches
from cuewright.parse.sets import each_set
from cuewright.parse.structures import Mark
from cuewright.parse.words import words
from cuewright_models.tokens import starting_in

_CLOSE = 8
"""Tokens between a movement and its sets, at most."""
_SIDE = 4
"""Tokens after a movement within which its side is said."""
_AGAIN = words("works", "again")
_HANDS = words("works", "hands")
_SUMS = words("works", "sums")
_IS = ("is", "makes", "are")
_MAKES = ("that's", "makes")
_IN_ALL = ("in all", "in total", "all told", "all up", "all in")
_KNOWN = words("works", "known")
_ONCE_MORE = words("works", "once_more")


def effort(board: Board, bound: Bound, marks: Sequence[Mark]) -> None:
    """Add an effort to the open group or the line, unless it only repeats, sums up or completes."""
    work = _work(board, bound, marks)
    if _first_rung(board, work):
        work.amount = None
    if any(stands(board, work, bound) for stands in _STANDS):
        return
    draft = board.draft
    if _goes_out_again(board, work, bound):
        draft.close()
    if (way := half_way(board, work)) is not None:
        way.amount = work.amount
        return
    for item in draft.line.items:
        if isinstance(item, Work) and named_first(item, work):
            draft.line.items.remove(item)
            break
    draft.line.items.append(work)
    draft.line.places.append((bound.first, bound.last))
    if draft.open is not None and draft.open.single:
        draft.open = None


def _first_rung(board: Board, work: Work) -> bool:
    """Whether a ladder told without its work gets it now: "so twelve deadlifts, twelve sit ups"."""
    rungs, there = board.draft.rungs, board.draft.efforts
    if not rungs or work.amount is None or work.amount.low != rungs[0] or work.amount.unit:
        return False
    if not all(other.bare for other in there):
        return False
    return not akin(work.movement, board.draft.movements)


def _goes_out_again(board: Board, work: Work, bound: Bound) -> bool:
    """ "Then run 400 metres again": what came before the rounds comes after them too."""
    if board.draft.open is None or board.draft.open.kind != "repeat":
        return False
    if _ONCE_MORE.isdisjoint(board.norms(bound.first - 2, bound.last + 2)):
        return False
    return any(same(work, item) for item in board.draft.top.items if isinstance(item, Work))


def take_back(draft: Draft, at: int) -> None:
    """The list that was just given is taken back whole."""
    items = draft.line.items
    while items and isinstance(last := items[-1], Work) and last.bound:
        if at - last.bound.last >= NEAR:
            break
        items.pop()


def _work(board: Board, bound: Bound, marks: Sequence[Mark]) -> Work:
    """The effort with its own amount, that of its sets, or the way back."""
    by = next((mark for mark in marks if mark.kind == "by"), None)
    amount = bound.amount
    if amount is None and by is not None and _apart(board, bound, by) < _CLOSE:
        amount = each_set(by)
    work = Work(bound, amount)
    if goes_back(board, work):
        return Work(bound, way_out(board.draft), kept=True)
    return work


def _apart(board: Board, bound: Bound, mark: Mark) -> int:
    """Tokens between a movement and its sets, less what was taken back."""
    if mark.start >= bound.last:
        between = range(bound.last, mark.start)
    else:
        between = range(mark.end, bound.first)
    return sum(at not in board.without for at in between)


def _is_station(board: Board, work: Work, bound: Bound) -> bool:
    """Whether it names a station of the intervals again; one for each side counts."""
    draft = board.draft
    spoken_of = board.norm(bound.first - 1) in _KNOWN and akin(work.movement, draft.movements)
    if draft.clock == "intervals" and work.amount is None and spoken_of:
        return True
    if draft.clock != "intervals" or not _HANDS.isdisjoint(
        board.norms(bound.end, bound.end + _SIDE)
    ):
        return False
    return any(other.movement == work.movement for other in draft.line.works())


def _is_double(board: Board, work: Work, bound: Bound) -> bool:
    """Whether the same work stands there and this is not said to be more of it."""
    if not _AGAIN.isdisjoint(board.norms(bound.first - 2, bound.first)):
        return False
    items = reversed(board.draft.line.items)
    loose = takewhile(lambda item: isinstance(item, Work), items)
    return any(same(work, item) for item in loose if isinstance(item, Work))


def _is_rung(board: Board, work: Work, bound: Bound) -> bool:
    """Whether its amount is a rung of the ladder, or all of them together."""
    rungs = board.draft.rungs
    if rungs and work.bare and akin(work.movement, board.draft.movements):
        return True  # "rows" for the bent over rows of the ladder
    return bool(rungs) and work.amount is not None and work.amount.low in (*rungs, sum(rungs))


def _is_sum(board: Board, work: Work, bound: Bound) -> bool:
    """Whether it only adds up what the block already asks: "so that's 500 metres"."""
    amount, draft = work.amount, board.draft
    there = [other for other in draft.efforts if other.movement == work.movement]
    if amount is None or not there:
        return False
    if draft.clock == "every" and amount.unit is None and amount.low == draft.times:
        return True
    if _SUMS.isdisjoint(board.norms(bound.first - 4, bound.first + 1)):
        return False
    return any(w.amount and (amount.low or 0) >= 2 * (w.amount.low or 1) for w in there)


def _is_told_sum(board: Board, work: Work, bound: Bound) -> bool:
    """Whether words right behind call it the sum of work told before: "36 sit-ups in all"."""
    if work.amount is None:
        return False
    there = {name for draft in board.drafts for name in draft.movements}
    behind = board.norms(bound.end, bound.end + 2)
    if " ".join(behind) in _IN_ALL or _comes_to(board, bound.end):
        return work.movement in there
    made = work.amount.unit == "m" and board.norm(work.amount.start - 1) in _MAKES
    return (
        made and not any(other.bare for other in board.draft.efforts) and akin(work.movement, there)
    )


def _comes_to(board: Board, at: int) -> bool:
    """ "Ten sprints is 200 metres": what some work comes to, not more of it."""
    far = starting_in(board.reading.amounts, at + 1, at + 2)
    return board.norm(at) in _IS and bool(far) and far[0].unit == "m"


def _strays(board: Board, work: Work, bound: Bound) -> bool:
    """Whether a cool-down only speaks of the work again: "ready for twenty push ups"."""
    measured = work.amount is not None and work.amount.unit in ("s", "m")
    if board.draft.section != "cool-down" or measured:
        return False
    before = (draft for draft in board.drafts[:-1] if draft.section == "work")
    return not stretches(work.movement) and any(work.movement in d.movements for d in before)


def _comes_round(board: Board, work: Work, bound: Bound) -> bool:
    """Whether the clock only comes back to it: "and then you start again at the shuttles"."""
    draft = board.draft
    if draft.clock not in ("every", "amrap") or not work.bare or draft.rungs:
        return False
    return any(w.movement == work.movement and not w.bare for w in draft.efforts)


def _is_known(board: Board, work: Work, bound: Bound) -> bool:
    """ "The 150 skips": said as known, and the block has them."""
    if work.amount is None or board.norm(bound.first - 1) not in _KNOWN:
        return False
    return any(same(work, other) for other in board.draft.efforts)


_STANDS = (
    _comes_round,
    _is_known,
    _is_station,
    _is_double,
    _is_rung,
    _is_sum,
    _is_told_sum,
    _strays,
)
