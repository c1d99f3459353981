"""One thing that a description says otherwise than the talk, with what mends it."""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from cuewright.comparison.align import Pair
from cuewright.comparison.stations import Station
from cuewright_models.base import Evidence
from cuewright_models.finding import Finding

Rule = Literal["description-differs", "description-missing", "description-extra", "promise-unkept"]


class Number(NamedTuple):
    """A number of the description that should be another, in seconds, metres or as counted."""

    old: float
    new: float
    unit: str


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Difference:
    """``expected`` is what the talk says, ``found`` what the description does.

    What mends it is in the rest: ``numbers`` to put right, a ``pair`` of efforts, a
    ``station`` that one side has alone, an ``order`` of stations as they should stand, or
    ``words`` that should be others.
    """

    rule: Rule
    about: str
    message: str
    expected: str | None = None
    found: str | None = None
    suggestion: str
    heard: Evidence = ()
    written: Evidence = ()
    numbers: tuple[Number, ...] = ()
    pair: Pair | None = None
    station: Station | None = None
    near: tuple[tuple[Station, bool], ...] = ()
    """What stands around the place of a missing station; ``True`` if it belongs in front."""
    instead: Station | None = None
    """What the description has in the place of the station."""
    apart: bool = False
    """Whether the description has nothing of the whole part that the station is in."""
    order: tuple[Station, ...] = ()
    words: tuple[str, str] | None = None

    def finding(self) -> Finding:
        """As every page shows it: what was heard, then what is written."""
        return Finding(
            rule=self.rule,
            severity="error",
            about=self.about,
            message=self.message,
            expected=self.expected,
            found=self.found,
            said=(*self.heard, *self.written),
            suggestion=self.suggestion,
        )
