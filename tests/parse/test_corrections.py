"""What is taken back, by the words that are left to read."""

import pytest
from readings import reading

from cuewright.parse.corrections import corrections, taken_back


def kept(text: str) -> str:
    """The words of ``text`` that stand."""
    read = reading(text)
    without = taken_back(read, corrections(read))
    return " ".join(token.norm for at, token in enumerate(read.tokens) if at not in without)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ten, sorry, twelve burpees", "twelve burpees"),
        ("fifty, uh no, thirty air squats", "thirty air squats"),
        ("forty box jumps, no wait, forty step ups", "forty step ups"),
        ("ten burpees, make that twelve", "burpees twelve"),
        ("four sets of ten, sorry, three sets", "three sets"),
        ("a cap of 20 minutes, make it 25 minutes, sorry, 30 minutes", None),
    ],
)
def test_the_right_number_stands(text: str, expected: str | None) -> None:
    said = kept(text)
    assert said == expected if expected else said.endswith("30 minutes")


@pytest.mark.parametrize(
    "text",
    [
        "ten burpees and twelve air squats",
        "hang on to the bar for ten then swing for ten",
        "ten burpees with no rest then twelve air squats",
        "sorry i am late, ten burpees",
        "ten burpees and that is all i have to say on the matter, sorry, twelve",
    ],
)
def test_nothing_is_taken_back(text: str) -> None:
    read = reading(text)
    assert taken_back(read, corrections(read)) == frozenset()


def test_a_number_without_the_unit_of_the_wrong_one_is_left_out() -> None:
    assert kept("in 20 minutes, make that 25, for time") == "in for time"
