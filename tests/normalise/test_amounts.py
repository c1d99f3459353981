"""Spoken amounts against outside references; the ways to say them are in tests/meanings."""

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from normalise.saying import heard, reading
from num2words import num2words

from cuewright.normalise.amounts import amounts
from cuewright.normalise.quantities import UNITS

STEADY = settings(derandomize=True, deadline=None)
PINT = pint.UnitRegistry()
WORDS = (
    "one two five ten fifteen twenty thirty hundred thousand and a an half quarter point oh to or"
    " by x second seconds minute minutes hour mile k kilos pounds percent first third the of in on"
    " off under at least more than max rest each reps squats 5 21 400 1:30 2.5 3rd - / % , . may"
    " march monday past pm between from dozen couple fives 16s this next"
)
VOCABULARY = st.sampled_from(WORDS.split())


@pytest.mark.parametrize(
    ("said", "pauses", "reads"),
    [
        ("twenty one squats", {}, ["21"]),
        ("twenty one squats", {"one": 0.4}, ["20", "1"]),
        ("one fifty", {"fifty": 0.4}, ["1", "50"]),
        ("twenty one fifteen nine", {"fifteen": 0.5, "nine": 0.5}, ["21 15 9 list"]),
    ],
)
def test_a_silence_parts_number_words(
    said: str, pauses: dict[str, float], reads: list[str]
) -> None:
    assert reading(said, pauses) == reads


@STEADY
@given(st.integers(0, 99_999))
def test_numbers_in_words_and_digits_read_back(number: int) -> None:
    """Reference for the words: num2words."""
    for said in (num2words(number), num2words(number).replace(",", ""), str(number), f"{number:,}"):
        found = amounts(heard(f"do {said.replace(', ', ' ')} squats"))
        assert [(each.low, each.high) for each in found] == [(number, number)], said


@STEADY
@given(st.integers(1, 99), st.sampled_from(sorted(UNITS)))
def test_units_convert_as_in_pint(number: int, name: str) -> None:
    """Reference: pint, whose definitions follow NIST SP 811 (yard 0.9144 m, mile 1760 yd)."""
    unit = UNITS[name]
    if name in ("month", "percent"):  # a month is 30 days here; per cent stays per cent
        return
    asked = "kilocalorie" if name == "calorie" else name
    target = {"kcal": "kilocalorie", "m": "metre", "s": "second"}.get(unit.unit, unit.unit)
    expected = PINT.Quantity(number, asked).to(target).magnitude
    (found,) = amounts(heard(f"{number} {unit.said[0]}"))
    assert found.unit == unit.unit
    assert found.low == pytest.approx(expected, rel=1e-5)


@STEADY
@given(st.lists(VOCABULARY, max_size=30))
def test_amounts_are_in_order_without_overlap(said: list[str]) -> None:
    tokens = heard(" ".join(said))
    end = 0
    for found in amounts(tokens):
        assert end <= found.start < found.end <= len(tokens)
        end = found.end


@STEADY
@given(st.lists(VOCABULARY, max_size=30))
def test_ends_are_in_order_and_within_the_values(said: list[str]) -> None:
    for found in amounts(heard(" ".join(said))):
        if found.low is not None and found.high is not None:
            assert found.low <= found.high
        if found.shape in ("list", "pair"):
            assert (found.low, found.high) == (min(found.values), max(found.values))
