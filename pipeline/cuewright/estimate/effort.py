"""Seconds of one effort: pace, breaks, and slowing."""

from dataclasses import dataclass

import numpy as np

from cuewright.estimate.athletes import Athletes, Some, plain
from cuewright.estimate.timed import Timed
from cuewright.movements.catalogue import catalogue
from cuewright.paces.figures import figures
from cuewright.paces.rates import Rate, rate, record_s
from cuewright_models.plan import Effort


@dataclass(frozen=True, slots=True)
class Going:
    """What surrounds an item.

    ``mixed`` work is slowed, as is ``easy`` work over a distance; ``pressed`` work drifts
    from round to round, here by the factor ``drift``; ``rung`` is the reps of the ladder's
    rung, ``work_s`` the work period of the intervals around; ``depth`` counts the repeats
    around.
    """

    mixed: bool = False
    easy: bool = False
    pressed: bool = False
    drift: Some = 1.0
    rung: int | None = None
    work_s: float | None = None
    depth: int = 0


def effort_timed(effort: Effort, athletes: Athletes, going: Going) -> Timed:
    """The effort, both sides where it is done for each side; the athletes tire by it.

    A movement without a pace and an amount that was not said take the wide figures of
    pace.toml, so that the doubt shows in the range.
    """
    took = _one_side(effort, athletes, going)
    if effort.per_side:
        took = Timed(
            *(2 * took.seconds, (), 2 * took.work_s, 2 * took.breaks),
            *(2 * took.breaks_s, 2 * took.drift_s),
        )
    athletes.passes(took.seconds)
    return took


def paced(effort: Effort) -> bool:
    """Whether the model knows how long the effort takes, or it is timed."""
    if effort.unit == "s":
        return True
    unit = unit_of(effort)
    return unit == "s" or rate(effort.movement, unit) is not None


def unit_of(effort: Effort) -> str:
    """The effort's unit; the movement's usual one when none was said."""
    movement = catalogue().get(effort.movement)
    if effort.unit != "none":
        return effort.unit
    return movement.counted_in[0] if movement else "none"


def _one_side(effort: Effort, athletes: Athletes, going: Going) -> Timed:
    said, unit = _said(effort, athletes, going), unit_of(effort)
    if unit == "s" and said is not None:
        return _plain(said)
    known = rate(effort.movement, unit)
    if said is None:
        return _plain(_open_ended(effort, known, athletes))
    if known is None:
        return _plain(_count(said, unit) * athletes.each_unknown(effort.movement, unit))
    if known.row.reference_m and known.unit == "m":
        return _plain(_over_distance(effort.movement, said / known.per, known, athletes, going))
    return _counted(effort, said / known.per, known, athletes, going)


def _plain(seconds: Some) -> Timed:
    return Timed(seconds, work_s=seconds)


def _count(said: Some, unit: str) -> Some:
    return said / 100 if unit == "m" else said


def _said(effort: Effort, athletes: Athletes, going: Going) -> Some | None:
    said = athletes.amount(effort.low, effort.high)
    if said is None and going.rung is not None and not effort.max:
        return athletes.amount(going.rung, going.rung)
    if said is None and effort.unit == "s":
        return going.work_s
    return said


def _open_ended(effort: Effort, known: Rate | None, athletes: Athletes) -> Some:
    """Seconds to failure for a ``max`` effort, the figures for "not said" otherwise."""
    if not effort.max:
        return athletes.spread("unsaid", figures().seconds["unsaid"])
    fresh = athletes.unbroken(known) if known else None
    if known is None or fresh is None:
        return athletes.crowd.hold_s()
    return fresh * athletes.each(effort.movement, known) * figures().number["failure"]


def _over_distance(
    name: str, hundreds: Some, known: Rate, athletes: Athletes, going: Going
) -> Some:
    """Seconds at the reference pace, corrected for the distance and for mixed work.

    T2 = T1 x (D2/D1)^1.06 (Riegel 1981), so the pace alone goes with the exponent 0.06.
    """
    number, row = figures().number, known.row
    metres = 100 * hundreds
    longer = np.maximum(metres, number["shortest"]) / (row.reference_m or 1)
    slower = longer ** (number["exponent"] - 1) * (row.mixed if going.mixed or going.easy else 1)
    start = plain(number["start"] * np.sign(metres))
    seconds = athletes.each(name, known) * plain(hundreds * slower * going.drift) + start
    return np.maximum(seconds, _record(known, metres))


def _record(known: Rate, metres: Some) -> float:
    """Seconds that nobody beats over the shortest of the distances."""
    return record_s(known.row, float(np.min(metres)))


def _counted(effort: Effort, count: Some, known: Rate, athletes: Athletes, going: Going) -> Timed:
    """Reps with their breaks, or plain amounts of a machine or a carry."""
    slower = figures().number["mixed"] if going.mixed and known.unit == "reps" else 1.0
    if known.unit == "kcal" and (going.mixed or going.easy):
        slower = known.row.mixed
    work = athletes.each(effort.movement, known) * (count * slower)
    if known.unit == "m":
        work = np.maximum(work, _record(known, 100 * count))
    breaks = _breaks(effort, count, known, athletes)
    pauses = 0.0 if breaks is None else breaks * athletes.seconds("break")
    steady = work if breaks is None else work + pauses
    unslowed = isinstance(going.drift, float) and going.drift == 1.0
    seconds = steady if unslowed else steady * going.drift
    return Timed(
        seconds,
        work_s=work,
        breaks=0.0 if breaks is None else breaks,
        breaks_s=pauses,
        drift_s=0.0 if unslowed else seconds - steady,
    )


def _breaks(effort: Effort, count: Some, known: Rate, athletes: Athletes) -> Some | None:
    """Breaks in a set: none while what is left of the capacity lasts, then one for each
    part of it that a break gives back. ``None`` for work that is not done in sets."""
    fresh = athletes.unbroken(known)
    if fresh is None:
        return None
    movement = catalogue()[effort.movement]
    hardest = _by_load(effort)
    if hardest is not None:
        fresh = np.minimum(fresh, hardest)
    share = count / fresh
    gone = athletes.tired(movement.patterns) + share
    athletes.tires(movement.patterns, np.minimum(gone, 1))
    return np.ceil(np.maximum(gone - 1, 0) * (1 / figures().number["regain"]))


def _by_load(effort: Effort) -> float | None:
    """Reps that a load in per cent of one's best allows: 30 x (100 / load - 1), from
    1RM = w (1 + r/30) (Epley 1985); at least one."""
    shares = [load.high for load in effort.load if load.unit == "%1rm" and load.high > 0]
    return max(30 * (100 / max(shares) - 1), 1.0) if shares else None
