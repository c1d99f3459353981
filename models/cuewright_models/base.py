"""What every model shares: frozen values, amounts as ranges, and evidence.

Units everywhere: seconds, metres, whole counts. ``None`` means "not said".
"""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, PlainSerializer


class Value(BaseModel):
    """A frozen record; an unknown field is an error, so a misspelt one cannot hide."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


def tidy(number: float) -> int | float:
    """10.0 as 10, 804.6720001 as 804.7: whole where whole, one decimal elsewhere."""
    rounded = round(number, 1)
    return int(rounded) if rounded == int(rounded) else rounded


Number = Annotated[float, PlainSerializer(tidy, return_type=float | int)]
"""A number that serialises without a needless decimal."""


class Range(Value):
    """An amount; ``low == high`` when one number was said, ``None`` for an open end."""

    low: Number | None = None
    high: Number | None = None


class Said(Value):
    """Where something was said: seconds from the start, and the words as transcribed.

    Times are ``None`` when the source carries none. ``doubtful`` are the places in
    ``quote``, counted in words from 0, of those that a recogniser was not sure of; it is
    not written where there are none.
    """

    start_s: float | None = None
    end_s: float | None = None
    quote: str
    doubtful: tuple[int, ...] = Field(default=(), exclude_if=lambda places: not places)
    line: int | None = Field(default=None, exclude_if=lambda line: line is None)
    """The line of a written session, from 1; left out of what was spoken."""


Evidence = tuple[Said, ...]
