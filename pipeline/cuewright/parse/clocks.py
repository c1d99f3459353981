"""Structures that set the clock of a block: for time, as many rounds, every so often, intervals."""

from collections.abc import Sequence

from cuewright.parse.board import NEAR, Board
from cuewright.parse.drafts import Clock, Draft
from cuewright.parse.spans import Row
from cuewright.parse.statements import Statement
from cuewright.parse.structures import Mark
from cuewright.parse.words import words
from cuewright_models.tokens import Amount, starting_in

_AHEAD, _BEHIND = 14, 12
"""Tokens after and before "every minute" within which its length is said."""
_SHORTEST_S = 180
"""Open-ended work lasts at least so long; common practice, no source."""
_NO = words("clocks", "no")
_DENIED = 3
"""Tokens before a clock within which it is denied: "it isn't against the clock"."""
_MINUTES = 6
"""Up to this, a bare number of work or rest counts minutes."""
_TURNS = words("clocks", "turns")
_THEM = words("clocks", "them")
_NEXT = words("clocks", "next")
_RUN_UP = 3
"""Words from the start within which "then" is said."""


def set_clock(board: Board, said: Statement) -> None:
    """Set the clock of the block, and its length, cap or interval as far as they are told."""
    calls = {call.name for call in said.calls}
    _untimed(board, said, calls)
    for mark in _timed(board, said):
        if mark.kind in ("every", "emom"):
            _start(board, "every", said, mark.start)
            _every(board, mark, said.row)
        elif mark.kind == "intervals":
            _start(board, "intervals", said, mark.start)
            _intervals(board.draft, mark)
        elif mark.kind == "no-cap":
            board.draft.clock = board.draft.clock or "for-time"
        elif mark.kind == "cap" and mark.amounts and board.draft.clock in (None, "for-time"):
            board.draft.clock = "for-time"
            board.draft.cap_s = cap_s(mark.amounts[0])
    if "cap" in calls and board.draft.clock == "for-time" and board.draft.cap_s is None:
        board.draft.cap_s = first_time(said.row)
    if "sets" in calls:
        board.draft.sets = True


def first_time(row: Row) -> float | None:
    """The seconds of the first time in a row."""
    return next((s.amount.high for s in row.spans if s.letter == "t" and s.amount), None)


def cap_s(amount: Amount) -> float | None:
    """A cap's seconds; a bare number of one is minutes."""
    return amount.high * 60 if amount.unit is None and amount.high else amount.high


def _untimed(board: Board, said: Statement, calls: set[str]) -> None:
    """Clocks that run to the end of the work, or for as many rounds as go into a time."""
    times = [s.amount for s in said.row.spans if s.letter == "t" and s.amount is not None]
    if not times and "as-many" in calls:
        times = _length_before(board, said)
    many = "as-many" in calls and bool(times)
    named = [mark for mark in said.marks if mark.kind == "amrap" and not _known(board, mark)]
    if many or named:
        _start(board, "amrap", said, said.row.start)
        told = times[0].high if times else _minutes(named)
        board.draft.duration_s = board.draft.duration_s or told
    elif _against_the_clock(board, said) and board.draft.section == "work":
        _start(board, "for-time", said, said.row.start)


def _against_the_clock(board: Board, said: Statement) -> bool:
    """Whether the work is for time; "as fast as you can walk" is no clock."""
    ends = [
        call.end
        for call in said.calls
        if call.name == "for-time"
        and _NO.isdisjoint(board.norms(max(call.start - _DENIED, said.start), call.start))
    ]
    return any(board.norm(end - 1) != "can" or not board.named(end, end + 1) for end in ends)


def _length_before(board: Board, said: Statement) -> list[Amount]:
    """The length of open-ended work, told just before: "it's 18 minutes. You keep going round"."""
    if board.draft.clock is not None or board.draft.filled:
        return []
    near = starting_in(board.reading.amounts, said.start - NEAR, said.start)
    return [a for a in near if a.unit == "s" and (a.low or 0) >= _SHORTEST_S][-1:]


def _minutes(named: Sequence[Mark]) -> float | None:
    """The length of "AMRAP 12", in seconds."""
    bare = [mark.amounts[0].low for mark in named if mark.amounts and not mark.amounts[0].unit]
    return bare[0] * 60 if bare and bare[0] else None


def _known(board: Board, mark: Mark) -> bool:
    """Whether a clock is only spoken of: "in the AMRAP"."""
    if mark.kind not in ("amrap", "emom") or board.norm(mark.start - 1) != "the":
        return False
    clock = "amrap" if mark.kind == "amrap" else "every"
    return any(draft.clock == clock for draft in board.drafts)


