"""The figures of the time model, validated as they load."""

from dataclasses import dataclass
from functools import cache
from typing import Annotated

from pydantic import AfterValidator, Field, model_validator

from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.movement import Pace

Positive = Annotated[float, Field(gt=0)]
NotNegative = Annotated[float, Field(ge=0)]


class Ends(Value):
    """A figure at the low, likely and high end of a profile's athletes."""

    low: float
    likely: float
    high: float

    def at(self, end: int) -> float:
        """The figure at ``end``: 0 low, 1 likely, 2 high."""
        return (self.low, self.likely, self.high)[end]


def _rising(ends: Ends) -> Ends:
    if not ends.low <= ends.likely <= ends.high:
        raise ValueError("low, likely and high must not fall")
    return ends


Rising = Annotated[Ends, AfterValidator(_rising)]


class Row(Value):
    """What every row has: its key and where its figures come from."""

    name: str
    source: str = Field(min_length=1)


class AthleteRow(Row):
    """A profile: place on the line of paces, reps before a break, seconds between."""

    pace: Rising
    unbroken: Ends
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
        _rising(Ends(low=self.low, likely=self.likely, high=self.high))
        return self

    def at(self, end: int) -> float:
        """The seconds at ``end``: 0 low, 1 likely, 2 high."""
        return (self.low, self.likely, self.high)[end]


class KcalRow(Row):
    """Seconds a kcal on a machine."""

    fast: Positive
    typical: Positive
    slow: Positive

    @property
    def pace(self) -> Pace:
        """The figures as a movement's pace."""
        return Pace(fast=self.fast, typical=self.typical, slow=self.slow)


class EnduranceRow(Row):
    """The distance that a catalogue pace is for, and its slowing inside mixed work."""

    reference_m: Positive
    mixed: Positive


class StrideRow(Row):
    """Metres that one rep covers."""

    metres: Positive


@dataclass(frozen=True, slots=True)
class Figures:
    """The tables of pace.toml by name."""

    athlete: dict[str, AthleteRow]
    number: dict[str, float]
    seconds: dict[str, SecondsRow]
    rest: dict[str, SecondsRow]
    kcal: dict[str, Pace]
    endurance: dict[str, EnduranceRow]
    stride: dict[str, float]


@cache
def figures() -> Figures:
    """The shipped figures.

    Raises BadTable naming the row and field that does not fit.
    """
    table = raw("cuewright.estimate", "pace.toml")
    where = "pace.toml"
    numbers = validated(table["number"], NumberRow, where=where)
    kcal = validated(table["kcal"], KcalRow, where=where)
    stride = validated(table["stride"], StrideRow, where=where)
    return Figures(
        athlete=validated(table["athlete"], AthleteRow, where=where),
        number={name: row.value for name, row in numbers.items()},
        seconds=validated(table["seconds"], SecondsRow, where=where),
        rest=validated(table["rest"], SecondsRow, where=where),
        kcal={name: row.pace for name, row in kcal.items()},
        endurance=validated(table["endurance"], EnduranceRow, where=where),
        stride={name: row.metres for name, row in stride.items()},
    )
