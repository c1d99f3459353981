"""What belongs in a session: its date, kit, warm-up, coached movements and amounts."""

from datetime import date, timedelta
from typing import Any

import pytest
from check.building import (
    about,
    advice,
    block,
    claim,
    cue,
    day,
    effort,
    findings,
    ladder,
    option,
    plan,
    rounds,
    said,
)
from dateutil.rrule import DAILY, rrule

NAMES = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]

# ISO 8601 weekday numbers, Monday 1: dates with their number in the pandas documentation of
# isoweekday and isocalendar, and the Gregorian leap day of 2000.
DATES = [
    pytest.param((2023, 1, 1), 7, id="2023-01-01"),
    pytest.param((2010, 1, 1), 5, id="2010-01-01"),
    pytest.param((2020, 10, 11), 7, id="2020-10-11"),
    pytest.param((2021, 7, 25), 7, id="2021-07-25"),
    pytest.param((2024, 12, 30), 1, id="2024-12-30"),
    pytest.param((2000, 2, 29), 2, id="2000-02-29"),
]


@pytest.mark.parametrize(("when", "number"), DATES)
def test_only_the_right_weekday_is_silent(when: tuple[int, int, int], number: int) -> None:
    silent = [name for name in NAMES if not about("date-vs-weekday", day(name, *when))]
    assert silent == [NAMES[number - 1]]


def test_a_leap_century_against_dateutil() -> None:
    start = date(1999, 12, 25)
    for when in rrule(DAILY, dtstart=start, until=start + timedelta(days=400)):
        name = NAMES[when.isoweekday() - 1]
        assert about("date-vs-weekday", day(name, when.year, when.month, when.day)) == []


@pytest.mark.parametrize(
    "said_date",
    [
        pytest.param(day("tuesday", None, 1, 7), id="no year"),
        pytest.param(day("tuesday", 2026, None, None), id="no day"),
        pytest.param(day(None, 2026, 1, 7), id="no weekday"),
        pytest.param(day("tuesday", 2026, 2, 30), id="not a day"),
    ],
)
def test_half_a_date_is_left_alone(said_date: Any) -> None:
    assert about("date-vs-weekday", said_date) == []


def test_the_right_weekday_is_told() -> None:
    (finding,) = findings("date-vs-weekday", plan(day("tuesday", 2026, 1, 7)))
    assert finding.expected == "Wednesday 7 January 2026"
    assert finding.message == "7 January 2026 is a Wednesday, not a Tuesday."


LEGS = block(
    "b2 strength", "sets", rounds(3, effort("single-leg-deadlift", 8), effort("reverse-lunge", 12))
)
TOWER = block("b3 conditioning", "for-time", effort("stair-climb", 6), effort("sled-drag", 30, "m"))


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param([LEGS, cue("nordic-curl")], ["nordic-curl"], id="left over"),
        pytest.param(
            [TOWER, cue("box-step-over"), option("stair-climb", "substitute", "step-up")],
            ["box-step-over"],
            id="only kin of an option",
        ),
        pytest.param(
            [LEGS, option("burpee", "easier", "step-back-burpee")], ["burpee"], id="scaled"
        ),
        pytest.param(
            [block("b2 accessory", "quality", effort("plank", 60, "s")), cue("bear-crawl")],
            ["bear-crawl"],
            id="an easier thing is no crawl",
        ),
        pytest.param([LEGS, cue("pull-up"), cue("pull-up")], ["pull-up"], id="twice, one finding"),
    ],
)
def test_coached_and_not_done(parts: list[Any], expected: list[str]) -> None:
    assert about("cue-without-work", *parts) == expected


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param([LEGS, cue("reverse-lunge")], id="done"),
        pytest.param(
            [block("b1 warm-up", "quality", effort("inchworm", 5)), cue("inchworm")],
            id="done in the warm-up",
        ),
        pytest.param([LEGS, cue("forward-lunge")], id="lunges are reverse lunges here"),
        pytest.param(
            [block("b2 conditioning", "for-time", effort("jog", 400, "m")), cue("run")], id="a jog"
        ),
        pytest.param([LEGS, cue("deadlift")], id="a short name"),
        pytest.param(
            [block("b2 strength", "sets", effort("hand-release-push-up", 9)), cue("push-up")],
            id="a harder form",
        ),
        pytest.param(
            [LEGS, cue("glute-bridge"), option("reverse-lunge", "substitute", "glute-bridge")],
            id="an option",
        ),
        pytest.param(
            [
                block(
                    "b2 strength",
                    "sets",
                    effort("flutter-kick", 20, alternatives=("bicycle-crunch",)),
                ),
                cue("bicycle-crunch"),
            ],
            id="or",
        ),
        pytest.param(
            [LEGS, option("round", "shorter"), option("total", "fewer")], id="no movement"
        ),
        pytest.param([LEGS, cue("wobble-flip")], id="not in the catalogue"),
        pytest.param(
            [
                block(
                    "b2 strength",
                    "sets",
                    effort("po goes", 20, known=False, as_said="nordic things"),
                ),
                cue("nordic-curl"),
            ],
            id="work not read",
        ),
        pytest.param([cue("burpee")], id="no work at all"),
    ],
)
def test_coached_and_done(parts: list[Any]) -> None:
    assert about("cue-without-work", *parts) == []


