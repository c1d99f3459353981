"""Rounds: where they begin, what they hold, and where the talk leaves them."""

from bisect import bisect_left
from collections.abc import Sequence

from cuewright.movements.catalogue import catalogue
from cuewright.parse.board import NEAR, Board
from cuewright.parse.drafts import Draft, Group, Work
from cuewright.parse.efforts import Bound
from cuewright.parse.statements import Statement
from cuewright.parse.structures import Mark
from cuewright.parse.words import words
from cuewright_models.base import Range
from cuewright_models.tokens import Amount, starting_in

_CLOSE = 3
"""Tokens between a distance and the laps that it is, at most."""
_THAT = words("sets", "that")
_ROUNDS = words("rounds", "rounds")
_WHEN = words("rounds", "when")
_DONE = words("rounds", "done")
_DONE_EARLY = words("rounds", "done_early")
_LISTING = words("rounds", "listing")
_THINGS = words("rounds", "things")
_LAPS = words("rounds", "laps")
_LEADS_ON = words("rounds", "leads_on")
_ARTICLES = words("rounds", "articles")


def rounds(board: Board, mark: Mark, bound: Sequence[Bound]) -> None:
    """Rounds of the work to come or, said after the list, of the work that stands loose."""
    draft, amount = board.draft, mark.amounts[0]
    if _only_a_way(board, mark, bound) or _contrasted(board, mark, bound):
        return
    if _after_stations(draft, mark, bound):
        draft = board.start(Draft(draft.section, "accessory"))
    _turns(draft, amount)
    if draft.clock in ("amrap", "every", "intervals"):
        return
    times = Range(low=amount.low, high=amount.high)
    if _standing(draft, times) or (not bound and _counts_again(draft, mark)):
        return
    if draft.open is not None and not draft.open.items:
        draft.open.times = times
    elif not draft.line.items or _ahead(board, mark, bound) or _after_the_way(board, mark, bound):
        draft.add(Group("repeat", times))
    elif draft.open is None and isinstance(draft.top.items[-1], Work):
        wrap(draft, times, _things(board, mark))


def moves_on(board: Board, said: Statement) -> bool:
    """Whether a statement leaves the rounds that stand before it."""
    norms = board.norms(said.start, min(said.start + 10, said.clause.end))
    if _after_the_last(board, said, norms):
        return True
    if not _WHEN.isdisjoint(norms) and not _ROUNDS.isdisjoint(norms):
        return not _DONE.isdisjoint(norms)
    if not {"when", "once"}.isdisjoint(norms[:3]) and not _DONE_EARLY.isdisjoint(norms):
        return True
    group = board.draft.open
    if group is None or group.kind != "repeat" or not group.listed:
        return False
    begins = " ".join(norms[:3])
    return begins.startswith(("then", "and then", "after that", "and after that"))


def _after_the_last(board: Board, said: Statement, norms: Sequence[str]) -> bool:
    """ "And after your fifth round": the number is that of all rounds."""
    group = board.draft.open
    if group is None or group.times is None or "after" not in norms[:3]:
        return False
    near = starting_in(board.reading.amounts, said.start, said.start + len(norms))
    return any(
        amount.shape == "ordinal"
        and amount.low == group.times.high
        and board.norm(amount.end) in _ROUNDS
        for amount in near
    )


def is_listed(board: Board, bound: Sequence[Bound]) -> bool:
    """Whether an "and" before its last effort closes a list."""
    if len(bound) < 2:
        return False
    at = bound[-1].first - 1
    while board.norm(at) in _ARTICLES:
        at -= 1
    return board.norm(at) == "and"


def _only_a_way(board: Board, mark: Mark, bound: Sequence[Bound]) -> bool:
    """ "That's two laps, so 800 metres": laps that only say how far it is."""
    if _LAPS.isdisjoint(board.norms(mark.start, mark.end)):
        return False
    if bound:  # "jog 800 metres, two laps"
        far = [b.amount for b in bound if b.amount and b.amount.unit == "m"]
        return any(0 <= mark.start - amount.end < _CLOSE for amount in far)
    near = board.reading.amounts
    first, last = mark.start - NEAR // 2, mark.end + NEAR // 2
    return any(a.unit == "m" and first <= a.start < last for a in near)


def _contrasted(board: Board, mark: Mark, bound: Sequence[Bound]) -> bool:
    """ "So it's six rounds, not ten": of rounds that stand on the board, against another day's."""
    stand = any(isinstance(i, Group) and i.times and i.items for i in board.draft.top.items)
    numbers = starting_in(board.reading.amounts, mark.end + 1, mark.end + 2)
    return not bound and stand and board.norm(mark.end) == "not" and bool(numbers)


