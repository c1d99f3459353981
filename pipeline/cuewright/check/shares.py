"""Shares of athletes in words: what the time model's percentiles say of a stated time."""

from collections.abc import Callable
from math import ceil, floor

from cuewright.check.wording import duration, span
from cuewright_models.base import Range
from cuewright_models.estimate import BlockEstimate, BlockSeconds, Profiles, Seconds
from cuewright_models.profile import PROFILES, Profile

FINISHED = 0.9  # fewer inside a cap, and the 90th percentile is the cap itself

_WHO: dict[Profile, str] = {
    "newcomer": "newcomers",
    "regular": "regular athletes",
    "advanced": "advanced athletes",
}
_TENTHS = (
    "hardly any",
    "one in ten",
    "two in ten",
    "three in ten",
    "four in ten",
    "half of the",
    "six in ten",
    "seven in ten",
    "eight in ten",
    "nine in ten",
    "nearly all",
)


def tenths(share: float) -> str:
    """A share, 0 to 1, to the nearest tenth: ``half of the``, ``nine in ten``."""
    return _TENTHS[min(max(floor(10 * share + 0.5), 0), 10)]


def needing_more(seconds: Seconds, limit_s: float) -> str:
    """The share that needs more than the limit, as far as three percentiles tell it."""
    if seconds.low_s > limit_s:
        return "at least nine in ten"
    if seconds.likely_s > limit_s:
        return "more than half of the"
    return "fewer than half of the" if seconds.high_s > limit_s else "at most one in ten"


def done_within(seconds: Seconds, limit_s: float) -> str:
    """The share that needs no more than the limit, as far as three percentiles tell it."""
    if seconds.high_s <= limit_s:
        return "at least nine in ten"
    if seconds.likely_s <= limit_s:
        return "more than half of the"
    return "fewer than half of the" if seconds.low_s <= limit_s else "at most one in ten"


def told(share: Callable[[BlockSeconds | Seconds], str], answer: Profiles | BlockEstimate) -> str:
    """The share of each profile, those alike together: ``nine in ten newcomers, ...``."""
    alike: dict[str, list[str]] = {}
    for profile in PROFILES:
        alike.setdefault(share(getattr(answer, profile)), []).append(_WHO[profile])
    if len(alike) == 1:
        return f"{next(iter(alike))} athletes, newcomers to advanced,"
    return ", and ".join(f"{said} {' and '.join(who)}" for said, who in alike.items())


def takes(answer: Profiles | BlockEstimate) -> str:
    """What eight in ten regular athletes need, outwards to what one would say aloud.

    ``25 min to 28 min``; ``25 min or more`` where a cap stops them.
    """
    one = answer.regular
    low = _step(one.low_s) * floor(one.low_s / _step(one.low_s))
    if isinstance(one, BlockSeconds) and one.finish is not None and one.finish < FINISHED:
        return f"{duration(low)} or more"
    return span(Range(low=low, high=up(one.high_s)), "s")


def up(seconds: float) -> float:
    """Seconds rounded up to what one would say aloud."""
    return _step(seconds) * ceil(seconds / _step(seconds))


def _step(seconds: float) -> int:
    return 5 if seconds < 120 else 15 if seconds < 600 else 60
