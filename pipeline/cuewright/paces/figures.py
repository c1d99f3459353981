"""The figures of the time model, validated as they load."""

from dataclasses import dataclass
from functools import cache
from typing import Annotated

from pydantic import AfterValidator, Field, model_validator

from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.movement import Pace
from cuewright_models.profile import Profile

Positive = Annotated[float, Field(gt=0)]
NotNegative = Annotated[float, Field(ge=0)]


class Ends(Value):
    """A figure at the 10th, 50th and 90th percentile of athletes."""

    low: float
    likely: float
    high: float


def _rising(ends: Ends) -> Ends:
    if not ends.low <= ends.likely <= ends.high:
        raise ValueError("low, likely and high must not fall")
    return ends


Rising = Annotated[Ends, AfterValidator(_rising)]


class Row(Value):
    """What every row has: its key and where its figures come from."""

    name: str
    source: str = Field(min_length=1)


class ProfileRow(Row):
    """A profile: place on the line of paces, and seconds between."""

    pace: Rising
    hurry: Positive
    hold_s: Rising


class NumberRow(Row):
    """A single figure."""

    value: Positive


class SecondsRow(Row):
    """Seconds that something takes."""

    low: NotNegative
    likely: NotNegative
    high: NotNegative

    @model_validator(mode="after")
    def _ordered(self) -> "SecondsRow":
        _rising(self.ends)
        return self

    @property
    def ends(self) -> Ends:
        """The figures without their source."""
        return Ends(low=self.low, likely=self.likely, high=self.high)


class RecordsRow(Row):
    """Metres and seconds of records, rising."""

    points: tuple[tuple[Positive, Positive], ...] = Field(min_length=2)

    @model_validator(mode="after")
    def _ordered(self) -> "RecordsRow":
        if list(self.points) != sorted(self.points):
            raise ValueError("the distances must rise")
        return self


class Unbroken(Value):
    """Reps before a break for each profile."""

    newcomer: Positive
    regular: Positive
    advanced: Positive


class PaceRow(Row):
    """What one movement costs; ``pace.toml`` explains the fields."""

    reps: Pace | None = None
    m: Pace | None = None
    kcal: Pace | None = None
    unbroken: Unbroken | None = None
    limit: Positive | None = None
    records: str | None = None
    reference_m: Positive | None = None
    mixed: Positive = 1.0
    stride_m: Positive | None = None


@dataclass(frozen=True, slots=True)
class Figures:
    """The tables of pace.toml by name."""

    profile: dict[Profile, ProfileRow]
    number: dict[str, float]
    seconds: dict[str, Ends]
    unknown: dict[str, Ends]
    rest: dict[str, Ends]
    records: dict[str, RecordsRow]
    movement: dict[str, PaceRow]


@cache
def figures() -> Figures:
    """The shipped figures.

    Raises BadTable naming the row and field that does not fit.
    """
    table = raw("cuewright.paces", "pace.toml")
    where = "pace.toml"
    numbers = validated(table["number"], NumberRow, where=where)
    ends = {
        part: {n: row.ends for n, row in validated(table[part], SecondsRow, where=where).items()}
        for part in ("seconds", "unknown", "rest")
    }
    return Figures(
        profile=validated(table["profile"], ProfileRow, where=where),  # type: ignore[arg-type]
        number={name: row.value for name, row in numbers.items()},
        records=validated(table["records"], RecordsRow, where=where),
        movement=validated(table["movement"], PaceRow, where=where),
        **ends,
    )
