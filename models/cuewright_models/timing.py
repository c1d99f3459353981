"""Of what the seconds of a plan are made."""

from __future__ import annotations

from cuewright_models.base import Number, Value
from cuewright_models.plan import Source
from cuewright_models.profile import Profile


class ItemTiming(Value):
    """One item for the athlete in the middle of a profile, for one go.

    A go is the mean over the rounds or rungs around. ``seconds`` are ``work_s``, the pauses
    of ``breaks`` breaks, and what rounds slow down; the way to the item comes before them.
    """

    what: str
    """A movement, or ``repeat``, ``ladder``, ``slot`` or ``rest``."""
    seconds: Number
    amount: Number | None = None
    unit: str | None = None
    pace_s: float | None = None
    """Seconds of work for each of the unit, here."""
    work_s: Number = 0
    breaks: Number = 0
    breaks_s: Number = 0
    drift_s: Number = 0
    way_s: Number = 0
    known: bool = True
    """False when no pace is known."""
    items: tuple[ItemTiming, ...] = ()


class BlockTiming(Value):
    """One block; ``seconds`` by its clock where it has one."""

    id: str
    seconds: Number
    items: tuple[ItemTiming, ...] = ()


class PlanTiming(Value):
    """The whole session; ``between_s`` is the change from one block to the next."""

    source: Source
    profile: Profile
    seconds: Number
    between_s: Number
    blocks: tuple[BlockTiming, ...] = ()
