"""Seconds of one effort for one athlete, as pure functions."""

from dataclasses import dataclass
from math import ceil

from cuewright.estimate.athlete import Athlete, amount, seconds_each
from cuewright.estimate.figures import figures
from cuewright.movements.catalogue import catalogue
from cuewright_models.movement import Movement, Pace
from cuewright_models.plan import Effort


@dataclass(frozen=True, slots=True)
class Going:
    """What surrounds an item.

    ``mixed`` work is slowed, as is easy work; ``pressed`` work drifts from round to
    round, by the factor ``drift`` on average here; ``rung`` is the reps of the ladder's
    rung, ``work_s`` the work period of the intervals around.
    """

    mixed: bool = False
    pressed: bool = False
    drift: float = 1.0
    rung: int | None = None
    work_s: float | None = None


def effort_seconds(effort: Effort, athlete: Athlete, going: Going) -> float:
    """Seconds of the effort, both sides where it is done for each side.

    A movement without a pace and an amount that was not said take the wide figures of
    pace.toml, so that the doubt shows in the high end.
    """
    sides = 2 if effort.per_side else 1
    said = _said(effort, athlete, going)
    if effort.unit == "s" and said is not None:
        return sides * said
    movement = catalogue().get(effort.movement)
    if movement is None:
        return sides * figures().seconds["unknown"].at(athlete.end)
    if said is None:
        return sides * _open_ended(effort, movement, athlete)
    worked = _worked(movement, _unit(effort, movement), said, athlete, going)
    if worked is None:
        return sides * figures().seconds["unknown"].at(athlete.end)
    return sides * worked


def paced(effort: Effort) -> bool:
    """Whether the model knows how long the effort takes, or it is timed."""
    if effort.unit == "s":
        return True
    movement = catalogue().get(effort.movement)
    if movement is None:
        return False
    unit = _unit(effort, movement)
    return unit == "s" or _counted(movement, unit) is not None


def _said(effort: Effort, athlete: Athlete, going: Going) -> float | None:
    said = amount(effort.low, effort.high, athlete)
    if said is None and going.rung is not None and not effort.max:
        return amount(going.rung, going.rung, athlete)
    if said is None and effort.unit == "s":
        return going.work_s
    return said


def _unit(effort: Effort, movement: Movement) -> str:
    return movement.counted_in[0] if effort.unit == "none" else effort.unit


def _open_ended(effort: Effort, movement: Movement, athlete: Athlete) -> float:
    """Seconds to failure for a ``max`` effort, the figures for "not said" otherwise."""
    if not effort.max:
        return figures().seconds["unsaid"].at(athlete.end)
    if _unit(effort, movement) == "reps" and movement.pace and movement.unbroken:
        reps = movement.unbroken * athlete.unbroken * figures().number["failure"]
        return reps * seconds_each(movement.pace, athlete)
    return athlete.hold_s


@dataclass(frozen=True, slots=True)
class _Counted:
    """How a movement's amount turns into seconds: a pace for each ``per`` of the unit."""

    pace: Pace
    per: float
    broken: bool = False


def _counted(movement: Movement, unit: str) -> _Counted | None:
    """The pace for amounts in ``unit``, or ``None`` when it is not known."""
    table = figures()
    if unit == "kcal":
        kcal = table.kcal.get(movement.name)
        return _Counted(kcal, 1) if kcal else None
    if movement.pace is None:
        held = unit == "reps" and movement.counted_in == ("s",)
        return _Counted(_hold(), 1) if held else None
    usual = "m" if movement.counted_in[0] in ("m", "kcal") else "reps"
    if unit == usual:
        return _Counted(movement.pace, 100 if usual == "m" else 1, broken=usual == "reps")
    stride = table.stride.get(movement.name)
    if stride is None:
        return None
    per = 100 / stride if unit == "reps" else stride
    return _Counted(movement.pace, per, broken=usual == "reps")


def _hold() -> Pace:
    hold = figures().seconds["hold"]
    return Pace(fast=hold.low, typical=hold.likely, slow=hold.high)


def _worked(
    movement: Movement, unit: str, said: float, athlete: Athlete, going: Going
) -> float | None:
    """Seconds for ``said`` of the unit, or ``None`` when the pace is not known."""
    if unit == "s":
        return said
    counted = _counted(movement, unit)
    if counted is None:
        return None
    count = said / counted.per
    seconds = count * seconds_each(counted.pace, athlete)
    if movement.name in figures().endurance and said:
        seconds = _over_distance(movement.name, seconds, unit, count * 100, going)
    if counted.broken and movement.unbroken:
        seconds += breaks(count, movement.unbroken * athlete.unbroken) * pause(athlete)
    return seconds * going.drift


def _over_distance(name: str, seconds: float, unit: str, metres: float, going: Going) -> float:
    """Seconds at the reference pace, corrected for distance and for mixed work.

    T2 = T1 x (D2/D1)^1.06 (Riegel 1981), so the pace alone goes with the exponent 0.06.
    """
    row, number = figures().endurance[name], figures().number
    slowed = seconds * row.mixed if going.mixed else seconds
    if unit == "kcal":
        return slowed
    longer = max(metres, number["shortest"]) / row.reference_m
    return slowed * float(longer ** (number["exponent"] - 1)) + number["start"]


def breaks(count: float, first: float) -> int:
    """Breaks in a set of ``count`` reps whose first stretch is ``first`` reps.

    Each stretch is shorter than the one before, down to a floor.
    """
    number = figures().number
    stretch, floor = max(first, 1.0), max(first * number["floor"], 1.0)
    stretches = 0
    while count > 0 and stretch > floor:
        count, stretches = count - stretch, stretches + 1
        stretch *= number["fall"]
    return max(stretches + ceil(max(count, 0) / floor) - 1, 0)


def pause(athlete: Athlete) -> float:
    """Seconds of one break."""
    return figures().seconds["break"].at(athlete.end) * athlete.hurry
