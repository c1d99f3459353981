"""Words read as tokens, and the typed spans over them that the grammar works on.

Token positions are half-open ranges ``start:end``; word positions ``first:last`` point
back into the transcript, so every span can be quoted as it was heard.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from operator import attrgetter
from typing import Literal, NamedTuple, Protocol, TypeVar


class Token(NamedTuple):
    """One reading unit: a word, a part of a hyphenated word, or a sign such as ``%``.

    ``norm`` is lower case and, where a mishearing was repaired, what was meant; the
    words ``first:last`` stay as heard. ``after`` is the punctuation that follows, one of
    ``"" , ; : . ? ! …`` or an em dash. ``pause_s`` is the silence before the token.
    """

    norm: str
    first: int
    last: int
    after: str = ""
    pause_s: float = 0.0
    starts: bool = False
    """True where a new line, paragraph or speaker starts."""


AmountUnit = Literal["s", "m", "kg", "lb", "kcal", "%"]
Shape = Literal["one", "range", "list", "pair", "by", "ordinal", "date", "other"]


@dataclass(frozen=True, slots=True)
class Amount:
    """A number or quantity over the tokens ``start:end``.

    ``low`` and ``high`` are in ``unit`` (seconds, metres, kg, lb, kcal, per cent; ``None``
    for a bare count) and equal when one number was said; ``None`` is an open end ("under
    two minutes"). ``values`` holds every number of a list ("21 15 9"), a pair for two
    groups ("95/65"), a "by" form ("4 by 8") or a falling range ("10 down to 1"), in the
    order said. In a "by" form unit, ``low`` and ``high`` belong to the last value ("6 by
    500 metres"); the ones before it are counts. Shape "date" holds no number; "other" is
    money, a time of day, a year, an age or a temperature, which no plan needs.
    """

    start: int
    end: int
    low: float | None
    high: float | None
    unit: AmountUnit | None = None
    shape: Shape = "one"
    values: tuple[float, ...] = ()


class Mention(NamedTuple):
    """A known phrase over the tokens ``start:end``: a movement's name, or a label."""

    start: int
    end: int
    name: str


@dataclass(frozen=True, slots=True)
class Swap:
    """A mishearing read as meant, over the tokens ``start:end`` of the repaired reading."""

    start: int
    end: int
    heard: str
    meant: str


@dataclass(frozen=True, slots=True)
class CalendarDate:
    """A date over the tokens ``start:end``; what was not said is ``None``.

    ``days``, ``weeks`` and ``months`` count from those of the talk: "today" is days 0, "in
    two weeks" days 14, "next friday" weeks 1, "the 21st of this month" months 0. ``side``
    is 1 for the nearest one to come ("this coming friday") and -1 for the nearest one past.
    """

    start: int
    end: int
    year: int | None = None
    month: int | None = None
    day: int | None = None
    weekday: str | None = None
    days: int | None = None
    weeks: int | None = None
    months: int | None = None
    side: Literal[1, -1] | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """The talk as tokens with their typed spans, each list in order and free of overlaps."""

    tokens: tuple[Token, ...]
    stems: tuple[str, ...]
    amounts: tuple[Amount, ...]
    movements: tuple[Mention, ...]
    dates: tuple[CalendarDate, ...]
    swaps: tuple[Swap, ...]


class Placed(Protocol):
    """Anything that starts at a token."""

    @property
    def start(self) -> int: ...


P = TypeVar("P", bound=Placed)
_START = attrgetter("start")


def norm_at(tokens: Sequence[Token], at: int) -> str:
    """The word at a token, empty before the first and after the last."""
    return tokens[at].norm if 0 <= at < len(tokens) else ""


def starting_in(items: Sequence[P], start: int, end: int) -> Sequence[P]:
    """Those of ``items``, which are in order, that start within ``start:end``."""
    first = bisect_left(items, start, key=_START)
    return items[first : bisect_left(items, end, lo=first, key=_START)]
