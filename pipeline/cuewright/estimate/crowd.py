"""The athletes drawn: who they are today, as arrays of one row a profile.

Every array is the same whatever the plan, so each is made once for a size and a seed.
"""

from collections.abc import Iterable
from functools import lru_cache
from math import sqrt
from statistics import NormalDist
from typing import Any, TypeAlias
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from cuewright.errors import CuewrightError
from cuewright.paces.figures import Ends, figures
from cuewright_models.movement import Pace
from cuewright_models.profile import PROFILES

# Single precision halves the time; the arithmetic on it is the same on every machine.
Array: TypeAlias = NDArray[np.float32]
Wide: TypeAlias = NDArray[Any]

NINETIETH = 1.2816  # standard deviations from the median to the 90th percentile


class NobodyDrawn(CuewrightError):
    """A crowd of nobody was asked for."""


class Crowd:
    """``size`` athletes of each profile; without a ``seed`` the one in the middle of each.

    What is drawn has a name and by that its own random order: one movement more in a
    session leaves the others as they were. Each goes evenly through its distribution, so
    that only how they meet is left to chance.
    """

    def __init__(self, size: int = 10_000, seed: int | None = 0):
        self.size = 1 if seed is None else size
        self.seed = seed
        # Kept for as many things as a long session has.
        self.pace = lru_cache(128)(self._pace)
        self.known_pace = lru_cache(16)(self._known_pace)
        self.unbroken = lru_cache(128)(self._unbroken)
        self.seconds = lru_cache(64)(self._seconds)
        self.hold_s = lru_cache(1)(self._hold_s)
        self.choice = lru_cache(1)(self._choice)
        self._person = lru_cache(1)(self._who)

    def _pace(self, name: str, pace: Pace, limit: float) -> Array:
        """Seconds for each of a movement, never under the ``limit``."""
        ends = [figures().profile[profile].pace for profile in PROFILES]
        place = _percentiles(ends, self._place(name))
        slower = np.maximum(place, 0) * np.log(pace.slow / pace.typical)
        faster = np.minimum(place, 0) * np.log(pace.typical / pace.fast)
        return _kept(np.maximum(pace.typical * np.exp(slower + faster), limit))

    def _known_pace(self, seconds: float, limit: float) -> Array:
        """Seconds for each when the athletes' own pace is known, up to the day."""
        day = np.exp(figures().number["repeatability"] * self._normal("day"))
        return _kept(np.maximum(seconds * day, limit) * np.ones((len(PROFILES), 1)))

    def _unbroken(self, name: str, reps: tuple[float, ...]) -> Array:
        """Reps before a break when fresh; who is quicker lasts longer too."""
        spread = figures().number["unbroken-spread"]
        share = spread ** (-self._place(name) / NINETIETH)
        return _kept(np.maximum(np.array(reps)[:, None] * share, 1))

    def _seconds(self, name: str, ends: Ends, *, hurried: bool) -> Array:
        """Seconds of a thing by itself; ``hurried`` ones go by the profile's hurry."""
        hurry = [figures().profile[p].hurry if hurried else 1.0 for p in PROFILES]
        took = np.maximum(_percentiles([ends], self._normal(name)), 0)
        return _kept(np.array(hurry)[:, None] * took)

    def _hold_s(self) -> Array:
        """Seconds of a hold to failure."""
        ends = [figures().profile[profile].hold_s for profile in PROFILES]
        return _kept(np.maximum(_percentiles(ends, self._normal("athlete")), 1))

    def _choice(self) -> Array:
        """Where each athlete stays in a range that the coach leaves open, 0 low to 1 high."""
        return _kept(self._shuffled("choice", _evenly(self.size)))

    def _place(self, name: str) -> Wide:
        """Standard normal: how slow at the movement, from the athlete, the day and itself."""
        return self._person() + sqrt(figures().number["movement"]) * self._normal(name)

    def _who(self) -> Wide:
        number = figures().number
        athlete, day = sqrt(number["athlete"]), sqrt(number["day"])
        return athlete * self._normal("athlete") + day * self._normal("day")

    def _normal(self, name: str) -> Wide:
        return self._shuffled(name, _normals(self.size))

    def _shuffled(self, name: str, values: Wide) -> Wide:
        """The values in the order of the stream of that name."""
        if self.seed is None:
            return values
        return np.random.default_rng((self.seed, crc32(name.encode()))).permutation(values)


def _evenly(size: int) -> Wide:
    return (np.arange(size) + 0.5) / size


@lru_cache(4)
def _normals(size: int) -> Wide:
    """As many values of the standard normal distribution, spread evenly over it."""
    at = NormalDist().inv_cdf
    return np.array([at(share) for share in _evenly(size)])


@lru_cache(2)
def crowd(size: int, seed: int) -> Crowd:
    """The crowd of that size and seed, kept; raises NobodyDrawn when it is empty."""
    if size < 1:
        raise NobodyDrawn(f"{size} athletes cannot be drawn; give one or more.")
    return Crowd(size, seed)


@lru_cache(1)
def middle() -> Crowd:
    """The one athlete in the middle of each profile."""
    return Crowd(seed=None)


def _kept(wide: Wide) -> Array:
    made = wide.astype(np.float32)
    made.flags.writeable = False
    return made


def _percentiles(rows: Iterable[Ends], normal: Wide) -> Wide:
    """A row for each of ``rows``: its value at the percentile that ``normal`` stands for."""
    ends = [(one.low, one.likely, one.high) for one in rows]
    low, likely, high = (np.array(column)[:, None] for column in zip(*ends, strict=True))
    share = normal / NINETIETH
    placed: Wide = likely + np.where(share < 0, likely - low, high - likely) * share
    return placed