NONE = claim("equipment", "none", said=said("not a single piece of equipment", 25))
ROPE = claim("equipment", "rope", said=said("grab your rope", 90))
SKIP = block("b2 conditioning", "for-time", effort("single-under", 100))
SLAM = block(
    "b2 conditioning",
    "intervals",
    effort("bag-work", 180, "s"),
    effort("medicine-ball-slam", 180, "s"),
)
GLOVES = claim("equipment", "punch bag", only=True)


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param([NONE, SKIP], ["single-under"], id="no kit, a rope"),
        pytest.param([NONE, ROPE, SKIP], ["single-under"], id="the rope named a minute later"),
        pytest.param([GLOVES, SLAM], ["medicine-ball-slam"], id="a complete list"),
        pytest.param(
            [
                NONE,
                block(
                    "b2 strength",
                    "sets",
                    effort("kettlebell-swing", 10),
                    effort("kettlebell-snatch", 5),
                ),
            ],
            ["kettlebell-swing"],
            id="two movements, one piece of kit",
        ),
    ],
)
def test_kit_that_was_ruled_out(parts: list[Any], expected: list[str]) -> None:
    assert about("equipment-vs-claim", *parts) == expected


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param([SKIP], id="nothing claimed"),
        pytest.param([ROPE, SLAM], id="a list that nobody called complete"),
        pytest.param(
            [
                NONE,
                block(
                    "b2 strength", "sets", effort("bench-dip", 10), effort("couch-stretch", 60, "s")
                ),
            ],
            id="furniture and walls",
        ),
        pytest.param(
            [NONE, claim("equipment", "rope", said=said("just a rope", 28)), SKIP], id="one breath"
        ),
        pytest.param(
            [
                claim("equipment", "dumbbell", only=True),
                block("b2 strength", "sets", effort("goblet-squat", 10)),
            ],
            id="does the same",
        ),
        pytest.param(
            [
                NONE,
                block(
                    "b2 conditioning",
                    "for-time",
                    effort("single-under", 100, alternatives=("jumping-jack",)),
                ),
            ],
            id="or jumping jacks",
        ),
        pytest.param(
            [
                claim("equipment", "dumbbell", only=True),
                block("b2 strength", "sets", effort("row", 10, as_said="rows")),
            ],
            id="rows with what there is",
        ),
        pytest.param(
            [
                NONE,
                block("b2 conditioning", "for-time", effort("push-up", 10)),
                option("push-up", "harder", "dip"),
            ],
            id="only an option",
        ),
    ],
)
def test_kit_that_was_not(parts: list[Any]) -> None:
    assert about("equipment-vs-claim", *parts) == []


