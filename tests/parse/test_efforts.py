"""Short phrases and the efforts that are bound in them."""

import pytest
from readings import reading

from cuewright.parse.efforts import Bound, efforts
from cuewright.parse.spans import row
from cuewright.parse.structures import marks


def bound(text: str) -> list[Bound]:
    read = reading(text)
    spans = row(read, 0, len(read.tokens))
    return efforts(spans, marks(spans, read.tokens), read.tokens)


def short(one: Bound) -> str:
    """An effort as ``10 push-up``, ``500 m row``, ``max plank`` or ``push-up``."""
    if one.max or one.amount is None:
        return f"max {one.movement}" if one.max else one.movement
    unit = f" {one.amount.unit}" if one.amount.unit else ""
    return f"{one.amount.low:g}{unit} {one.movement}"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ten push ups", ["10 push-up"]),
        ("push ups, ten of those", ["10 push-up"]),
        ("row 500 metres", ["500 m row"]),
        ("ten push ups and twenty air squats", ["10 push-up", "20 air-squat"]),
        ("push ups for ten and then air squats for twenty", ["10 push-up", "20 air-squat"]),
        ("ten push ups and air squats", ["10 push-up", "air-squat"]),
        ("five rounds of ten push ups", ["10 push-up"]),
        ("a plank as long as you can", ["max plank"]),
        ("run out to the gate and back that's 1200 metres", ["1200 m run"]),
        ("twenty metres: inchworms and bear crawls", ["20 m inchworm", "20 m bear-crawl"]),
        ("when you've done your four you run 400 metres", ["400 m run"]),
    ],
)
def test_each_movement_takes_its_own_amount(text: str, expected: list[str]) -> None:
    assert [short(one) for one in bound(text)] == expected


@pytest.mark.parametrize("text", ["no burpees today", "without burpees", "it's not a sprint"])
def test_what_is_refused_is_no_effort(text: str) -> None:
    assert bound(text) == []


def test_what_is_offered_instead_is_an_alternative() -> None:
    (one,) = bound("row or bike 500 metres")
    assert (short(one), one.alternatives) == ("500 m row", ("bike",))


@pytest.mark.parametrize(
    ("text", "sided"),
    [
        ("ten lunges each leg", True),
        ("ten lunges on each of your legs", False),
        ("ten lunges a side", True),
        ("twenty step ups, ten each leg", False),
        ("twenty lunges each leg, forty in all", False),
        ("ten lunges. Then each leg rests", False),
        ("ten lunges", False),
    ],
)
def test_amounts_for_each_side(text: str, sided: bool) -> None:
    assert bound(text)[0].per_side is sided


def test_an_effort_covers_its_amount_and_its_side() -> None:
    (one,) = bound("then ten lunges each leg please")
    assert (one.first, one.start, one.end, one.last) == (1, 2, 3, 5)
