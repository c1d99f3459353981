"""What is said aloud is read back: structure, movements, amounts, sides and rounds, in order."""

from random import Random

import pytest
from roundtrip.comparing import asked, heard
from roundtrip.speaking import CONSTRUCTS, session

SEEDS = range(8)


@pytest.mark.parametrize("construct", CONSTRUCTS)
@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_said_in_sentences_is_read_back(construct: str, seed: int) -> None:
    spoken = session(Random(seed), work=(construct,), flat=False)
    got = [asked(block) for block in heard(spoken).blocks]
    assert got == [asked(block) for block in spoken.plan.blocks], spoken.text
