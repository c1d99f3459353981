"""What a session is called, and what day it is."""

import pytest
from parse.telling import heard, plain

from cuewright.divide import divide
from cuewright.normalise import normalise
from cuewright.parse.opening import date, title
from cuewright_models.base import Said
from cuewright_models.plan import Date


def _title(said: str) -> str | None:
    talk = heard(said)
    return title(talk, divide(normalise(talk)))


def _date(said: str) -> Date | None:
    talk = heard(said)
    divided = divide(normalise(talk))
    tokens = divided.reading.tokens

    def quote(start: int, end: int) -> Said:
        return talk.quote(tokens[start].first, tokens[end - 1].last)

    return date(divided, quote)


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("Evening all. Tonight's session is called Cold Snap. Warm up first.", "Cold Snap"),
        ("So this one's called low water because there isn't any", "Low Water"),
        ("I've named it Cold Snap, because it is.", "Cold Snap"),
        ("We're calling this one Weir and Back. Warm up first.", "Weir and Back"),
        ("today's workout is called hill and dale it's five rounds", "Hill and Dale"),
        ("it's got a name and the name is cold snap so here we go", "Cold Snap"),
        ("Tonight has a name: Cold Snap. Warm up first.", "Cold Snap"),
        ("The name of today's session is Long Way Home, and it's long.", "Long Way Home"),
        ("Today we're doing Long Way Home, and you'll see why.", "Long Way Home"),
        ("Tonight's piece goes by the name of River Legs.", "River Legs"),
        ("i call this one river legs and you'll see why", "River Legs"),
        ("my name is iona and tonight is called wet then dry", "Wet then Dry"),
        ("today's called the short way to the weir and it's short", "The Short Way to the Weir"),
        ("tonight's session is called mind the gap nobody needs a boat for it", "Mind the Gap"),
        ("tonight's session is called last boat's due because it is", "Last Boat's Due"),
        ("The session has a name, Iona chose, it's called Cold Snap.", "Cold Snap"),
        ("This session's known as River Legs. Warm up first.", "River Legs"),
    ],
)
def test_the_session_is_called(said: str, name: str) -> None:
    found = _title(said)
    assert found is not None
    assert found.lower() == name.lower()


@pytest.mark.parametrize(
    "said",
    [
        "My name is Iona. Warm up first, ten air squats.",
        "There's a stretch called pigeon. Hold it for a minute.",
        "Last week's session was called Cold Snap. Ten air squats.",
        "Call it 45 seconds for the row.",
        "My dog is called Biscuit. Ten air squats.",
        "The name of the game is patience. It's Monday.",
    ],
)
def test_other_names_are_no_title(said: str) -> None:
    assert _title(said) is None


def test_captions_without_capitals_give_a_title_in_title_case() -> None:
    said = "Tonight's session is called Band in the Bag. Warm up first, ten air squats."
    assert _title(plain(said)) == "Band in the Bag"


@pytest.mark.parametrize(
    ("said", "reads"),
    [
        ("It's Thursday the 12th of November.", (None, 11, 12, "thursday")),
        ("so it's the 23rd of november and it's a monday", (None, 11, 23, "monday")),
        ("Today is Sunday the 11th of October 2026.", (2026, 10, 11, "sunday")),
        ("It's Thursday night conditioning.", (None, None, None, "thursday")),
        ("good morning happy monday everybody", (None, None, None, "monday")),
        ("This is Iona, Tuesday club night, the boathouse.", (None, None, None, "tuesday")),
        ("Welcome. Here we are on a wet Thursday night.", (None, None, None, "thursday")),
        ("Withy Reach land training. Saturday. Warm up first.", (None, None, None, "saturday")),
        (
            "it went like a relay race it's thursday so you've a day's rest",
            (None, None, None, "thursday"),
        ),
        (
            "It's Friday the 20th of May. The regatta is on Saturday the 28th.",
            (None, 5, 20, "friday"),
        ),
    ],
)
def test_the_day_of_the_session(said: str, reads: tuple[object, ...]) -> None:
    day = _date(said)
    assert day is not None
    assert (day.year, day.month, day.day, day.weekday) == reads
    assert all(place.quote for place in day.said)


@pytest.mark.parametrize(
    "said",
    [
        "The head race is on Sunday the 18th of October.",
        "No class next Thursday, the hall is taken.",
        "Last Monday it was eight rounds.",
        "Iona turns seventy on Saturday.",
        "Leave machine nine alone until Saturday.",
        "He sneezed on the Thursday and had to sit down.",
    ],
)
def test_other_days_are_not_the_session_s(said: str) -> None:
    assert _date(f"{said} Ten air squats.") is None
