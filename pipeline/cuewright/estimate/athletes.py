"""A crowd on its way through a session: the time since the start, and what has tired."""

from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias

import numpy as np

from cuewright.estimate.amounts import span
from cuewright.estimate.crowd import Array, Crowd
from cuewright.paces.figures import Ends, figures
from cuewright.paces.rates import Rate
from cuewright_models.profile import PROFILES

Some: TypeAlias = Any
"""Seconds or counts, numbers or arrays: one for all, for each draw, or each profile and draw."""

Given: TypeAlias = tuple[str, str]
"""A movement, and the unit that its pace is given for."""


def plain(some: Any) -> Some:
    """A single number as Python's own, which leaves the precision of arrays as it is."""
    return float(some) if np.ndim(some) == 0 else some


class Athletes:
    """The athletes of a crowd, who tire by pattern and recover as time passes.

    ``paces`` are seconds for each that the question itself gives.
    """

    def __init__(self, crowd: Crowd, paces: Mapping[Given, float] | None = None):
        self.crowd = crowd
        self.paces = paces or {}
        self.clock: Some = 0.0
        self._tired: dict[str, tuple[Array, Some]] = {}

    def passes(self, seconds: Some) -> None:
        """Time goes by."""
        self.clock = self.clock + seconds

    def amount(self, low: float | None, high: float | None) -> Some | None:
        """The amount that each chooses in a range; ``None`` when it was not said."""
        ends = span(low, high)
        if ends is None or ends[0] == ends[1]:
            return ends and ends[0]
        return ends[0] + self.crowd.choice() * (ends[1] - ends[0])

    def each(self, name: str, rate: Rate) -> Array:
        """Seconds for each of what the rate's pace is for."""
        if (name, rate.unit) in self.paces:
            return self.crowd.known_pace(self.paces[name, rate.unit], rate.limit)
        return self.crowd.pace(name, rate.pace, rate.limit)

    def each_unknown(self, name: str, unit: str) -> Array:
        """Seconds for each of a movement without a pace: as given, or the wide figures."""
        if (name, unit) in self.paces:
            return self.crowd.known_pace(self.paces[name, unit], 0.0)
        unknown = figures().unknown
        return self.spread(name, unknown.get(unit, unknown["reps"]))

    def unbroken(self, rate: Rate) -> Array | None:
        """Reps before a break when fresh."""
        reps = rate.row.unbroken
        if reps is None or rate.unit != "reps":
            return None
        return self.crowd.unbroken(rate.row.name, tuple(getattr(reps, p) for p in PROFILES))

    def seconds(self, name: str) -> Array:
        """Seconds of a break or a way, by the athletes' hurry."""
        return self.crowd.seconds(name, figures().seconds[name], hurried=True)

    def spread(self, name: str, ends: Ends) -> Array:
        """Seconds that do not hang on the profile."""
        return self.crowd.seconds(name, ends, hurried=False)

    def tired(self, patterns: Sequence[str]) -> Some:
        """The part of the fresh capacity that is gone now, 0 to 1."""
        half = figures().number["recovery"]
        gone: Some = 0.0
        for pattern in patterns:
            if pattern in self._tired:
                then, at = self._tired[pattern]
                now = then * (half / (half + (self.clock - at)))
                gone = now if isinstance(gone, float) else np.maximum(gone, now)
        return gone

    def tires(self, patterns: Sequence[str], gone: Array) -> None:
        """The patterns are left with ``gone`` of their capacity gone."""
        for pattern in patterns:
            self._tired[pattern] = (gone, self.clock)
