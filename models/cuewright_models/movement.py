"""One row of the movement catalogue."""

from typing import Literal

from cuewright_models.base import Value

CountedIn = Literal["reps", "s", "m", "kcal"]


class Pace(Value):
    """Seconds per repetition, or per 100 m where the usual unit is ``m``."""

    fast: float
    typical: float
    slow: float


class Movement(Value):
    """A movement and what the tool knows of it.

    ``counted_in`` lists units, the usual one first. ``misheard`` are spellings that
    captions give it. ``skill`` is 1 (anyone), 2 (practised) or 3 (skilled). ``unbroken``
    is the reps a regular athlete does before a break.
    """

    name: str
    said: tuple[str, ...] = ()
    misheard: tuple[str, ...] = ()
    patterns: tuple[str, ...] = ()
    kit: tuple[str, ...] = ()
    counted_in: tuple[CountedIn, ...] = ("reps",)
    one_sided: bool = False
    impact: Literal["none", "low", "high"] = "none"
    skill: int = 1
    flags: tuple[str, ...] = ()
    pace: Pace | None = None
    unbroken: int | None = None
    easier: tuple[str, ...] = ()
    harder: tuple[str, ...] = ()
    swap: tuple[str, ...] = ()
