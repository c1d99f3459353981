"""How long the work takes: low, likely and high seconds for three athlete profiles."""

from __future__ import annotations

from typing import Annotated

from pydantic import PlainSerializer

from cuewright_models.base import Number, Value

Share = Annotated[float, PlainSerializer(lambda share: round(share, 3), return_type=float)]
"""A part of the whole, 0 to 1."""


class Seconds(Value):
    """10th, 50th and 90th percentile of athletes, in seconds."""

    low_s: Number
    likely_s: Number
    high_s: Number


class Rounds(Value):
    """Rounds of an ``amrap``; a fraction counts the started round."""

    low: Number
    likely: Number
    high: Number


class Profiles(Value):
    """One answer per athlete profile."""

    newcomer: Seconds
    regular: Seconds
    advanced: Seconds


class BlockSeconds(Seconds):
    """A profile's seconds for a block, with what its structure adds."""

    rounds: Rounds | None = None
    """``amrap`` only."""
    spare_s: Number | None = None
    """``every`` only: likely seconds left per interval."""
    behind: Share | None = None
    """``every`` only: share of athletes who do not finish an interval in time."""
    finish: Share | None = None
    """Capped blocks only: share of athletes inside the cap."""


class ItemEstimate(Profiles):
    """An item's seconds; ``items`` nests as the plan's items do."""

    items: tuple[ItemEstimate, ...] = ()


class BlockEstimate(Value):
    """A block's seconds; ``items`` follows the block's items."""

    id: str
    newcomer: BlockSeconds
    regular: BlockSeconds
    advanced: BlockSeconds
    items: tuple[ItemEstimate, ...] = ()


class StatedTotal(Value):
    """A total in seconds."""

    low_s: Number
    high_s: Number


class FromTargets(StatedTotal):
    """The coach's own station targets multiplied out; ``complete`` when each has one."""

    complete: bool


class Basis(Value):
    """What the figures stand on."""

    draws: int = 0
    seed: int = 0
    results: int = 0


class Estimate(Value):
    """The time model's answer beside what was stated."""

    total: Profiles
    blocks: tuple[BlockEstimate, ...] = ()
    stated: StatedTotal | None = None
    from_targets: FromTargets | None = None
    unknown_pace: tuple[str, ...] = ()
    basis: Basis = Basis()
