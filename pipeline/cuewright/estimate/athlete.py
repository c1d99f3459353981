"""One athlete: a profile at the low, likely or high end."""

from dataclasses import dataclass
from functools import cache

from cuewright.estimate.figures import figures
from cuewright_models.movement import Pace
from cuewright_models.profile import Profile

MOST = 1_000_000.0  # no amount counts for more, so that no sum overflows


@dataclass(frozen=True, slots=True)
class Athlete:
    """What the time model knows of one athlete.

    ``end`` is 0, 1 or 2 for the low, likely or high end of every range. ``pace`` is the
    place on a movement's line of paces, -1 fast to 1 slow; ``unbroken`` multiplies the
    reps before a break; ``hurry`` the seconds of breaks and transitions; ``hold_s`` is
    how long a hold to failure lasts.
    """

    end: int
    pace: float
    unbroken: float
    hurry: float
    hold_s: float


@cache
def athletes(profile: Profile) -> tuple[Athlete, Athlete, Athlete]:
    """The profile's athletes at the low, likely and high end."""
    row = figures().athlete[profile]
    low, likely, high = (
        Athlete(end, row.pace.at(end), row.unbroken.at(end), row.hurry, row.hold_s.at(end))
        for end in range(3)
    )
    return low, likely, high


def seconds_each(pace: Pace, athlete: Athlete) -> float:
    """The athlete's place on the line of paces, in proportion between its figures."""
    other = pace.fast if athlete.pace < 0 else pace.slow
    return float(pace.typical * (other / pace.typical) ** abs(athlete.pace))


def usable(number: float | None) -> float | None:
    """A count or clock between nothing and ``MOST``; ``None`` when not said or no number."""
    if number is None or number != number:  # only "not a number" differs from itself
        return None
    return float(min(max(number, 0), MOST))


def span(low: float | None, high: float | None) -> tuple[float, float] | None:
    """The usable ends of a range in order; an open end takes the end that was said."""
    first, last = usable(low), usable(high)
    if first is None or last is None:
        only = last if first is None else first
        return None if only is None else (only, only)
    return (first, last) if first <= last else (last, first)


def amount(low: float | None, high: float | None, athlete: Athlete) -> float | None:
    """The range's low end, middle or high end; ``None`` when it was not said."""
    ends = span(low, high)
    return None if ends is None else (ends[0], (ends[0] + ends[1]) / 2, ends[1])[athlete.end]