def _after_stations(draft: Draft, mark: Mark, bound: Sequence[Bound]) -> bool:
    """Whether rounds with counts of their own follow a full circuit of timed stations."""
    full = draft.clock == "intervals" and draft.times is not None and draft.filled
    counted = [b for b in bound if b.amount is not None and b.amount.unit is None]
    return full and mark.kind == "rounds" and len(counted) > 1 and counted[0].first >= mark.end


def _turns(draft: Draft, amount: Amount) -> None:
    """Against a clock, rounds count how often it starts."""
    open_ended = draft.clock == "intervals" or (draft.clock == "every" and draft.duration_s is None)
    if open_ended and draft.times is None and amount.low != 1:  # "one station every time"
        draft.times = draft.counted = int(amount.low or 0)


def _counts_again(draft: Draft, mark: Mark) -> bool:
    """ "Eight sit to stands. Up and down again, eight times": the same number, said again."""
    last = draft.line.items[-1] if draft.line.items else None
    if mark.kind != "turns" or not isinstance(last, Work) or last.amount is None:
        return False
    return last.amount.unit is None and last.amount.low == mark.amounts[0].low


def _standing(draft: Draft, times: Range) -> bool:
    """Whether these rounds are open, or were closed with work in them."""
    if draft.open is not None and draft.open.times == times:
        return True
    return any(isinstance(i, Group) and i.times == times and i.items for i in draft.top.items)


def _ahead(board: Board, mark: Mark, bound: Sequence[Bound]) -> bool:
    """Whether the work of the rounds is still to come, in this statement or the next."""
    if bound:
        if of_that(board, mark):
            return False  # "two rounds of that, walk back after each one"
        return any(b.first >= mark.end and b.amount is not None for b in bound)
    return _listed_next(board, mark)


def _after_the_way(board: Board, mark: Mark, bound: Sequence[Bound]) -> bool:
    """Whether only a run or a row stands before the rounds, and their list is still to come."""
    if bound or board.draft.open is not None or mark.kind != "rounds":
        return False
    if len(board.draft.top.items) > 1 or not all(_sets_out(item) for item in board.draft.top.items):
        return False
    there = board.draft.movements
    ends = {amount.end for amount in board.reading.amounts}
    return any(
        named.start in ends and named.name not in there
        for named in board.named(mark.end, mark.end + 2 * NEAR)
    )


def _listed_next(board: Board, mark: Mark) -> bool:
    """Whether the list of the rounds comes after them: "four rounds, and in a round it's …"."""
    if board.norms(mark.end, mark.end + 2) in (["of", "that"], ["of", "those"]):
        return False
    if board.norm(mark.start - 1) in _THAT:
        return False  # "we do all of those twice"
    at = bisect_left(board.clauses, mark.end, key=lambda clause: clause.start)
    end = board.clauses[at].start if at < len(board.clauses) else len(board.reading.tokens)
    if end > mark.end and board.norm(end - 1) in _LEADS_ON:
        return True  # "six rounds, and in each round it's"
    if at >= len(board.clauses) or not board.clauses[at].has("prescribes"):
        return False
    start = board.clauses[at].start
    norms = [norm for norm in board.norms(start, start + 2) if norm != "and"]
    return bool(norms) and norms[0] in _LISTING


def of_that(board: Board, mark: Mark) -> bool:
    """ "Four sets of that", "two rounds of those": of the list that stands there."""
    return board.norm(mark.end) == "of" and board.norm(mark.end + 1) in _THAT


def _things(board: Board, mark: Mark) -> int:
    """How many things are repeated, where the coach says so: "them three things twice"."""
    for amount in board.reading.amounts:
        if 0 < mark.start - amount.start < NEAR // 2 and board.norm(amount.end) in _THINGS:
            return int(amount.low or 0)
    return 0


def wrap(draft: Draft, times: Range, things: int = 0) -> None:
    """Repeat what stands loose at the end: so many ``things``, or all (0)."""
    loose: list[Work | Group] = []
    while draft.top.items and isinstance(draft.top.items[-1], Work):
        if things and len(loose) == things:
            break
        loose.insert(0, draft.top.items.pop())
    while len(loose) > 2 and _sets_out(loose[0]) and not _sets_out(loose[1]):
        draft.top.items.append(loose.pop(0))
    draft.add_closed(Group("repeat", times, items=loose))


def _sets_out(work: Work | Group) -> bool:
    """Whether an effort is a stretch of running or rowing that comes before the rounds."""
    if isinstance(work, Group) or work.rest or work.amount is None:
        return False
    return work.amount.unit in ("s", "m") and "locomotion" in catalogue()[work.movement].patterns
