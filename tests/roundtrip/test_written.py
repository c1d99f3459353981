"""What is written down is read back: structure, movements, amounts, sides and rounds, in order."""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from roundtrip.comparing import asked, kept
from roundtrip.speaking import CONSTRUCTS
from roundtrip.writing import LAYOUTS, written
from written.reading import plan

LEAST = 0.97
"""Blocks that are read back, in any layout."""
DRAWS = 12


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_layout_is_read_back(layout: str) -> None:
    right = told = 0
    for seed in range(DRAWS):
        sheet = written(Random(seed), layout)
        wanted = [asked(block) for block in sheet.plan.blocks]
        right += sum(kept(wanted, [asked(block) for block in plan(sheet.text).blocks]))
        told += len(wanted)
    assert right >= LEAST * told


@settings(max_examples=40, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    layout=st.sampled_from(LAYOUTS),
    construct=st.sampled_from([*CONSTRUCTS]),
)
def test_no_effort_is_quoted_from_another_line(seed: int, layout: str, construct: str) -> None:
    text = written(Random(seed), layout, construct).text
    lines = text.splitlines()
    for block in plan(text).blocks:
        for said in block.said:
            assert said.line is not None
            assert layout == "web editor" or said.quote.split()[0] in lines[said.line - 1]
