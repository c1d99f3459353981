"""Ranges of seconds as bars of text, all on one scale."""

from collections.abc import Sequence

from cuewright.render import words
from cuewright.render.timetable import Span

_LABEL = 15


def bars(spans: Sequence[Span], longest: float, *, width: int) -> list[str]:
    """A line for each span: its name, its bar, and its clock.

    ``longest`` seconds reach the right edge. A model's range is ``|--o--|`` with its likely
    middle, what was said is ``[====]``, or ``#`` for one number; plain signs, so that any
    terminal and printer shows them.
    """
    clock = max((len(_clock(span)) for span in spans), default=0)
    room = max(width - _LABEL - clock - 2, 10)
    return [f"{s.name:{_LABEL}} {_bar(s, longest, room):{room}} {_clock(s)}" for s in spans]


def _bar(span: Span, longest: float, room: int) -> str:
    def place(seconds: float) -> int:
        return min(round((room - 1) * seconds / longest), room - 1) if longest else 0

    start, end = place(span.low), place(span.high)
    left, line, right = "|-|" if span.likely is not None else "[=]"
    if start == end and span.likely is None:
        return " " * start + "#"
    drawn = [left, *line * (end - start - 1), right][: end - start + 1]
    if span.likely is not None:
        drawn[place(span.likely) - start] = "o"
    return " " * start + "".join(drawn)


def _clock(span: Span) -> str:
    if span.likely is not None:
        return words.clock(span.likely)
    return words.between(span.low or None, span.high, words.clock)
