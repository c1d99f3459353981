"""What an item costs, and of what that is made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

from cuewright.estimate.athletes import Some


@dataclass(frozen=True, slots=True)
class Timed:
    """An item's seconds for one go, the mean over rounds or rungs.

    ``parts`` nests as the item's items do. Seconds are work, pauses in broken sets, and
    slowing from round to round (``drift_s``); ``breaks`` counts the pauses; ``way_s`` is
    the way to the item, which is not among its seconds.
    """

    seconds: Some
    parts: tuple[Timed, ...] = ()
    work_s: Some = 0.0
    breaks: Some = 0.0
    breaks_s: Some = 0.0
    drift_s: Some = 0.0
    way_s: Some = 0.0


_PARTS = [field.name for field in fields(Timed) if field.name not in ("seconds", "parts")]


def mean(gone: Sequence[Timed], weights: Sequence[Some], *, fully: bool) -> Timed:
    """The goes weighed against each other; ``fully`` with what they are made of."""
    if len(gone) == 1:
        return gone[0]
    made = {part: _weighed([getattr(go, part) for go in gone], weights) for part in _PARTS * fully}
    return Timed(
        seconds=_weighed([go.seconds for go in gone], weights),
        parts=tuple(
            mean(parts, weights, fully=fully)
            for parts in zip(*(go.parts for go in gone), strict=True)
        ),
        **made,
    )


def _weighed(figures: Sequence[Some], weights: Sequence[Some]) -> Some:
    if all(figure is figures[0] for figure in figures):
        return figures[0]
    return sum((f * w for f, w in zip(figures, weights, strict=True)), 0.0)
