"""What the draws come to: percentiles, and shares of athletes."""

from typing import Any

import numpy as np

from cuewright.estimate.amounts import usable
from cuewright.estimate.athletes import Some
from cuewright.estimate.blocks import Timing
from cuewright.estimate.timed import Timed
from cuewright_models.estimate import (
    BlockEstimate,
    BlockSeconds,
    ItemEstimate,
    Profiles,
    Rounds,
    Seconds,
)
from cuewright_models.plan import Amrap, Block, Every, ForTime, efforts
from cuewright_models.profile import PROFILES, Profile

PERCENTILES = (10, 50, 90)
Three = tuple[float, float, float]


def percentiles(some: Some) -> dict[Profile, Three]:
    """The 10th, 50th and 90th percentile for each profile, of draws that stand in order."""
    by_profile = np.broadcast_to(some, (len(PROFILES), np.shape(some)[-1] if np.ndim(some) else 1))
    if np.ndim(some) < 2:  # the same for all profiles
        by_profile = by_profile[:1]
    size = by_profile.shape[1]
    ordered = np.sort(by_profile, axis=1)
    at = [(size - 1) * percent // 100 for percent in PERCENTILES]
    rows = ordered[:, at].tolist()
    rows = rows if len(rows) == len(PROFILES) else rows * len(PROFILES)
    return {p: tuple(row) for p, row in zip(PROFILES, rows, strict=True)}


def profiles(some: Some) -> Profiles:
    """Seconds for each profile."""
    return Profiles(**{profile: _seconds(three) for profile, three in percentiles(some).items()})


def _seconds(three: Three) -> Seconds:
    return Seconds(low_s=three[0], likely_s=three[1], high_s=three[2])


def items(parts: tuple[Timed, ...]) -> tuple[ItemEstimate, ...]:
    """Item by item, nested as they are."""
    return tuple(
        ItemEstimate.model_construct(**dict(profiles(part.seconds)), items=items(part.parts))
        for part in parts
    )


def block_answer(block: Block, timing: Timing) -> BlockEstimate:
    """A block's seconds with what its structure adds."""
    seconds, extra = percentiles(timing.seconds), _extra(block, timing)
    each = {
        profile: BlockSeconds(low_s=low, likely_s=likely, high_s=high, **extra[profile])
        for profile, (low, likely, high) in seconds.items()
    }
    return BlockEstimate(id=block.id, **each, items=items(timing.parts))


def _extra(block: Block, timing: Timing) -> dict[Profile, dict[str, Any]]:
    shape = block.structure
    if isinstance(shape, ForTime) and (cap := usable(shape.cap_s)) is not None:
        within = _within(timing.work_s, cap)
        return {profile: {"finish": within[profile]} for profile in PROFILES}
    if isinstance(shape, Amrap) and timing.rounds is not None:
        done = percentiles(timing.rounds)
        return {
            profile: {"rounds": Rounds(low=low, likely=likely, high=high)}
            for profile, (low, likely, high) in done.items()
        }
    if isinstance(shape, Every) and not any(effort.max for effort in efforts(block.items)):
        every_s = usable(shape.every_s)
        if every_s is not None:
            return _in_intervals(timing.work_s, every_s)
    return {profile: {} for profile in PROFILES}


def _in_intervals(work: Some, every_s: float) -> dict[Profile, dict[str, Any]]:
    likely, within = percentiles(work), _within(work, every_s)
    return {
        profile: {"spare_s": every_s - likely[profile][1], "behind": 1 - within[profile]}
        for profile in PROFILES
    }


def _within(work: Some, limit: float) -> dict[Profile, float]:
    """Share of the draws whose seconds are inside the limit."""
    inside = np.broadcast_to(work, (len(PROFILES), np.shape(work)[-1] if np.ndim(work) else 1))
    counts = np.count_nonzero(inside <= limit, axis=1).tolist()
    return {p: n / inside.shape[1] for p, n in zip(PROFILES, counts, strict=True)}
