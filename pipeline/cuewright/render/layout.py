"""Spoken words to captions: where each begins and ends, and where its line breaks.

All ways to cut the talk are compared, by dynamic programming, and the cheapest is taken;
what is wanted of captions and what a fault costs stands in ``captions.toml``.
"""

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from cuewright.tables import raw
from cuewright_models.base import Value

_LEAST_S = 0.1
"""Between the starts of two captions, where words have one time."""
_TOO_MUCH = 1000.0
"""Costs more than all faults that can be helped."""


class Shown(NamedTuple):
    """Words that stay together, and when they are spoken."""

    text: str
    start_s: float
    end_s: float


class Caption(NamedTuple):
    """Lines, from when to when they are shown, in seconds."""

    start_s: float
    end_s: float
    lines: tuple[str, ...]


class _Cost(Value):
    caption: float
    clause: float
    pause: float
    opening: float
    anywhere: float
    leaning: float
    sentence_inside: float
    silence_inside: float
    flicker: float
    too_fast: float
    too_short: float
    hasty: float
    uneven: float
    line: float


class _Wanted(Value):
    """The table ``captions.toml``."""

    lines: int
    signs_a_line: int
    shortest_s: float
    steady_s: float
    longest_s: float
    signs_a_second: float
    closed_gap_s: float
    hang_s: float
    apart_s: float
    pause_s: float
    lean: frozenset[str]
    open: frozenset[str]
    cost: _Cost


@cache
def wanted() -> _Wanted:
    """What captions are to be like."""
    return _Wanted.model_validate(raw("cuewright.render", "captions.toml"))


def captions(words: Sequence[Shown]) -> list[Caption]:
    """The captions of a talk, in order, none reaching into the next."""
    cuts = _cuts(words)
    groups = [words[a:b] for a, b in pairwise(cuts)]
    starts = _rising(group[0].start_s for group in groups)
    ends = (
        _end(group, start, following)
        for group, start, following in zip(groups, starts, [*starts[1:], None], strict=True)
    )
    rows = zip(starts, ends, map(_lines, groups), strict=True)
    return [Caption(*row) for row in rows]


def _rising(starts: Iterable[float]) -> list[float]:
    """Times of which each is later than the one before."""
    risen: list[float] = []
    for start in starts:
        risen.append(max(start, risen[-1] + _LEAST_S) if risen else start)
    return risen


def _end(group: Sequence[Shown], start: float, following: float | None) -> float:
    """When a caption goes: read in peace, without a flicker before the next one."""
    spoken = max(group[-1].end_s, start + _LEAST_S)
    signs = sum(len(each.text) + 1 for each in group) - 1
    read = min(start + signs / wanted().signs_a_second, spoken + wanted().hang_s)
    shortest, longest = start + wanted().shortest_s, start + wanted().longest_s
    end = min(max(spoken, read, shortest), longest)
    return end if following is None else _before(following, end, max(spoken, shortest), longest)


def _before(following: float, end: float, soonest: float, longest: float) -> float:
    """The end of a caption that another follows: up to it, or a gap before it that is seen."""
    if following - soonest > wanted().hang_s:
        return min(end, following - wanted().closed_gap_s)
    near = following - end < wanted().closed_gap_s
    return following if near and following <= longest else min(end, following)


def _cuts(words: Sequence[Shown]) -> list[int]:
    """Positions before which a caption begins, and the end: the cheapest way there is."""
    best = [0.0]
    came = [0]
    breaks = [_break(words, at) for at in range(len(words) + 1)]
    for end in range(1, len(words) + 1):
        costs = [
            (best[start] + _cost(words, start, end, breaks), start) for start in _begins(words, end)
        ]
        cost, start = min(costs)
        best.append(cost + breaks[end])
        came.append(start)
    cuts = [len(words)]
    while cuts[-1]:
        cuts.append(came[cuts[-1]])
    return cuts[::-1]


def _begins(words: Sequence[Shown], end: int) -> list[int]:
    """Where the caption that ends before ``end`` can begin: one word back, or as many as fit."""
    begins, signs = [end - 1], len(words[end - 1].text)
    room = wanted().lines * wanted().signs_a_line
    for start in range(end - 2, -1, -1):
        signs += len(words[start].text) + 1
        if signs > room or words[end - 1].end_s - words[start].start_s > wanted().longest_s:
            break
        begins.append(start)
    return begins


def _break(words: Sequence[Shown], at: int) -> float:
    """What it costs to break before a word."""
    if at in (0, len(words)):
        return 0.0
    cost, before = wanted().cost, words[at - 1]
    stop = before.text.rstrip("\"')\u2019\u201d")[-1:]
    pause = words[at].start_s - before.end_s
    if stop in ".?!\u2026" or pause >= wanted().apart_s:
        return 0.0
    if stop in ",;:\u2014\u2013":
        return cost.clause
    leans = before.text.lower() in wanted().lean or before.text[-1:].isdigit()
    opens = words[at].text.lower().rstrip(",") in wanted().open
    inside = cost.opening if opens else cost.anywhere
    return (cost.pause if pause >= wanted().pause_s else inside) + cost.leaning * leans


def _cost(words: Sequence[Shown], start: int, end: int, breaks: Sequence[float]) -> float:
    """What is wrong with a caption, apart from how it ends."""
    cost = wanted().cost
    following = words[end].start_s if end < len(words) else words[-1].end_s + wanted().hang_s
    begun, spoken = words[start].start_s, words[end - 1].end_s
    time = min(following, spoken + wanted().hang_s) - begun
    signs = sum(len(each.text) + 1 for each in words[start:end]) - 1
    inside = range(start + 1, end)
    return (
        cost.caption
        + cost.too_fast * max(0.0, signs - wanted().signs_a_second * time)
        + cost.too_short * max(0.0, wanted().shortest_s - time)
        + cost.hasty * max(0.0, wanted().steady_s - time)
        + cost.flicker * _flickers(begun, spoken, following)
        + cost.sentence_inside * sum(not breaks[at] for at in inside)
        + cost.silence_inside * sum(_silence(words, at) >= wanted().apart_s for at in inside)
        + _broken(words, start, end, breaks)[0]
    )


def _flickers(begun: float, spoken: float, following: float) -> bool:
    """Whether a caption goes just before the next one, and may not stay until then."""
    near = following - spoken < wanted().closed_gap_s
    return near and following - begun > wanted().longest_s


def _silence(words: Sequence[Shown], at: int) -> float:
    return words[at].start_s - words[at - 1].end_s


def _broken(
    words: Sequence[Shown], start: int, end: int, breaks: Sequence[float]
) -> tuple[float, int]:
    """The cheapest place for a second line, and what it costs; ``end`` where one line does."""
    sizes = [len(each.text) for each in words[start:end]]
    whole = sum(sizes) + len(sizes) - 1
    width = wanted().signs_a_line
    if whole <= width or end - start == 1:
        return 0.0, end
    found, first = (_TOO_MUCH, start + 1), -1
    for at, size in enumerate(sizes[:-1], start + 1):
        first += size + 1
        second = whole - first - 1
        if max(first, second) <= width:
            uneven = wanted().cost.uneven * abs(first - second) / width
            found = min(found, (wanted().cost.line * breaks[at] + uneven, at))
    return found


def _lines(group: Sequence[Shown]) -> tuple[str, ...]:
    breaks = [_break(group, at) for at in range(len(group) + 1)]
    _, at = _broken(group, 0, len(group), breaks)
    parts = (group[:at], group[at:])
    return tuple(" ".join(each.text for each in part) for part in parts if part)
