"""Short phrases and the structures they state."""

import pytest
from readings import reading

from cuewright.parse.spans import row
from cuewright.parse.structures import Mark, marks


def structures(text: str) -> list[Mark]:
    read = reading(text)
    return marks(row(read, 0, len(read.tokens)), read.tokens)


def short(mark: Mark) -> str:
    """A mark as its kind and the numbers it keeps: ``intervals 40 20``."""
    numbers = [n for a in mark.amounts for n in (a.values or (a.low,))]
    return " ".join([mark.kind, *(f"{n:g}" for n in numbers if n is not None)])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("three easy rounds", ["rounds 3"]),
        ("four times through", ["turns 4"]),
        ("do all of that twice", ["turns 2"]),
        ("five sets", ["sets 5"]),
        ("five by five", ["by 5 5"]),
        ("five sets of three", ["by 5 3"]),
        ("five sets of three squats", ["sets 5"]),
        ("every two minutes", ["every 120"]),
        ("every minute on the minute", ["every"]),
        ("it's an emom", ["emom"]),
        ("an amrap", ["amrap"]),
        ("forty seconds on twenty seconds off", ["intervals 40 20"]),
        ("work for forty seconds rest for twenty seconds", ["intervals 40 20"]),
        ("thirty seconds of rowing then thirty seconds rest", ["intervals 30 30"]),
        ("rest ninety seconds", ["rest 90"]),
        ("two minutes between sets", ["rest 120"]),
        ("a cap of seven minutes", ["cap 420"]),
        ("there's no cap", ["no-cap"]),
        ("twenty one fifteen nine", ["ladder 21 15 9"]),
        ("thirty seconds each", ["share 30"]),
        ("minute two", ["slot 2"]),
    ],
)
def test_what_is_stated(text: str, expected: list[str]) -> None:
    assert [short(mark) for mark in structures(text)] == expected


@pytest.mark.parametrize(
    "text",
    [
        "on to round three, sets are next",
        "how many times",
        "once through the door",
        "ten each side",
        "stations 1 2 3",
        "every minute counts",
        "one two one two one",
    ],
)
def test_what_states_nothing(text: str) -> None:
    assert structures(text) == []


@pytest.mark.parametrize(
    ("text", "between"),
    [
        ("two minutes between sets", "set"),
        ("rest a minute after each round", "round"),
        ("rest ninety seconds", ""),
    ],
)
def test_a_rest_knows_what_it_stands_between(text: str, between: str) -> None:
    assert [mark.between for mark in structures(text)] == [between]


def test_two_statements_come_in_order_and_apart() -> None:
    first, second = structures("three rounds and rest a minute")
    assert (first.kind, second.kind) == ("rounds", "rest")
    assert first.end <= second.start
