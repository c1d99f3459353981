"""Test cases of public libraries: never fewer right than before.

Sources: microsoft/Recognizers-Text (MIT), facebook/duckling (BSD), nielstron/quantulum3
(MIT), converted; and forty phrases of the trade. ``CUEWRIGHT_PUBLIC_CASES`` names the
folder; `python tests/accuracy/public_cases.py FOLDER --misses` prints what is missed.
"""

import os
from pathlib import Path

import pytest
from accuracy.public_cases import cases, declined, floors, right

FOLDER = Path(os.environ.get("CUEWRIGHT_PUBLIC_CASES", ""))


@pytest.mark.parametrize("name", floors())
def test_no_fewer_right_than_the_floor(name: str) -> None:
    path = FOLDER / f"{name}.jsonl"
    assert path.is_file(), f"CUEWRIGHT_PUBLIC_CASES: there is no {path}; name the folder of cases"
    assert sum(map(right, cases(path))) >= floors()[name]


def test_declined_cases_exist_and_are_still_read_otherwise() -> None:
    every = {case.text: case for path in FOLDER.glob("*.jsonl") for case in cases(path)}
    assert set(declined()) <= set(every)
    assert [text for text in declined() if right(every[text])] == []
