"""What a written line says of its block's clock."""

from cuewright.parse.clocks import cap_s
from cuewright.parse.drafts import Clock, Draft
from cuewright.parse.structures import Mark
from cuewright.parse.written.lines import Stated

_MINUTES = 6
"""Up to this, a bare number of work or rest counts minutes."""


def clock_of(said: Stated) -> Clock | None:
    """The clock that a line names, if any."""
    kinds = {mark.kind for mark in said.marks}
    if kinds & {"every", "emom"} or said.called("emom"):
        return "every"
    if "amrap" in kinds or (said.called("as-many") and _time(said) is not None):
        return "amrap"
    if "intervals" in kinds:
        return "intervals"
    if said.called("for-time") or kinds & {"cap", "no-cap"}:
        return "for-time"
    return None


def wind(draft: Draft, said: Stated) -> None:
    """Set the clock of a block as far as the line tells it."""
    clock = clock_of(said)
    if clock is None or (draft.clock not in (None, clock)):
        return
    draft.clock = clock
    for mark in said.marks:
        _wound(draft, mark, said)
    if clock == "amrap" and draft.duration_s is None:
        draft.duration_s = _time(said)
    if clock == "every":
        _every(draft, said)


def _wound(draft: Draft, mark: Mark, said: Stated) -> None:
    match mark.kind:
        case "cap" if mark.amounts:
            draft.cap_s = cap_s(mark.amounts[0])
        case "amrap" if mark.amounts:
            low, unit = mark.amounts[0].low or 0, mark.amounts[0].unit
            draft.duration_s = low if unit == "s" else low * 60
        case "intervals":
            draft.work_s, draft.rest_s = (
                (a.low or 0.0) * (60 if a.unit is None and (a.low or 0) <= _MINUTES else 1)
                for a in mark.amounts
            )
            draft.times = counted(said) or draft.times


def _every(draft: Draft, said: Stated) -> None:
    """The interval, and how often it starts or how long it runs."""
    mark = next((m for m in said.marks if m.kind in ("every", "emom")), None)
    told = mark.amounts[0] if mark is not None and mark.amounts else None
    if mark is not None and mark.kind == "emom" and told is not None:
        draft.every_s, draft.times = 60.0, int(told.low or 0) or None
        return
    draft.every_s = (told.low if told else None) or draft.every_s or 60.0
    draft.times = counted(said) or draft.times
    if draft.times is None:
        used = {told.start} if told is not None else set()
        draft.duration_s = _time(said, without=used, least=draft.every_s * 2)


def counted(said: Stated) -> int | None:
    """How often, where rounds or times are counted."""
    for mark in said.marks:
        if mark.kind in ("rounds", "turns", "sets") and mark.amounts:
            return int(mark.amounts[0].low or 0) or None
    return None


def _time(said: Stated, without: set[int] | None = None, least: float = 60) -> float | None:
    """The first time in a line that is as long as work is."""
    for piece in said.pieces:
        for span in piece.row.spans:
            if span.amount is not None and span.start not in (without or ()):
                amount = span.amount
                if amount.unit == "s" and (amount.low or 0) >= least:
                    return amount.low
    return None
