"""The time model's answer for a whole plan."""

from collections.abc import Mapping

from cuewright.estimate.answer import block_answer, profiles
from cuewright.estimate.athletes import Athletes, Given, Some
from cuewright.estimate.blocks import Timing, block_timing
from cuewright.estimate.crowd import Crowd, crowd
from cuewright.estimate.effort import paced, unit_of
from cuewright.estimate.stated import from_targets, stated_total
from cuewright_models.estimate import Basis, Estimate
from cuewright_models.plan import Plan, efforts

DRAWS, SEED = 10_000, 0


def estimate(
    plan: Plan,
    *,
    draws: int = DRAWS,
    seed: int = SEED,
    paces: Mapping[Given, float] | None = None,
) -> Estimate:
    """Low, likely and high seconds of the plan, its blocks and its items, per profile.

    So many athletes of each profile are drawn and go through the whole session, tiring and
    recovering; the answer is the 10th, 50th and 90th percentile of what they need. Movements
    whose pace is not known are listed and widen the total. ``paces`` are seconds for 100 m, a
    rep or a kcal that all athletes go at. The same plan, draws and seed give the same
    answer, to the byte.
    """
    timings, total = through(plan, crowd(draws, seed), paces)
    return Estimate(
        total=profiles(total),
        blocks=tuple(map(block_answer, plan.blocks, timings)),
        stated=stated_total(plan),
        from_targets=from_targets(plan),
        unknown_pace=_unknown(plan, paces or {}),
        basis=Basis(draws=draws, seed=seed),
    )


def through(
    plan: Plan, who: Crowd, paces: Mapping[Given, float] | None = None
) -> tuple[list[Timing], Some]:
    """The blocks as the crowd goes through them, and the whole with the ways between."""
    athletes = Athletes(who, paces)
    timings: list[Timing] = []
    total: Some = 0.0
    for nth, block in enumerate(plan.blocks):
        if nth:
            between = athletes.seconds("blocks")
            athletes.passes(between)
            total = total + between
        timings.append(block_timing(block, athletes))
        total = total + timings[-1].seconds
    return timings, total


def _unknown(plan: Plan, paces: Mapping[Given, float]) -> tuple[str, ...]:
    found = (
        e.movement
        for b in plan.blocks
        for e in efforts(b.items)
        if not paced(e) and (e.movement, unit_of(e)) not in paces
    )
    return tuple(dict.fromkeys(found))
