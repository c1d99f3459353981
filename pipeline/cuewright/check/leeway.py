"""When two figures are too far apart to be one figure said roughly."""

import math
import re
from functools import cache

from cuewright.tables import raw, validated
from cuewright_models.base import Evidence, Range, Value

PACKAGE = "cuewright.check"


class Leeway(Value):
    """A row of leeway.toml; shares are of the larger figure."""

    name: str
    share: float
    least: float
    hedged: float


@cache
def _rows() -> dict[str, Leeway]:
    return validated(raw(PACKAGE, "leeway.toml"), Leeway, where="leeway.toml")


@cache
def words(kind: str) -> frozenset[str]:
    """A list of words.toml."""
    return frozenset(raw(PACKAGE, "words.toml")[kind])


@cache
def _words(kind: str) -> re.Pattern[str]:
    spelt = map(re.escape, raw(PACKAGE, "words.toml")[kind])
    return re.compile(rf"\b({'|'.join(spelt)})\b", re.IGNORECASE)


def rough(said: Evidence) -> bool:
    """Whether any of the quotes calls its figure a rough one."""
    return speaks_of("rough", said)


def partial(said: Evidence) -> bool:
    """Whether any of the quotes is about some of the rounds or some of the people."""
    return speaks_of("part", said)


def speaks_of(kind: str, said: Evidence) -> bool:
    """Whether any of the quotes has one of the words of a list of words.toml."""
    return any(_words(kind).search(place.quote) for place in said)


def entire(said: Evidence) -> bool:
    """Whether any of the quotes speaks of a whole, and so of more than one station."""
    return any(_words("entire").search(place.quote) for place in said)


def apart(one: Range, other: Range, kind: str, said: Evidence = ()) -> bool:
    """Whether two ranges lie further apart than the row ``kind`` of leeway.toml allows.

    An open end reaches anything on its side. ``said`` is where the figures were said.
    """
    first, second = _ends(one), _ends(other)
    lower, upper = (first, second) if first[1] < second[0] else (second, first)
    gap = upper[0] - lower[1]
    if gap <= 0:
        return False
    row = _rows()[kind]
    share = row.hedged if rough(said) else row.share
    return gap > max(row.least, share * upper[0]) + 1e-9


def _ends(value: Range) -> tuple[float, float]:
    low = -math.inf if value.low is None else value.low
    return low, math.inf if value.high is None else value.high
