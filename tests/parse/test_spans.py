"""Short phrases as rows of letters; what the letters stand for is told in ``spans.py``."""

import pytest
from readings import reading

from cuewright.parse.spans import row


def letters(text: str) -> str:
    read = reading(text)
    return row(read, 0, len(read.tokens)).letters


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("five rounds", "nR"),
        ("ten push ups", "nM"),
        ("500 metres of rowing", "dfM"),
        ("rest ninety seconds", "Zt"),
        ("forty seconds on twenty seconds off", "tOtF"),
        ("twelve calories", "c"),
        ("24 kilos", "k"),
        ("twenty one fifteen nine", "l"),
        ("five by five", "b"),
        ("the second round", "eoR"),
        ("all of that twice", "efe2"),
        ("max push ups", "xM"),
        ("as many good ones as you can", "x"),
        ("as long as possible", "x"),
    ],
)
def test_each_thing_said_is_one_letter(text: str, expected: str) -> None:
    assert letters(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "hold two dumbbells",
        "on station four",
        "six of you",
        "a one rep max",
        "when you've done your four you run",
        "what is left of your ninety seconds",
    ],
)
def test_a_number_that_only_names_something_is_no_amount(text: str) -> None:
    row_letters = letters(text)
    assert "#" in row_letters
    assert "n" not in row_letters


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("using a 24", "k"),
        ("155 for the men", "k"),
        ("24 on the bar", "k"),
        ("a twenty count", "n"),
    ],
)
def test_a_bare_number_may_be_a_weight(text: str, expected: str) -> None:
    assert expected in letters(text)


def test_a_number_said_again_with_its_unit_counts_once() -> None:
    assert letters("thirty thirty metres") == "d"


def test_what_was_taken_back_is_left_out() -> None:
    read = reading("ten push ups")
    assert row(read, 0, 3, without=frozenset((0,))).letters == "M"


def test_a_movement_that_sticks_out_is_read_as_words() -> None:
    read = reading("ten push ups")
    assert "M" not in row(read, 0, 2).letters


def test_an_empty_stretch_is_an_empty_row() -> None:
    nothing = row(reading("ten push ups"), 1, 1)
    assert (nothing.letters, nothing.start, nothing.end) == ("", 0, 0)
