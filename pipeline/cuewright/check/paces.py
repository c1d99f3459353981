"""What one movement takes beside another, by the time model's typical paces."""

from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw
from cuewright_models.movement import Movement

METRES = 100
"""Paces over a distance are for so many metres."""


def typical(name: str, unit: str) -> float | None:
    """Seconds for one of ``unit``, fresh and without breaks; ``None`` when it is not known.

    The figures are those of the time model, or of the row in a coach's own file.
    """
    if unit == "s":
        return 1.0
    movement = catalogue().get(name)
    pace = _own(movement, unit) if movement and movement.pace else _shipped(name, unit)
    if pace is None:
        return None
    return pace / METRES if unit == "m" else pace


def _own(movement: Movement, unit: str) -> float | None:
    usual = "reps" if movement.counted_in[0] in ("reps", "s") else "m"
    return movement.pace.typical if movement.pace and unit == usual else None


def _shipped(name: str, unit: str) -> float | None:
    row = raw("cuewright.estimate", "pace.toml")["movement"].get(name, {})
    pace: dict[str, float] | None = row.get(unit)
    return pace["typical"] if pace else None
