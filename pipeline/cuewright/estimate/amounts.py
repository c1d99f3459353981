"""Amounts as they were said, made safe to reckon with."""

MOST = 1_000_000.0  # no amount counts for more, so that no sum overflows


def usable(number: float | None) -> float | None:
    """A count or clock between nothing and ``MOST``; ``None`` when not said or no number."""
    if number is None or number != number:  # only "not a number" differs from itself
        return None
    return float(min(max(number, 0), MOST))


def span(low: float | None, high: float | None) -> tuple[float, float] | None:
    """The usable ends of a range in order; an open end takes the end that was said."""
    said = sorted(n for end in (low, high) if (n := usable(end)) is not None)
    return (said[0], said[-1]) if said else None
