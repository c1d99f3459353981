"""The weekday said is not the weekday of the date said."""

from collections.abc import Iterator
from datetime import date
from typing import get_args

from cuewright.check.rule import Rule
from cuewright_models.finding import Finding
from cuewright_models.plan import Date, Plan, Weekday

WEEKDAYS = get_args(Weekday)  # Monday first, as ISO 8601 counts them


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding, and only when year, month, day and weekday were all said."""
    said = plan.date
    if not said or not said.weekday:
        return
    day = _calendar(said)
    if day and WEEKDAYS[day.weekday()] != said.weekday:
        right = WEEKDAYS[day.weekday()].capitalize()
        written = f"{day.day} {day:%B} {day.year}"
        yield RULE.finding(
            "date",
            f"{written} is a {right}, not a {said.weekday.capitalize()}.",
            expected=f"{right} {written}",
            found=f"{said.weekday.capitalize()} {written}",
            said=said.said,
            suggestion="Correct the weekday or the date.",
            say=f"It is {right}, {written}.",
        )


def _calendar(said: Date) -> date | None:
    """The day in the Gregorian calendar; ``None`` if not wholly said or not a day at all."""
    if not said.year or not said.month or not said.day:
        return None
    try:
        return date(said.year, said.month, said.day)
    except ValueError:
        return None


RULE = Rule(
    code="date-vs-weekday",
    severity="error",
    question="Is the date said on the weekday said?",
    why="One of the two is wrong, and somebody turns up on the wrong evening.",
    fires=(
        "It's Tuesday the 7th of January 2026. Jog three minutes to warm up. Then four rounds "
        "for time: ten push-ups and ten squats.",
    ),
    silent=(
        "It's Wednesday the 7th of January 2026. Jog three minutes to warm up. Then four "
        "rounds for time: ten push-ups and ten squats.",
        "It's Tuesday the 7th of January. Jog three minutes to warm up. Then four rounds for "
        "time: ten push-ups and ten squats.",
    ),
    leaves_alone="Dates without a year, and days that no month has.",
    find=find,
)
