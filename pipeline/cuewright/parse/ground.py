"""Ground covered on foot: the way out, the way back, and the same way again."""

from collections import Counter

from cuewright.movements.catalogue import catalogue
from cuewright.parse.board import Board
from cuewright.parse.drafts import Draft, Work
from cuewright.parse.efforts import Bound
from cuewright.parse.spans import Row
from cuewright.parse.structures import Mark
from cuewright.parse.words import words
from cuewright_models.tokens import Amount

ON_FOOT = words("ground", "easy")
_FAR = words("ground", "far")
_FEWEST = 2
"""Times that a movement is spoken of before it goes without saying."""
_RUN_UP = 8
"""Tokens before an effort in which "out and back" may be said."""


def covers_ground(work: Work) -> bool:
    """Whether an effort covers metres without a machine, so that it can go the same way again."""
    if work.rest or work.amount is None or work.amount.unit != "m":
        return False
    row = catalogue()[work.movement]
    return "locomotion" in row.patterns and not row.kit


def goes_back(board: Board, work: Work) -> bool:
    """Whether an effort without an amount only goes back: "and walk back"."""
    if work.bound is None or work.amount is not None:
        return False
    return work.movement in ON_FOOT and board.norm(work.bound.end) == "back"


def way_out(draft: Draft) -> Amount | None:
    """The metres of the effort before, which a walk back covers again."""
    for work in reversed(draft.line.items):
        if isinstance(work, Work) and work.amount is not None:
            return work.amount if work.amount.unit == "m" else None
    return None


def half_way(board: Board, work: Work) -> Work | None:
    """The effort that only had the way out: "twenty metres, so out and back is forty"."""
    if work.bound is None or work.amount is None or work.amount.unit != "m":
        return None
    if "back" not in board.norms(work.bound.first - _RUN_UP, work.bound.last):
        return None
    for other in board.draft.line.items:
        if isinstance(other, Work) and other.movement == work.movement:
            metres = other.amount if other.amount and other.amount.unit == "m" else None
            if metres is not None and (metres.low or 0) * 2 == work.amount.low:
                return other
    return None


def covered(board: Board, mark: Mark) -> Bound | None:
    """What metres are covered by where the coach need not say: "six by 400 metres".

    The one movement over a distance that the talk speaks of most.
    """
    if mark.amounts[-1].unit != "m":
        return None
    told = Counter(m.name for m in board.reading.movements if m.name in _FAR)
    most = told.most_common(1)
    if not most or most[0][1] < _FEWEST:
        return None
    return Bound(most[0][0], mark.start, mark.end, None, mark.start, mark.end)


def out_and_back(row: Row) -> bool:
    """Whether a row gives the whole way: "so out and back is 40 metres"."""
    said = [span.word for span in row.spans]
    return any(said[at : at + 2] == ["and", "back"] for at in range(len(said)))
