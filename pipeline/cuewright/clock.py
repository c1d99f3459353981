"""A time in a recording, or a length, as it stands on a clock."""


def clock(seconds: float) -> str:
    """Seconds as ``m:ss``, or ``h:mm:ss`` from an hour."""
    whole = int(seconds + 0.5)
    minutes, rest = divmod(whole, 60)
    if minutes < 60:
        return f"{minutes}:{rest:02d}"
    return f"{minutes // 60}:{minutes % 60:02d}:{rest:02d}"
