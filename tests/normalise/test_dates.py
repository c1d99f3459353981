"""Calendar dates as said."""

import calendar
from datetime import date

import pytest
from dateutil.parser import parse
from hypothesis import given, settings
from hypothesis import strategies as st
from normalise.saying import heard
from num2words import num2words

from cuewright.normalise.dates import dates

WEEKDAYS = [name.lower() for name in calendar.day_name]


def _read(said: str, *, relative: bool = False) -> list[tuple[object, ...]]:
    found = dates(heard(said), relative=relative)
    return [(day.year, day.month, day.day, day.weekday) for day in found]


@pytest.mark.parametrize(
    ("said", "reads"),
    [
        ("monday the fifth of may twenty twenty six", [(2026, 5, 5, "monday")]),
        ("it's thursday the 12th of November", [(None, 11, 12, "thursday")]),
        ("Monday, March 9th, 2026.", [(2026, 3, 9, "monday")]),
        ("it's tuesday", [(None, None, None, "tuesday")]),
        ("the head race is on the second of march", [(None, 3, 2, None)]),
        ("from monday the 14th to wednesday the 16th", [
            (None, None, 14, "monday"), (None, None, 16, "wednesday"),
        ]),
        ("week four is on the 18th", [(None, None, 18, None)]),
        ("the 18th and 19th of June", [(None, 6, 18, None), (None, 6, 19, None)]),
        ("see you on monday second thing bring water", [(None, None, None, "monday")]),
        ("march twenty metres then you may rest", []),
        ("we sat in the sun", []),
        ("on the third round", []),
        ("today in two weeks", []),
    ],
)  # fmt: skip
def test_reads(said: str, reads: list[tuple[object, ...]]) -> None:
    assert _read(said) == reads


@pytest.mark.parametrize(
    ("said", "days", "weeks", "months", "side"),
    [
        ("today", 0, None, None, None),
        ("in two weeks", 14, None, None, None),
        ("in two months", None, None, 2, None),
        ("next friday", None, 1, None, None),
        ("monday of last week", None, -1, None, None),
        ("this coming friday", None, None, None, 1),
    ],
)
def test_dates_that_hang_on_the_day_of_the_talk(
    said: str, days: int | None, weeks: int | None, months: int | None, side: int | None
) -> None:
    (found,) = dates(heard(said), relative=True)
    assert (found.days, found.weeks, found.months, found.side) == (days, weeks, months, side)


@settings(derandomize=True, deadline=None)
@given(st.dates(date(1950, 1, 1), date(2099, 12, 31)))
def test_any_date_reads_back(day: date) -> None:
    """Weekday and day by an outside reader of the same words: dateutil."""
    written = f"{day:%A} {num2words(day.day, to='ordinal_num')} {day:%B} {day.year}"
    assert parse(written).date() == day
    spoken = num2words(day.day, to="ordinal")
    year = num2words(day.year, to="year") if day.year % 100 > 9 else str(day.year)
    for said in (written, f"{day:%A} the {spoken} of {day:%B} {year}"):
        assert _read(said) == [(day.year, day.month, day.day, WEEKDAYS[day.weekday()])], said