def _timed(board: Board, said: Statement) -> list[Mark]:
    """The marks of a statement, and the phrases that say "every minute" in other words."""
    if any(mark.kind in ("every", "emom") for mark in said.marks):
        return [mark for mark in said.marks if not _known(board, mark)]
    calls = (call for call in said.calls if call.name == "emom")
    return [*said.marks, *(Mark("emom", call.start, call.end) for call in calls)]


def _start(board: Board, clock: Clock, said: Statement, at: int) -> None:
    """A clock for work still to come starts the next block where this one has work already."""
    draft = board.draft
    second = draft.clock not in (None, clock) or (draft.sets and not draft.clock)
    second = second or (draft.clock == clock and _announced(board, said))
    last = max((w.bound.last for w in draft.efforts if w.bound), default=0)
    follows = draft.clock is None and clock != "for-time" and at - last > NEAR
    more = bool(said.efforts) or said.later
    if (draft.filled or draft.rungs) and (second or (more and follows)):
        draft = board.start(Draft(draft.section, draft.kind))
    draft.clock = clock


def _announced(board: Board, said: Statement) -> bool:
    """Whether another clock comes next: "then an EMOM for ten minutes", not "the EMOM"."""
    first = [span.word for span in said.row.spans[:_RUN_UP]]
    named = any(
        mark.kind in ("emom", "amrap") and "the" not in board.norms(mark.start - 1, mark.end)
        for mark in said.marks
    )
    return named and not _NEXT.isdisjoint(first)


def _intervals(draft: Draft, mark: Mark) -> None:
    """Work and rest; bare small numbers are minutes; once there is work it stands."""
    if draft.work_s is None or not draft.top.items:
        draft.work_s, draft.rest_s = (
            (a.low or 0.0) * (60 if a.unit is None and (a.low or 0) <= _MINUTES else 1)
            for a in mark.amounts
        )


def _every(board: Board, mark: Mark, row: Row) -> None:
    """The interval of a clock, and either how long it runs or how often it starts."""
    draft = board.draft
    if draft.every_s is not None and draft.duration_s is not None:
        return
    if mark.kind == "emom" and mark.amounts and mark.amounts[0].low:  # "EMOM 10"
        draft.every_s, draft.times = 60.0, int(mark.amounts[0].low)
        return
    draft.every_s = mark.amounts[0].low if mark.amounts else 60.0
    draft.times = _counted(board, mark, row) or draft.times
    if draft.times is None and draft.duration_s is None and draft.every_s == 60.0:
        draft.times = _bare_minutes(row, mark)
    if draft.times is None:
        draft.duration_s = _whole_clock(board, mark, draft.every_s or 60.0)


def _bare_minutes(row: Row, mark: Mark) -> int | None:
    """ "Every minute on the minute for 16"."""
    after = [span for span in row.spans if span.start >= mark.end][:2]
    if len(after) < 2 or after[0].letter != "q" or after[1].letter != "n":
        return None
    return int(after[1].amount.low or 0) or None if after[1].amount else None


def _counted(board: Board, mark: Mark, row: Row) -> int | None:
    """How often the clock starts, where that is counted: "every two minutes, six rounds"."""
    after = [s for s in row.spans if s.start >= mark.end and s.amount is not None]
    for span in after[:2]:
        if span.amount and span.letter == "n" and _starts(board, span.end):
            return int(span.amount.low or 0)
    return None


def _starts(board: Board, at: int) -> bool:
    """Whether a number before ``at`` counts starts: "ten times", "ten of them"."""
    return board.norm(at) in _TURNS or (board.norm(at) == "of" and board.norm(at + 1) in _THEM)


def _whole_clock(board: Board, mark: Mark, every_s: float) -> float | None:
    """How long the clock runs in all: a time near by that the interval goes into."""
    near = [
        amount
        for amount in board.reading.amounts
        if amount.start not in board.without
        and goes_into(every_s, amount, at_least=2)
        and (mark.start <= amount.start < mark.end + _AHEAD
             or mark.start - _BEHIND < amount.end <= mark.start)
    ]  # fmt: skip
    return min(near, key=lambda amount: abs(amount.start - mark.end)).low if near else None


def goes_into(every_s: float, amount: Amount, *, at_least: int) -> bool:
    """Whether an amount is a whole number of intervals, ``at_least`` so many."""
    if amount.unit != "s" or not amount.low:
        return False
    return amount.low >= at_least * every_s and amount.low % every_s == 0
