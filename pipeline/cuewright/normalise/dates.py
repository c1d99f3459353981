"""Calendar dates in a talk: "monday the fifth of may twenty twenty six", "March 9th".

date     = [weekday] ["the"] (day ["day"] ["of"] month | month ["the"] day) [["of" | "in"] year]
         | weekday ["the"] day | weekday | ("on" | "by" …) "the" day ["of"] ["this" "month"]
weekday  = ["this" | "next" | "coming" …] name | name "of" "next" "week" | "next" "week" name
relative = "today" | "tomorrow" | "yesterday" | "in" number ("days" | "weeks" | "months")
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any, Literal, NamedTuple

from cuewright.normalise.line import Line
from cuewright.normalise.numbers import ORDINAL, figure
from cuewright.tables import raw
from cuewright_models.tokens import CalendarDate, Token

_TABLE: dict[str, Any] = raw("cuewright.normalise", "calendar.toml")
_MONTH: dict[str, int] = _TABLE["month"]
_WEEKDAY: dict[str, str] = _TABLE["weekday"]
_WEEK: dict[str, int] = _TABLE["week"]
_SIDE: dict[str, Any] = _TABLE["side"]
_DAY: dict[str, int] = _TABLE["day"]
_SPAN: dict[str, int] = _TABLE["span"]
_UNSURE = frozenset(_TABLE["around"]["unsure"])
_BEFORE_DAY = frozenset(_TABLE["around"]["before_day"])
_BEFORE_VERB = frozenset(_TABLE["around"]["before_verb"])
_STARTS = _WEEKDAY.keys() | _MONTH.keys() | _DAY.keys() | {"the", "in"}
_FARTHEST_BACK = 5  # tokens from a month to the start of its day: "twenty third day of"


class _Day(NamedTuple):
    """A day of the month read from a number."""

    end: int
    value: int
    ordinal: bool


def dates(tokens: Sequence[Token], *, relative: bool = False) -> list[CalendarDate]:
    """The dates said, in order; a weekday alone is one.

    With ``relative`` also those that hang on the day of the talk alone ("today", "in two
    weeks").
    """
    return [day for day in dates_in(Line(tokens)) if relative or day.weekday or day.day]


def dates_in(line: Line) -> Iterator[CalendarDate]:
    """Every date of a line of tokens, relative ones too."""
    at = floor = 0
    while at < line.size:
        found = list(_at(line, at, floor)) if line.norms[at] in _STARTS else None
        if not found:
            at += 1
            continue
        yield from found
        at = floor = found[-1].end


def _at(line: Line, at: int, floor: int) -> Iterator[CalendarDate]:
    """The date or dates that the word at ``at`` belongs to."""
    word = line.norms[at]
    if word in _WEEKDAY:
        yield from _from_weekday(line, at, floor)
    elif word in _MONTH:
        yield from _around_month(line, at, floor)
    elif word == "the":
        yield from _day_alone(line, at)
    elif word == "in":
        yield from _in_days(line, at)
    else:
        yield CalendarDate(at, at + 1, days=_DAY[word])


def _from_weekday(line: Line, at: int, floor: int) -> Iterator[CalendarDate]:
    """A date that a weekday opens, or the weekday alone."""
    weekday, follows = _WEEKDAY[line.norms[at]], at + 1
    the = line.norms[follows] == "the"
    follows += the
    found = None
    if not line.stop[follows]:
        found = _day_of_month(line, follows, dated=True) or _month_day(line, follows)
    day = _day(line, follows)
    if found is not None:
        yield replace(found, start=at, weekday=weekday)
    elif day and (line.closed(day.end) if not the else day.ordinal):
        yield CalendarDate(at, day.end, day=day.value, weekday=weekday)
    elif line.norms[at] not in _UNSURE:
        yield _which_week(line, CalendarDate(at, at + 1, weekday=weekday), floor)


def _which_week(line: Line, found: CalendarDate, floor: int) -> CalendarDate:
    """The weekday with the "next", "of last week", "this coming" around it."""
    of, which, week = line.norms[found.end : found.end + 3]
    if of == "of" and which in _WEEK and week == "week":
        return replace(found, end=found.end + 3, weeks=_WEEK[which])
    at = found.start
    at -= line.before(at) == "on" and line.before(at - 1) == "week"
    at -= line.before(at) == "week"
    word = line.before(at)
    if at <= floor or line.stop[at]:
        return found
    if word in _WEEK:
        return replace(found, start=at - 1, weeks=_WEEK[word])
    if word in _SIDE:
        start = at - 1 - (line.before(at - 1) == "this")
        return replace(found, start=start, side=_SIDE[word])
    return found


def _around_month(line: Line, at: int, floor: int) -> Iterator[CalendarDate]:
    """The dates of the month at ``at``: the day stands before it or after."""
    for start in range(max(floor, at - _FARTHEST_BACK), at):
        found = _day_of_month(line, start, dated=line.before(start) == "date")
        if found is None or found.end <= at:
            continue
        yield from _day_before(line, found, floor)
        before = line.before(start)
        start -= before == "the"
        side: Literal[1] | None = 1 if line.before(start) == "next" else None
        yield replace(found, start=start - (side is not None), side=side)
        return
    if (found := _month_day(line, at)) is not None:
        yield found


def _day_before(line: Line, found: CalendarDate, floor: int) -> Iterator[CalendarDate]:
    """The "18" of "18 and 19 June"."""
    at = found.start - (line.before(found.start) == "the")
    if line.before(at) not in ("and", "or", "to"):
        return
    for start in range(max(floor, at - 3), at - 1):
        day = _day(line, start)
        if day is not None and day.end == at - 1:
            yield replace(found, start=start, end=day.end, day=day.value)
            return


def _day_of_month(line: Line, at: int, *, dated: bool = False) -> CalendarDate | None:
    """ "fifth of may twenty twenty six", "4th July 1995", "twenty third day of September".

    ``dated`` where a weekday or "date" stands before it, so that "9 March" is no work.
    """
    day = _day(line, at)
    if day is None:
        return None
    end = day.end
    end += line.norms[end] == "day"
    linked = line.norms[end] == "of"
    end += linked
    month = _MONTH.get(line.norms[end])
    unsure = line.norms[end] in _UNSURE and not (linked or day.ordinal or dated)
    end, year = _year(line, end + 1)
    if month is None or (unsure and year is None):
        return None
    return CalendarDate(at, end, year, month, day.value)


def _month_day(line: Line, at: int) -> CalendarDate | None:
    """ "March 9th 2026", "may twenty nine", "october, 1st"."""
    month = _MONTH.get(line.norms[at])
    the = line.norms[at + 1] == "the"
    day = _day(line, at + 1 + the) if month is not None else None
    if day is None:
        return None
    end, year = _year(line, day.end)
    if not day.ordinal and year is None:
        verb = line.norms[at] in _UNSURE and line.before(at) in _BEFORE_VERB
        apart = line.norms[at] in _UNSURE and line.stop[at + 1]  # "30 s march", and then "3."
        if verb or apart or not line.closed(day.end):
            return None
    return CalendarDate(at, end, year, month, day.value)


def _day(line: Line, at: int) -> _Day | None:
    found = figure(line, at)
    if found is None or found.form not in ("word", "digits", "ordinal"):
        return None
    end, value, ordinal = found.end, found.value, found.form == "ordinal"
    if value in (20, 30) and line.norms[end] == "second" and not line.split[end]:
        end, value, ordinal = end + 1, value + 2, True
    return _Day(end, int(value), ordinal) if 1 <= value <= 31 and value % 1 == 0 else None


def _year(line: Line, at: int) -> tuple[int, int | None]:
    """Where an optional year ends, and the year."""
    start = at + (line.norms[at] in ("of", "in"))
    first = figure(line, start)
    if first is None or first.form not in ("word", "digits"):
        return at, None
    if 1900 <= first.value <= 2100 and first.value % 1 == 0:
        return first.end, int(first.value)
    second = figure(line, first.end)
    if second is None or first.value not in (19, 20) or not 10 <= second.value <= 99:
        return at, None
    return second.end, int(first.value * 100 + second.value)


def _day_alone(line: Line, at: int) -> Iterator[CalendarDate]:
    """ "on the 18th": with nothing that it could number, and no mere "on the second"."""
    day = _day(line, at + 1)
    if day is None or not day.ordinal or line.before(at) not in _BEFORE_DAY:
        return
    linked = line.norms[day.end] == "of"
    which, month = line.norms[day.end + linked : day.end + linked + 2]
    if which in _WEEK and month == "month":
        yield CalendarDate(at, day.end + linked + 2, day=day.value, months=_WEEK[which])
    elif line.closed(day.end) and (day.value > 3 or line.norms[at + 1] not in ORDINAL):
        yield CalendarDate(at, day.end, day=day.value)


def _in_days(line: Line, at: int) -> Iterator[CalendarDate]:
    """ "in two weeks", "in a week", "in two months"."""
    number = figure(line, at + 1)
    end = number.end if number else at + 2
    count = number.value if number else 1
    if (number is None and line.norms[at + 1] != "a") or count % 1:
        return
    unit = line.norms[end]
    if unit in _SPAN:
        yield CalendarDate(at, end + 1, days=int(count) * _SPAN[unit])
    elif unit in ("month", "months"):
        yield CalendarDate(at, end + 1, months=int(count))
