"""Why the session takes as long as it does: pace, breaks, slowing and ways, item by item."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from cuewright.estimate.athletes import Given, Some
from cuewright.estimate.crowd import middle
from cuewright.estimate.effort import paced, unit_of
from cuewright.estimate.session import through
from cuewright.estimate.timed import Timed
from cuewright.paces.figures import figures
from cuewright_models.plan import Effort, Item, Plan, Rest
from cuewright_models.profile import PROFILES, Profile
from cuewright_models.timing import BlockTiming, ItemTiming, PlanTiming


def why_time(
    plan: Plan, profile: Profile, paces: Mapping[Given, float] | None = None
) -> PlanTiming:
    """The athlete in the middle of the profile on the way through the plan.

    Its seconds are near the likely ones of ``estimate``, not the same: a median of sums is
    no sum of medians. ``paces`` as for ``estimate``.
    """
    timings, total = through(plan, middle(), paces)
    of = _Of(profile, paces or {})
    between = figures().seconds["blocks"].likely * figures().profile[profile].hurry
    return PlanTiming(
        source=plan.source,
        profile=profile,
        seconds=of.one(total),
        between_s=between,
        blocks=tuple(
            BlockTiming(
                id=block.id,
                seconds=of.one(timing.seconds),
                items=tuple(map(of.item, block.items, timing.parts)),
            )
            for block, timing in zip(plan.blocks, timings, strict=True)
        ),
    )


class _Of:
    """One profile's figures."""

    def __init__(self, profile: Profile, paces: Mapping[Given, float]):
        self.row = PROFILES.index(profile)
        self.paces = paces

    def one(self, some: Some) -> float:
        """The profile's number."""
        return float(np.broadcast_to(some, (len(PROFILES), 1))[self.row, 0])

    def item(self, item: Item, timed: Timed) -> ItemTiming:
        """The item with those inside it."""
        plain: dict[str, Any] = {
            part: self.one(getattr(timed, part))
            for part in ("seconds", "work_s", "breaks", "breaks_s", "drift_s", "way_s")
        }
        if isinstance(item, Effort):
            return self._effort(item, plain)
        inside = () if isinstance(item, Rest) else tuple(map(self.item, item.items, timed.parts))
        return ItemTiming(what=item.do, items=inside, **plain)

    def _effort(self, effort: Effort, plain: dict[str, Any]) -> ItemTiming:
        unit = unit_of(effort)
        given = None not in (effort.low, effort.high)
        amount = ((effort.low or 0) + (effort.high or 0)) / 2 if given else None
        sides = 2 if effort.per_side else 1
        return ItemTiming(
            what=effort.movement,
            amount=amount and amount * sides,
            unit=unit,
            pace_s=round(plain["work_s"] / (amount * sides), 3) if amount and unit != "s" else None,
            known=paced(effort) or (effort.movement, unit) in self.paces,
            **plain,
        )
