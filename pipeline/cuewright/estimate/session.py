"""The time model's answer for a whole plan."""

from collections.abc import Sequence

from cuewright.estimate.athlete import Athlete, athletes
from cuewright.estimate.blocks import Timing, block_seconds, block_timing
from cuewright.estimate.effort import paced
from cuewright.estimate.figures import figures
from cuewright.estimate.items import Timed
from cuewright.estimate.stated import from_targets, stated_total
from cuewright_models.estimate import BlockEstimate, Estimate, ItemEstimate, Profiles, Seconds
from cuewright_models.plan import Block, Plan, efforts
from cuewright_models.profile import PROFILES, Profile


def estimate(plan: Plan) -> Estimate:
    """Low, likely and high seconds of the plan, its blocks and its items, per profile.

    Deterministic: an athlete at the low, likely and high end of each profile goes
    through the whole session, so the ends of the parts add up to the ends of the whole.
    Movements whose pace is not known are listed and widen the total.
    """
    timings = [
        {profile: [block_timing(block, a) for a in athletes(profile)] for profile in PROFILES}
        for block in plan.blocks
    ]
    return Estimate(
        total=_profiles({profile: _total(profile, timings) for profile in PROFILES}),
        blocks=tuple(map(_block, plan.blocks, timings)),
        stated=stated_total(plan),
        from_targets=from_targets(plan),
        unknown_pace=_unknown(plan),
    )


def _total(profile: Profile, timings: Sequence[dict[Profile, list[Timing]]]) -> list[float]:
    """The session's seconds at each end, with the changes from block to block."""
    return [
        sum(block[profile][athlete.end].seconds for block in timings)
        + _between(len(timings), athlete)
        for athlete in athletes(profile)
    ]


def _between(blocks: int, athlete: Athlete) -> float:
    return figures().seconds["blocks"].at(athlete.end) * max(blocks - 1, 0)


def _block(block: Block, timings: dict[Profile, list[Timing]]) -> BlockEstimate:
    parts = {
        profile: list(zip(*(timing.parts for timing in three), strict=True))
        for profile, three in timings.items()
    }
    return BlockEstimate(
        id=block.id,
        newcomer=block_seconds(block, timings["newcomer"]),
        regular=block_seconds(block, timings["regular"]),
        advanced=block_seconds(block, timings["advanced"]),
        items=_items(parts),
    )


def _items(parts: dict[Profile, list[tuple[Timed, ...]]]) -> tuple[ItemEstimate, ...]:
    """Item by item, from each profile's low, likely and high athlete."""
    estimates = []
    for three in zip(*(parts[profile] for profile in PROFILES), strict=True):
        ends = dict(zip(PROFILES, three, strict=True))
        inner = {
            profile: list(zip(*(timed.parts for timed in three), strict=True))
            for profile, three in ends.items()
        }
        seconds = {p: _seconds([timed.seconds for timed in ends[p]]) for p in PROFILES}
        estimates.append(ItemEstimate(**seconds, items=_items(inner)))
    return tuple(estimates)


def _profiles(ends: dict[Profile, list[float]]) -> Profiles:
    return Profiles(**{profile: _seconds(three) for profile, three in ends.items()})


def _seconds(three: Sequence[float]) -> Seconds:
    low, likely, high = sorted(three)
    return Seconds(low_s=low, likely_s=likely, high_s=high)


def _unknown(plan: Plan) -> tuple[str, ...]:
    found = (e.movement for b in plan.blocks for e in efforts(b.items) if not paced(e))
    return tuple(dict.fromkeys(found))