HEAVY = effort("back-squat", 5, load=({"low": 75, "high": 75, "unit": "%1rm"},))


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param([block("b1 conditioning", "for-time", effort("burpee", 50))], id="for time"),
        pytest.param(
            [
                block("b1 conditioning", "amrap", effort("burpee", 5), duration_s=600),
                block("b2 cool-down", "quality", effort("walk", 120, "s")),
            ],
            id="cool-down only",
        ),
        pytest.param([block("b1 strength", "sets", rounds(5, HEAVY))], id="heavy"),
    ],
)
def test_hard_and_cold(parts: list[Any]) -> None:
    assert about("warm-up-missing", *parts) == ["total"]


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param(
            [block("b1 warm-up", "quality"), block("b2 conditioning", "for-time")], id="warm"
        ),
        pytest.param(
            [block("b1 mobility", "quality"), block("b2 strength", "sets", HEAVY)],
            id="mobility first",
        ),
        pytest.param(
            [advice("warm-up"), block("b2 conditioning", "for-time")], id="your usual one"
        ),
        pytest.param(
            [claim("in-description", "warm-up"), block("b2 conditioning", "for-time")],
            id="in the description",
        ),
        pytest.param(
            [block("b1 conditioning", "quality", rounds(3, effort("sit-to-stand", 8)))],
            id="easy rounds",
        ),
        pytest.param(
            [block("b1 strength", "sets", rounds(3, effort("dead-bug", 8)))], id="no load"
        ),
        pytest.param(
            [block("b1 conditioning", "for-time", effort("cat-cow", 6), effort("burpee", 50))],
            id="told as one with its mobility",
        ),
        pytest.param([], id="nothing"),
    ],
)
def test_warm_or_easy(parts: list[Any]) -> None:
    assert about("warm-up-missing", *parts) == []


def asks(movement: str, number: Any = None, unit: str = "reps", **more: Any) -> list[str]:
    return about(
        "amount-implausible",
        block("b1 conditioning", "for-time", effort(movement, number, unit, **more)),
    )


def load(number: float, unit: str) -> Any:
    return ({"low": number, "high": number, "unit": unit},)


@pytest.mark.parametrize(
    ("movement", "more"),
    [
        pytest.param("run", {"number": 50000, "unit": "m"}, id="metres for kilometres"),
        pytest.param("push-up", {"number": 2016}, id="twenty sixteen"),
        pytest.param("plank", {"number": 2700, "unit": "s"}, id="45 minutes for 45 seconds"),
        pytest.param("kettlebell-swing", {"number": 20, "load": load(240, "kg")}, id="240 for 24"),
        pytest.param("kettlebell-swing", {"number": 20, "load": load(530, "lb")}, id="530 for 53"),
        pytest.param("back-squat", {"number": 5, "load": load(750, "%1rm")}, id="750 %"),
        pytest.param("walking-lunge", {"number": 6000, "unit": "m"}, id="far to lunge"),
        pytest.param("row", {"number": 2, "unit": "m"}, id="2 m for 2 km"),
        pytest.param("pull-up", {"number": 500}, id="500 for 50"),
    ],
)
def test_a_slip(movement: str, more: dict[str, Any]) -> None:
    assert asks(movement, **more) == [movement]


def test_a_rung_that_is_a_slip() -> None:
    made = block("b1 conditioning", "for-time", ladder((2016, 12, 8), effort("push-up")))
    assert about("amount-implausible", made) == ["push-up"]


@pytest.mark.parametrize(
    ("movement", "more"),
    [
        pytest.param("run", {"number": 42195, "unit": "m"}, id="a marathon"),
        pytest.param("burpee", {"number": 100}, id="hard"),
        pytest.param("single-under", {"number": 1000}, id="a thousand turns"),
        pytest.param("push-up", {"number": 92}, id="a full score in two minutes (US Navy)"),
        pytest.param("pull-up", {"number": 23}, id="a full score (USMC)"),
        pytest.param("plank", {"number": 225, "unit": "s"}, id="a full score, 3:45 (USMC)"),
        pytest.param("row", {"number": 2000, "unit": "m"}, id="the usual test distance"),
        pytest.param("sprint", {"number": 10, "unit": "m"}, id="ten metres"),
        pytest.param("kettlebell-swing", {"number": 15, "load": load(53, "lb")}, id="24 kg"),
        pytest.param("back-squat", {"number": 3, "load": load(90, "%1rm")}, id="90 %"),
        pytest.param("push-up", {"max": True}, id="as many as possible"),
        pytest.param("wobble-flip", {"number": 9999}, id="not in the catalogue"),
        pytest.param("savasana", {"number": 900, "unit": "s"}, id="a long rest"),
    ],
)
def test_merely_hard(movement: str, more: dict[str, Any]) -> None:
    assert asks(movement, **more) == []
