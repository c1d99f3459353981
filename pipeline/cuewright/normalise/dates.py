"""Calendar dates in a talk: "monday the fifth of may twenty twenty six", "March 9th".

date  = [weekday] ["the"] (day ["day"] ["of"] month | month ["the"] day) [["of" | "in"] year]
      | weekday ["the"] day | weekday | ("on" | "from" | "until") "the" day
"""

from collections.abc import Iterator, Sequence
from typing import Any

from cuewright.normalise.line import Line
from cuewright.normalise.numbers import ORDINAL, figure
from cuewright.tables import raw
from cuewright_models.tokens import CalendarDate, Token

_TABLE: dict[str, Any] = raw("cuewright.normalise", "calendar.toml")
_MONTH: dict[str, int] = _TABLE["month"]
_WEEKDAY: dict[str, str] = _TABLE["weekday"]
# "sat" and "sun" are days, "may" and "march" months, only beside a day of the month.
_UNSURE = frozenset(("may", "march", "mar", "sat", "sun", "wed", "mon"))
_BEFORE_DAY = frozenset("on from to until till by around before after since".split())
_AFTER_DAY = frozenset(
    "is was and or to at in this we you i so if because then for but when our the it".split()
)


def dates(tokens: Sequence[Token], *, relative: bool = False) -> list[CalendarDate]:
    """The dates said, in order; a weekday alone is one."""
    return list(_dates(Line(tokens)))


def _dates(line: Line) -> Iterator[CalendarDate]:
    at = floor = 0
    norms = line.norms
    while at < line.size:
        word = norms[at]
        found = None
        if word in _WEEKDAY:
            found = _from_weekday(line, at)
        elif word in _MONTH:
            found = _around_month(line, at, floor)
        elif word == "the" and at and norms[at - 1] in _BEFORE_DAY:
            found = _day_alone(line, at)
        if found is None:
            at += 1
            continue
        yield found
        at = floor = found.end


def _from_weekday(line: Line, at: int) -> CalendarDate | None:
    """A date that a weekday opens, or the weekday alone."""
    weekday, start = _WEEKDAY[line.norms[at]], at
    at += 1
    at += line.norms[at] == "the"
    found = None
    if not line.stop[at]:
        found = _day_of_month(line, at) or _month_day(line, at)
    if found is not None:
        return CalendarDate(start, found.end, found.year, found.month, found.day, weekday)
    if (day := _day(line, at)) and (line.norms[at] in ORDINAL or _closed(line, day[0])):
        return CalendarDate(start, day[0], day=day[1], weekday=weekday)
    if line.norms[start] in _UNSURE:
        return None
    return CalendarDate(start, start + 1, weekday=weekday)


def _around_month(line: Line, at: int, floor: int) -> CalendarDate | None:
    """A date that holds the month at ``at``: its day stands before or after."""
    for back in range(5, 0, -1):
        start = at - back
        if start >= floor and (found := _day_of_month(line, start)) and found.end > at:
            before = line.norms[start - 1] if start > floor else ""
            return CalendarDate(
                start - (before == "the"), found.end, found.year, found.month, found.day
            )
    return _month_day(line, at)


def _day_of_month(line: Line, at: int) -> CalendarDate | None:
    """ "fifth of may twenty twenty six", "4th July 1995", "twenty third day of September"."""
    day = _day(line, at)
    if day is None:
        return None
    end = day[0]
    end += line.norms[end] == "day"
    linked = line.norms[end] == "of"
    end += linked
    month = _MONTH.get(line.norms[end])
    if month is None or (line.norms[end] in _UNSURE and not (linked or day[2])):
        return None
    year = _year(line, end + 1)
    return CalendarDate(at, year[0], year[1], month, day[1])


def _month_day(line: Line, at: int) -> CalendarDate | None:
    """ "March 9th 2026", "may twenty nine", "october, 1st"."""
    month = _MONTH.get(line.norms[at])
    if month is None:
        return None
    end = at + 1
    end += line.norms[end] == "the"
    day = _day(line, end)
    if day is None:
        return None
    year = _year(line, day[0])
    if not day[2] and year[1] is None and not _closed(line, day[0]):
        return None
    return CalendarDate(at, year[0], year[1], month, day[1])


def _day(line: Line, at: int) -> tuple[int, int, bool] | None:
    """Where a day of the month ends, its number, and whether it was an ordinal."""
    found = figure(line, at)
    if found is None or found.form not in ("word", "digits", "ordinal"):
        return None
    end, value, ordinal = found.end, found.value, found.form == "ordinal"
    if value in (20, 30) and line.norms[end] == "second" and not line.split[end]:
        end, value, ordinal = end + 1, value + 2, True
    if not 1 <= value <= 31 or value % 1:
        return None
    return end, int(value), ordinal


def _year(line: Line, at: int) -> tuple[int, int | None]:
    """Where an optional year ends, and the year."""
    end = at + (line.norms[at] in ("of", "in"))
    first = figure(line, end)
    if first is None or first.form not in ("word", "digits") or first.value % 1:
        return at, None
    if 1900 <= first.value <= 2100:
        return first.end, int(first.value)
    second = figure(line, first.end)
    if second is None or first.value not in (19, 20) or not 10 <= second.value <= 99:
        return at, None
    return second.end, int(first.value * 100 + second.value)


def _day_alone(line: Line, at: int) -> CalendarDate | None:
    """ "on the 18th": the fourth or later, with nothing that it could number."""
    day = _day(line, at + 1)
    if day is None or not day[2] or not _closed(line, day[0]):
        return None
    if day[1] < 4 and not line.norms[at + 1][0].isdigit():
        return None
    return CalendarDate(at, day[0], day=day[1])


def _closed(line: Line, at: int) -> bool:
    return line.punctuated[at] or line.norms[at] in _AFTER_DAY
