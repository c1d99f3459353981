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
    """What eight in ten regular athletes need, outwards to round figures.

    ``25 min to 28 min``; ``25 min or more`` where a cap stops them.
    """
    needs = _rounded(answer)
    return f"{duration(needs.low or 0)} or more" if needs.high is None else span(needs, "s")


def aloud(answer: Profiles | BlockEstimate) -> str:
    """The same as a coach says it: ``25 to 28 minutes``, ``2 minutes 15 to 3 minutes``."""
    needs = _rounded(answer)
    low, high = needs.low or 0, needs.high
    if high is None:
        return f"{spoken(low)} or more"
    if low == high:
        return spoken(high)
    short = max(low, high) < 120
    if short or (low % 60 == 0 and high % 60 == 0):
        per, unit = (1, "seconds") if short else (60, "minutes")
        return f"{low / per:g} to {high / per:g} {unit}"
    return f"{spoken(low)} to {spoken(high)}"


def spoken(seconds: float) -> str:
    """``45 seconds``, ``2 minutes 15``."""
    minutes, rest = divmod(round(seconds), 60)
    if not minutes:
        return f"{rest} seconds"
    whole = f"{minutes} minute{'s' if minutes > 1 else ''}"
    return f"{whole} {rest}" if rest else whole


def _rounded(answer: Profiles | BlockEstimate) -> Range:
    """The regular athlete's 10th to 90th percentile; no high end where a cap stops them."""
    one = answer.regular
    low = _step(one.low_s) * floor(one.low_s / _step(one.low_s))
    capped = isinstance(one, BlockSeconds) and one.finish is not None and one.finish < FINISHED
    return Range(low=low, high=None if capped else up(one.high_s))


def up(seconds: float) -> float:
    """Seconds rounded up to what one would say aloud."""
    return _step(seconds) * ceil(seconds / _step(seconds))


def _step(seconds: float) -> int:
    return 5 if seconds < 120 else 15 if seconds < 600 else 60
