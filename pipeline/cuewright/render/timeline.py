"""The session as a line of time to draw: blocks to scale, ranges, and what was said."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cuewright.render import words
from cuewright.render.timetable import Row, Span, Times
from cuewright_models.profile import Profile

WIDTH = 640
_LEFT, _RIGHT = 116, 20
_TOP, _BOX, _LINE = 8, 34, 24
_STEPS_S = (30, 60, 120, 300, 600, 900, 1800, 3600)
_MOST_MARKS = 8
_MOST_BLOCKS = 40


@dataclass(frozen=True, slots=True)
class Box:
    """A block, as long as it is likely to take; its range ends in whiskers."""

    number: str
    name: str
    x: float
    width: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Lane:
    """A range for the whole session; ``likely`` for the model's, a band for what was said."""

    name: str
    clock: str
    y: float
    low: float
    high: float
    likely: float | None


@dataclass(frozen=True, slots=True)
class Mark:
    """A place on the scale of time."""

    x: float
    label: str


@dataclass(frozen=True, slots=True)
class Timeline:
    """What is drawn, in units of the picture; ``told`` is the picture in words."""

    boxes: tuple[Box, ...]
    lanes: tuple[Lane, ...]
    marks: tuple[Mark, ...]
    told: str
    top: float
    box: float
    bottom: float
    height: float
    width: float = WIDTH


def timeline(times: Times, profile: Profile = "regular") -> Timeline | None:
    """The line for one athlete's blocks and everybody's totals; ``None`` without times."""
    blocks = [row for row in times.rows if not row.total]
    totals = [row for row in times.rows if row.total]
    if not blocks or not totals or len(blocks) > _MOST_BLOCKS:
        return None
    starts, end = _starts(blocks, totals[0], profile)
    longest = max([end, *(span.high for row in totals for span in row.spans)])
    if longest <= 0:
        return None
    scale = (WIDTH - _LEFT - _RIGHT) / longest
    bottom = _TOP + _BOX + _LINE * (len(totals[0].spans) + 1)
    return Timeline(
        boxes=tuple(_boxes(blocks, starts, profile, scale)),
        lanes=tuple(_lanes(totals[0].spans, scale)),
        marks=tuple(_marks(longest, scale)),
        told=_told(totals[0].spans),
        top=_TOP,
        box=_BOX,
        bottom=bottom,
        height=bottom + _LINE,
    )


def _of(row: Row, profile: Profile) -> Span:
    return next(span for span in row.spans if span.name == profile)


def _starts(blocks: Sequence[Row], total: Row, profile: Profile) -> tuple[list[float], float]:
    """When each block starts, the seconds between them shared out evenly; and the end."""
    likely = [_of(row, profile).likely or 0 for row in blocks]
    spare = max((_of(total, profile).likely or 0) - sum(likely), 0)
    gap = spare / (len(blocks) - 1) if len(blocks) > 1 else 0
    starts = [0.0]
    for seconds in likely:
        starts.append(starts[-1] + seconds + gap)
    return starts[:-1], max(
        start + _of(row, profile).high for start, row in zip(starts, blocks, strict=False)
    )


def _boxes(
    blocks: Sequence[Row], starts: Sequence[float], profile: Profile, scale: float
) -> Iterable[Box]:
    for nth, (row, start) in enumerate(zip(blocks, starts, strict=True), 1):
        span = _of(row, profile)
        low, likely, high = (_x(start + s, scale) for s in (span.low, span.likely or 0, span.high))
        x = _x(start, scale)
        yield Box(str(nth), row.name, x, max(round(likely - x, 1), 1), low, high)


def _lanes(spans: Sequence[Span], scale: float) -> Iterable[Lane]:
    for nth, span in enumerate(spans):
        likely = None if span.likely is None else _x(span.likely, scale)
        low, high = _x(span.low, scale), _x(span.high, scale)
        y = _TOP + _BOX + _LINE * (nth + 1.25)
        yield Lane(span.name, _clock(span), y, low, max(high, low + 2), likely)


def _marks(longest: float, scale: float) -> Iterable[Mark]:
    step = next((s for s in _STEPS_S if longest / s <= _MOST_MARKS), longest / _MOST_MARKS)
    return (
        Mark(_x(n * step, scale), words.clock(n * step)) for n in range(int(longest / step) + 1)
    )


def _x(seconds: float, scale: float) -> float:
    return round(_LEFT + seconds * scale, 1)


def _clock(span: Span) -> str:
    if span.likely is not None:
        return words.clock(span.likely)
    return words.between(span.low or None, span.high, words.clock)


def _told(spans: Sequence[Span]) -> str:
    ranges = (f"{span.name} {words.between(span.low, span.high, words.clock)}" for span in spans)
    return f"Whole session: {', '.join(ranges)}."
