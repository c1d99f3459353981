"""No row of the scores is under its floor; `python tests/accuracy/floor.py` prints them."""

import pytest
from accuracy.floor import SETS, floors, measured, under


@pytest.mark.parametrize("talks", SETS)
def test_no_score_is_under_its_floor(talks: str) -> None:
    assert under(talks) == []


@pytest.mark.parametrize("talks", SETS)
def test_every_floor_is_of_a_row(talks: str) -> None:
    assert set(floors()[talks]) == set(measured(talks))
