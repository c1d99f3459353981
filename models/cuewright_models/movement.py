"""One row of the movement catalogue."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from cuewright_models.base import Value

CountedIn = Literal["reps", "s", "m", "kcal"]
Seconds = Annotated[float, Field(gt=0, le=86_400)]


class Pace(Value):
    """Seconds per repetition, per 100 m or per kcal."""

    fast: Seconds
    typical: Seconds
    slow: Seconds

    @model_validator(mode="after")
    def _rises(self) -> Self:
        if not self.fast < self.typical < self.slow:
            raise ValueError("fast, typical and slow must rise")
        return self


class Movement(Value):
    """A movement and what the tool knows of it.

    ``counted_in`` lists units, the usual one first. ``misheard`` are spellings that
    captions give it. ``skill`` is 1 (anyone), 2 (practised) or 3 (skilled). ``pace`` (per
    100 m where the usual unit is ``m`` or ``kcal``) and ``unbroken``, the reps a regular
    athlete does before a break, are for movements of one's own; those of the catalogue
    stand with the time model.
    """

    name: str
    said: tuple[str, ...] = ()
    misheard: tuple[str, ...] = ()
    patterns: tuple[str, ...] = ()
    kit: tuple[str, ...] = ()
    counted_in: Annotated[tuple[CountedIn, ...], Field(min_length=1)] = ("reps",)
    one_sided: bool = False
    impact: Literal["none", "low", "high"] = "none"
    skill: Annotated[int, Field(ge=1, le=3)] = 1
    flags: tuple[str, ...] = ()
    pace: Pace | None = None
    unbroken: Annotated[int, Field(ge=1, le=100_000)] | None = None
    easier: tuple[str, ...] = ()
    harder: tuple[str, ...] = ()
    swap: tuple[str, ...] = ()
