"""Every talk with a description: a true one has no finding, a corrected one neither."""

import json
from pathlib import Path

import pytest

from cuewright import compare

HERE = Path(__file__).parents[1]
DESCRIPTIONS = [p for s in ("corpus", "talks") for p in sorted((HERE / s).glob("*.description.md"))]


def talk_of(description: Path) -> Path:
    name = description.name.removesuffix(".description.md")
    beside = description.parent.glob(f"{name}.*")
    return next(p for p in beside if p.suffix != ".md" and not p.name.endswith(".gold.json"))


@pytest.mark.parametrize("description", DESCRIPTIONS, ids=lambda path: path.name.split(".")[0])
def test_a_corrected_description_has_no_finding(description: Path, tmp_path: Path) -> None:
    talk = talk_of(description)
    made = compare(talk, description)
    assert made.remaining == ()
    corrected = tmp_path / "corrected.md"
    corrected.write_text(made.corrected, "utf-8")
    assert compare(talk, corrected).findings == ()
    gold = description.with_name(description.name.replace(".description.md", ".gold.json"))
    if not json.loads(gold.read_text("utf-8"))["compare"]:
        assert made.findings == ()
