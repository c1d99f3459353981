"""The descriptions of the corpus, and of our own talks, read without their talk."""

from pathlib import Path

import pytest
from accuracy.descriptions import FOLDERS, f1, pairs

LEAST = 0.95
"""F1 of the efforts."""


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_the_descriptions_are_read(folder: Path) -> None:
    rows = list(pairs(folder))
    assert len(rows) >= 7
    assert f1(rows)[2] >= LEAST
