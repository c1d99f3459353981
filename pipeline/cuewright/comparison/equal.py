"""When two amounts are one and the same, in whatever units they were written."""

from cuewright_models.plan import Effort, Load

NEAR = 0.01
"""A mile rounded to 1600 m, yards told as metres."""
_KG = 0.45359237
"""One pound in kilogrammes (international avoirdupois pound, 1959)."""
_PLATES = 0.03
"""A bell of 16 kg is sold as one of 35 lb, one of 24 kg as 53 lb (common practice, no source)."""


def same(one: float | None, other: float | None, unit: str) -> bool:
    """Whether two amounts are equal: distances within 1 %, all else to a tenth."""
    if one is None or other is None:
        return one is other
    return abs(one - other) <= max(0.05, NEAR * max(one, other) if unit == "m" else 0)


def sided(talk: Effort, other: Effort) -> bool:
    """Whether two efforts ask for as much; "20 in all" is as much as 10 each side."""
    if talk.max or other.max:
        return talk.max == other.max
    if talk.unit != other.unit:
        return False
    shares = {1.0}
    if talk.per_side != other.per_side:
        shares.add(0.5 if talk.per_side else 2.0)
    return any(
        same(talk.low, _times(other.low, share), talk.unit)
        and same(talk.high, _times(other.high, share), talk.unit)
        for share in shares
    )


def _times(value: float | None, share: float) -> float | None:
    return None if value is None else value * share


def kilos(load: Load) -> tuple[float, float, str]:
    """The load's ends and what they are counted in; pounds as kilogrammes."""
    share = _KG if load.unit == "lb" else 1.0
    return load.low * share, load.high * share, "kg" if load.unit == "lb" else load.unit


def same_load(one: Load, other: Load) -> bool:
    """Whether two loads are equal, whoever they are for."""
    first, second = kilos(one), kilos(other)
    near = _PLATES if one.unit != other.unit else 0.001
    return first[2] == second[2] and all(
        abs(a - b) <= near * max(a, b) for a, b in zip(first[:2], second[:2], strict=True)
    )
