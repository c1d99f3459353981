"""Every sample has its plan and a note beside it; `python tests/samples.py --write` renews them."""

from pathlib import Path

import pytest
from samples import SAMPLES, is_current, talks


@pytest.mark.parametrize("talk", talks(), ids=lambda talk: talk.parent.name)
def test_the_plan_beside_the_talk_is_current(talk: Path) -> None:
    assert is_current(talk), "run python tests/samples.py --write and look at what changed"


def test_every_sample_has_one_talk_and_a_note() -> None:
    folders = sorted(path for path in SAMPLES.iterdir() if path.is_dir())
    assert [talk.parent for talk in talks()] == folders
    assert all((folder / "README.md").is_file() for folder in folders)
