"""On a talk in which nothing is wrong a careful editor says little."""

import json
from collections import Counter
from pathlib import Path

import pytest

from cuewright.flow import read_plan

TESTS = Path(__file__).parents[1]
MOST = {"error": 0, "warning": 1, "note": 3}


def clean_talks() -> list[Path]:
    """Every talk whose gold lists no finding."""
    golds = sorted([*TESTS.glob("corpus/*.gold.json"), *TESTS.glob("talks/*.gold.json")])
    clean = [gold for gold in golds if json.loads(gold.read_text("utf-8")).get("findings") == []]
    return [_talk(gold) for gold in clean]


def _talk(gold: Path) -> Path:
    name = gold.name.removesuffix(".gold.json")
    kinds = [gold.with_name(f"{name}.{kind}") for kind in ("vtt", "srt", "txt", "json")]
    return next(path for path in kinds if path.exists())


def test_there_are_clean_talks() -> None:
    assert len(clean_talks()) > 10


@pytest.mark.parametrize("talk", clean_talks(), ids=lambda talk: talk.stem)
def test_few_findings_on_a_clean_talk(talk: Path) -> None:
    found = Counter(finding.severity for finding in read_plan(talk).findings)
    assert all(found[severity] <= most for severity, most in MOST.items()), found
